import type { Db } from '../../platform/db/client.ts';
import { Decimal } from '../../../shared/decimal.ts';
import { dateInZone } from '../../platform/clock.ts';
import { getCommission } from '../commissions/index.ts';
import * as store from './documents.store.ts';
import { fact, frameFor, type Frame } from './frame.ts';
import type { Block, Fact, Paper } from './paper.ts';
import { alikePieces, drawingOf, pieceFacts } from './piece-words.ts';

/** Keeps the letter as it is sent, in the open transaction: what changes in the book later changes nothing in it. */
export function freezeLetter(tx: Db, quote: store.QuoteRow, at: Date): void {
  if (store.findSentLetter(tx, quote.id)) return;
  store.insertSentLetter(tx, { quoteId: quote.id, paper: writeLetter(tx, quote), createdAt: at.toISOString() });
}

/** The letter of a version: as it was sent, or as it would be sent now. */
export function quoteLetter(db: Db, quote: store.QuoteRow): Paper {
  return store.findSentLetter(db, quote.id) ?? writeLetter(db, quote);
}

function writeLetter(db: Db, quote: store.QuoteRow): Paper {
  const frame = frameFor(db, getCommission(db, quote.commissionId));
  const { wording, clientName } = frame;
  const { say } = wording;
  return frame.paper('paper.quote', quote.sentAt ?? quote.createdAt, [
    { kind: 'facts', rows: fact(say('label.version'), String(quote.number)) },
    ...(quote.sentAt === null ? [{ kind: 'notice' as const, text: say('quote.draft') }] : []),
    ...(clientName === null ? [] : [{ kind: 'paragraph' as const, text: say('quote.greeting', { name: clientName }) }]),
    { kind: 'paragraph', text: say('quote.intro') },
    ...whatIsMade(db, quote, frame),
    { kind: 'heading', text: say('label.price') },
    { kind: 'facts', rows: priceFacts(quote, frame) },
    { kind: 'heading', text: say('quote.metal_clause_title') },
    {
      kind: 'paragraph',
      text: say('quote.metal_clause', { percent: wording.percent(frame.settings.finePriceMoveFraction) }),
    },
    ...propertyBlocks(frame),
    ...fromYou(quote, frame),
    ...yes(quote, frame),
  ]);
}

function whatIsMade(db: Db, quote: store.QuoteRow, frame: Frame): Block[] {
  const { wording, commission } = frame;
  const { say } = wording;
  const secret = commission.quiet;
  const kinds = alikePieces(db, commission.id);
  const drawn = kinds.filter(({ design }) => design !== undefined);
  const stones = (quote.request.passThrough ?? [])
    .filter(({ kind }) => kind === 'stone' || kind === 'finding')
    .map(({ id }) => id);
  const caption = (title: string) => (secret || drawn.length === 1 ? say('quote.drawing') : say('quote.drawing_of', { title }));
  return [
    { kind: 'heading', text: say('label.pieces') },
    {
      kind: 'facts',
      rows: [
        ...fact(say('label.quantity'), say('quote.pieces', { count: commission.quantity })),
        ...fact(say('quote.wish'), secret ? null : commission.wish),
      ],
    },
    ...kinds.flatMap(({ title, design }): Block[] => [
      ...(secret || kinds.length === 1 ? [] : [{ kind: 'heading' as const, text: title }]),
      { kind: 'facts', rows: pieceFacts(design, frame) },
    ]),
    { kind: 'facts', rows: fact(say('label.stones'), stones.length === 0 ? null : stones.join(', ')) },
    ...drawn.map(({ title, design }) => drawingOf(design!, caption(title))),
  ];
}

/** What is charged, in figures that add up; no line of what it costs us. */
export function priceFacts(
  { answer, request, currency, grossMinor, netMinor, depositMinor, validUntil }: store.QuoteRow,
  { wording, commission }: Pick<Frame, 'wording' | 'commission'>,
): Fact[] {
  const { say, money, date, percent } = wording;
  const { discountMinor } = answer.totals;
  const { rateFraction } = request.policy.tax;
  const taxed = grossMinor !== netMinor;
  const roundingMinor = roundingOf(answer);
  const pieces = Math.max(1, ...request.labour.map(({ run }) => run?.pieces ?? 1));
  const each = new Decimal(grossMinor).div(pieces).toDecimalPlaces(0, Decimal.ROUND_HALF_UP);
  return [
    ...fact(
      say('label.price'),
      discountMinor > 0 || roundingMinor !== 0 ? money(netMinor - roundingMinor + discountMinor, currency) : null,
    ),
    ...fact(say('label.discount'), discountMinor > 0 ? money(-discountMinor, currency) : null),
    ...fact(say('label.rounding'), roundingMinor === 0 ? null : money(roundingMinor, currency)),
    ...fact(say('label.net'), taxed ? money(netMinor, currency) : null),
    ...fact(say('label.tax', { percent: percent(rateFraction) }), taxed ? money(grossMinor - netMinor, currency) : null),
    ...fact(say('label.gross'), money(grossMinor, currency), true),
    ...fact(say('label.gross_each', { count: pieces }), pieces > 1 ? money(each.toNumber(), currency) : null),
    ...fact(say('label.deposit'), depositMinor > 0 ? money(depositMinor, currency) : null),
    ...fact(say('label.promised'), commission.dueOn === null ? null : date(commission.dueOn)),
    ...fact(say('label.valid_until'), date(validUntil)),
  ];
}

/** What a gross that was rounded up adds to the net. */
export function roundingOf({ sold = [] }: Partial<Pick<store.QuoteRow['answer'], 'sold'>>): number {
  return sold.find(({ kind }) => kind === 'rounding')?.netMinor ?? 0;
}

function propertyBlocks({ wording, commission, settings }: Frame): Block[] {
  const { say, money, grams } = wording;
  if (commission.clientProperty.length === 0) return [];
  return [
    { kind: 'heading', text: say('quote.property_title') },
    {
      kind: 'list',
      items: commission.clientProperty.map(({ what, weightG, declaredValueMinor }) =>
        declaredValueMinor === undefined
          ? say('quote.property_line', { what, weight: grams(weightG) })
          : say('quote.property_line_valued', {
              what,
              weight: grams(weightG),
              value: money(declaredValueMinor, settings.currency),
            }),
      ),
    },
    { kind: 'paragraph', text: say('quote.property') },
  ];
}

function fromYou({ validUntil, depositMinor, currency }: store.QuoteRow, { wording, settings }: Frame): Block[] {
  const { say, date, money } = wording;
  return [
    { kind: 'heading', text: say('quote.needed_title') },
    {
      kind: 'list',
      items: [
        say(settings.privateLinks.on ? 'quote.needed_yes' : 'quote.needed_yes_signature', { date: date(validUntil) }),
        ...(depositMinor > 0 ? [say('quote.needed_deposit', { amount: money(depositMinor, currency) })] : []),
      ],
    },
    { kind: 'heading', text: say('quote.changes_title') },
    { kind: 'paragraph', text: settings.papers.terms === '' ? say('quote.changes') : settings.papers.terms },
  ];
}

function yes({ number, sentAt, createdAt, grossMinor, currency }: store.QuoteRow, frame: Frame): Block[] {
  const { wording, settings } = frame;
  const { say, date, money } = wording;
  const on = dateInZone(new Date(sentAt ?? createdAt), settings.timeZone);
  return [
    { kind: 'heading', text: say('quote.yes_title') },
    {
      kind: 'paragraph',
      text: say('quote.yes', { version: number, date: date(on), amount: money(grossMinor, currency) }),
    },
    { kind: 'blanks', labels: [say('label.place_and_date'), say('label.signature')] },
  ];
}
