import { convertUnit } from '../../../shared/units/convert-unit.ts';
import { dateInZone } from '../../platform/clock.ts';
import type { Db } from '../../platform/db/client.ts';
import { getSettings, type Settings } from '../settings/index.ts';
import { countedLots, getLot, getProduct, getStocktake, reorderList, type ReorderList } from '../stock/index.ts';
import { fact, linesOf } from './frame.ts';
import type { MessageKey } from './messages/en.ts';
import type { Block, Paper } from './paper.ts';
import { wordingFor, type Wording } from './wording.ts';

type Supplier = ReorderList['suppliers'][number];
type Line = Supplier['lines'][number];

/** What to order, a table a supplier: what, how many packs, why, and about what it costs. For those who see prices. */
export function reorderPaper(db: Db, at: Date): Paper {
  const { paper, wording } = studioPaper(db, at);
  const { suppliers, supplies } = reorderList(db, { now: at, all: false });
  const { say } = wording;
  return paper('paper.reorder', null, [
    ...(suppliers.length + supplies.length === 0 ? [{ kind: 'paragraph' as const, text: say('reorder.none') }] : []),
    ...suppliers.flatMap((supplier) => ofSupplier(supplier, wording)),
    ...(supplies.length === 0 ? [] : ofSupplies(supplies, wording)),
    ...(suppliers.length === 0 ? [] : [{ kind: 'paragraph' as const, text: say('reorder.left') }]),
  ]);
}

function ofSupplier({ supplier, lines, total, minimum, minimumMet }: Supplier, wording: Wording): Block[] {
  const { say, money } = wording;
  const least = { minimum: money(minimum.amountMinor, minimum.currency) };
  const weeks = Math.max(...lines.map(({ leadWeeks }) => leadWeeks));
  return [
    { kind: 'heading', text: supplier },
    {
      kind: 'table',
      head: [say('reorder.what'), say('reorder.how_many'), say('reorder.why'), say('reorder.cost')],
      rows: lines.map((line) => [
        `${withForm(line.name, line.form === null ? '' : say(`form.${line.form}`))}\n${line.code}`,
        howMany(line, wording),
        why(line, wording),
        `${money(line.cost.amountMinor, line.cost.currency)}\n${say('reorder.price', { price: priceOf(line, wording) })}`,
      ]),
      total: [say('reorder.total'), '', '', money(total.amountMinor, total.currency)],
      amounts: true,
    },
    {
      kind: 'paragraph',
      text: [
        ...(weeks > 0 ? [say('reorder.lead', { weeks })] : []),
        ...(minimum.amountMinor > 0 ? [say(minimumMet ? 'reorder.minimum' : 'reorder.under_minimum', least)] : []),
      ].join(' '),
    },
  ];
}

/** Flux, pickle salt, gas, findings and stones: no order of the book is made of them. */
function ofSupplies(supplies: ReorderList['supplies'], { say, money, grams, number }: Wording): Block[] {
  const quantity = (unit: 'g' | 'piece', value: number) =>
    unit === 'g' ? grams(value) : say('reorder.pieces', { count: value, shown: number(value, 0) });
  return [
    { kind: 'heading', text: say('reorder.supplies') },
    {
      kind: 'table',
      head: [say('reorder.what'), say('reorder.how_many'), say('reorder.why'), say('reorder.cost')],
      rows: supplies.map(({ name, supplier, unit, onHand, orderPoint, pack, packs, order, cost }) => [
        supplier === null ? name : `${name}\n${supplier}`,
        say('reorder.supply_packs', { quantity: quantity(unit, order), packs, pack: quantity(unit, pack) }),
        say('reorder.at_point', { position: quantity(unit, onHand), point: quantity(unit, orderPoint) }),
        cost ? money(cost.amountMinor, cost.currency) : '–',
      ]),
      amounts: true,
    },
  ];
}

/** Most packets name their form. */
function withForm(name: string, form: string): string {
  return form === '' || name.toLowerCase().includes(form.toLowerCase()) ? name : `${name}, ${form}`;
}

function howMany({ packs, packG, orderG }: Line, { say, grams, number }: Wording): string {
  const ounces = number(convertUnit({ value: orderG, from: 'g', to: '[oz_tr]' }), 2);
  return say('reorder.packs', { packs, pack: grams(packG), grams: grams(orderG), ounces });
}

function why({ because, positionG, orderPointG, decidedBy }: Line, { say, grams }: Wording): string {
  const given = { position: grams(positionG), point: grams(orderPointG) };
  const point = say(because === 'companion' ? 'reorder.companion' : 'reorder.at_point', given);
  return `${point} (${say(`reorder.decided.${decidedBy}`)})`;
}

/** Up to the six places a unit price is kept with. */
function priceOf({ price, cost }: Line, { locale }: Wording): string {
  const format = new Intl.NumberFormat(locale, { style: 'currency', currency: cost.currency, maximumFractionDigits: 6 });
  return format.format(price.amount as `${number}`);
}

/** Blind: what to count and where to write it, and nothing of what the book says is there. */
export function stocktakeSheet(db: Db, stocktakeId: string): Paper {
  const stocktake = getStocktake(db, stocktakeId);
  const { paper, wording } = studioPaper(db, new Date(stocktake.createdAt));
  const { say } = wording;
  const lots = countedLots(db, stocktakeId).toSorted(
    (a, b) => a.of.localeCompare(b.of) * -1 || a.number.localeCompare(b.number, 'en', { numeric: true }),
  );
  const nameOf = ({ lotId, number, of, product, owner }: (typeof lots)[number]) => {
    const lot = of === 'solder' ? getLot(db, lotId) : undefined;
    const form = lot ? say(`form.${getProduct(db, lot.productId).form}`) : '';
    const more = [
      ...(lot && lot.markOnMetal !== null ? [say('tag.mark', { mark: lot.markOnMetal })] : []),
      ...(owner === 'client' ? [say('count.of_client')] : []),
    ];
    return [`${number}: ${withForm(product, form)}`, ...more].join('\n');
  };
  return paper('paper.stocktake', stocktake.number, [
    { kind: 'paragraph', text: say('count.how') },
    lots.length === 0
      ? { kind: 'paragraph', text: say('count.none') }
      : {
          kind: 'table',
          head: [say('count.lot'), say('count.weighed'), say('count.tare'), say('count.why')],
          rows: lots.map((lot) => [nameOf(lot), '', '', '']),
          amounts: false,
          toWriteIn: true,
        },
    { kind: 'blanks', labels: [say('count.by'), say('count.at')] },
  ]);
}

/** What a paper of the studio for itself is written with: in its language, on its paper, of a day. */
function studioPaper(db: Db, at: Date) {
  const settings: Settings = getSettings(db);
  const wording = wordingFor(settings.language);
  const { say, date } = wording;
  const day = date(dateInZone(at, settings.timeZone));
  return {
    wording,
    paper: (kind: MessageKey, number: string | null, blocks: readonly Block[]): Paper => ({
      language: wording.locale,
      title: `${say(kind)} ${number ?? day}`,
      author: settings.studioName,
      size: settings.papers.size,
      writtenAt: at.toISOString(),
      blocks: [
        { kind: 'letterhead', name: settings.studioName, lines: linesOf(settings.papers.address) },
        { kind: 'title', text: number === null ? say(kind) : `${say(kind)} ${number}` },
        { kind: 'facts', rows: fact(say('label.date'), day) },
        ...blocks.filter((block) => block.kind !== 'paragraph' || block.text !== ''),
      ],
    }),
  };
}
