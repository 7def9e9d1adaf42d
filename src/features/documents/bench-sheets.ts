import { endsOf } from '../../../shared/design/joint-ends.ts';
import type { Form, Joint, Part } from '../../../shared/design/design.ts';
import { drawDesign } from '../../../shared/drawing/draw-design.ts';
import { partSizes } from '../../../shared/drawing/part-sizes.ts';
import { mmToGauge } from '../../../shared/units/gauge.ts';
import type { Db } from '../../platform/db/client.ts';
import type { Actor } from '../../platform/http/actor.ts';
import { getCommission } from '../commissions/index.ts';
import { sheetOf, type Sheet, type SheetHeat } from '../pieces/index.ts';
import { languageOf } from '../preferences/index.ts';
import { getSettings } from '../settings/index.ts';
import {
  cautionWords,
  deferralWords,
  earlierWords,
  flameWords,
  jointNamer,
  partNamer,
  peakWords,
  protectionWords,
} from './bench-words.ts';
import { fact } from './frame.ts';
import type { Block, Fact, Paper } from './paper.ts';
import { metalsOf } from './piece-words.ts';
import { qrPicture } from './qr-picture.ts';
import { wordingFor, type Wording } from './wording.ts';

interface Asked {
  actor: Actor;
  planId: string;
  at: Date;
  /** Where the book was reached. */
  origin: string;
}

interface Words {
  wording: Wording;
  /** A joint by its number and name; of a part its name. */
  name: (id: string) => string;
  part: (id: string) => string;
}

/** All that somebody at the fire has to know of a plan, in their language. */
export function benchSheet(db: Db, asked: Asked): Paper {
  return sheet(db, asked, 'bench_sheet', ({ heats, plan }, words) => ({
    first: [
      { kind: 'notice', text: words.wording.say('sheet.only_version', { version: plan.number }) },
      ...(plan.state === 'in_use' ? [] : [{ kind: 'notice' as const, text: words.wording.say('sheet.not_in_use') }]),
    ],
    heats: heats.map((heat) => step(words, heat, [...doneBy(words, heat), ...earlier(words, heat)], 'sheet')),
  }));
}

/** The same to guess by: with room for what becomes of every earlier joint, and nothing that tells it. */
export function studentSheet(db: Db, asked: Asked): Paper {
  return sheet(db, asked, 'student_sheet', ({ heats, plan, soldersOf }, words) => {
    const { say } = words.wording;
    return {
      first: [
        { kind: 'notice', text: say('sheet.student_version', { version: plan.number }) },
        { kind: 'paragraph', text: say('student.how') },
        { kind: 'notice', text: say('student.yes_title') },
        { kind: 'blanks', labels: [say('student.name'), say('student.tutor')] },
      ],
      heats: heats.map((heat) => step(words, heat, [...doneBy(words, heat), ...guesses(words, heat, soldersOf)], 'student')),
    };
  });
}

type Content = Sheet & { soldersOf: (joint: string) => SheetHeat['product'] };

function sheet(
  db: Db,
  { actor, planId, at, origin }: Asked,
  kind: 'bench_sheet' | 'student_sheet',
  content: (sheet: Content, words: Words) => { first: Block[]; heats: Block[] },
): Paper {
  const found = sheetOf(db, actor, planId);
  const { piece, plan, design, heats } = found;
  const settings = getSettings(db);
  const wording = wordingFor(languageOf(db, actor.personId), settings.language);
  const { say } = wording;
  const { quiet } = getCommission(db, piece.commissionId);
  const title = `${say(`paper.${kind}`)} ${piece.number}`;
  const printed = new Intl.DateTimeFormat(wording.locale, {
    dateStyle: 'medium',
    timeStyle: 'short',
    timeZone: settings.timeZone,
  });
  const soldersOf = (joint: string) => heats.find(({ planned }) => planned.joints.includes(joint))?.product ?? null;
  const address = `${settings.bookAddress === '' ? origin : settings.bookAddress}/pieces/${piece.id}`;
  const caption = say('sheet.drawing');
  const drawing = drawDesign(design, { words: { title: caption, description: caption }, labelled: 'numbers' });
  const words = { wording, name: jointNamer(design.joints), part: partNamer(design.parts) };
  const { first, heats: steps } = content({ ...found, soldersOf }, words);
  return {
    language: wording.locale,
    title,
    footer: `${piece.number}, ${say('sheet.version')} ${plan.number}`,
    author: settings.studioName,
    size: settings.papers.size,
    writtenAt: at.toISOString(),
    blocks: [
      { kind: 'title', text: quiet ? title : `${title}: ${piece.title}` },
      {
        kind: 'facts',
        rows: [
          ...fact(say('sheet.version'), String(plan.number), true),
          ...fact(say('sheet.printed'), printed.format(at)),
          ...fact(say('label.metal'), metalsOf(design.parts, wording).join('\n')),
        ],
      },
      ...first,
      { kind: 'square', svg: qrPicture(address), caption: `${say('sheet.scan')}\n${address}` },
      { kind: 'drawing', svg: drawing, caption },
      ...tables(design.joints, design.parts, words),
      ...steps,
      ...cautions(words, heats),
      { kind: 'paragraph', text: deferralWords(wording) },
    ],
  };
}

function named({ id, name, count = 1 }: Joint | Part): string {
  return `${name ?? id}${count === 1 ? '' : ` × ${count}`}`;
}

function tables(joints: readonly Joint[], parts: readonly Part[], { wording, part: nameOf }: Words): Block[] {
  const { say } = wording;
  const where = (joint: Joint) => {
    const ends = [...new Set(endsOf(joint))].map(nameOf);
    return ends.length === 1 ? say('sheet.closes', { part: ends[0]! }) : ends.join(' – ');
  };
  return [
    {
      kind: 'table',
      head: [say('sheet.joint'), say('sheet.between')],
      rows: joints.map((joint, index) => [`${index + 1}  ${named(joint)}`, where(joint)]),
      amounts: false,
      shares: [0.4, 0.6],
    },
    {
      kind: 'table',
      head: [say('sheet.part'), say('sheet.metal'), say('sheet.sizes'), say('sheet.gauge')],
      rows: parts.map((part) => [
        named(part),
        metalsOf([part], wording).join(', '),
        partSizes(part.form),
        gauges(part.form, wording),
      ]),
      amounts: false,
      shares: [0.25, 0.36, 0.25, 0.14],
    },
  ];
}

/** Of the thickness of sheet or the size of wire, where one of those gauges has it. */
function gauges(form: Form, { number }: Wording): string {
  const sizeMm =
    'thicknessMm' in form
      ? form.thicknessMm
      : form.kind === 'round_wire' || form.kind === 'wire_ring'
        ? form.diameterMm
        : undefined;
  if (sizeMm === undefined || sizeMm < 0.051 || sizeMm > 10.4) return '';
  return `${number(mmToGauge('awg', sizeMm), 1)} AWG`;
}

function step({ wording: { say }, name }: Words, heat: SheetHeat, rows: Fact[], kind: 'sheet' | 'student'): Block {
  const { joints } = heat.planned;
  const isAnneal = heat.product === null;
  return {
    kind: 'step',
    mark: String(heat.number),
    title: say('sheet.heat_title', { count: isAnneal ? 0 : joints.length, joints: joints.map(name).join(', ') }),
    rows,
    blanks: kind === 'sheet' ? [say('sheet.done'), say('sheet.initials'), say('sheet.note')] : [say('student.why')],
  };
}

/** What is done, with what. */
function doneBy(
  { wording, name, part }: Words,
  { planned, checked, product, lots, placedG, chips, fluxName, quench }: SheetHeat,
): Fact[] {
  const { say, number } = wording;
  const lot = lots.map(({ number: lotNumber, markOnMetal }) =>
    markOnMetal === null ? lotNumber : say('sheet.lot_words', { number: lotNumber, mark: markOnMetal }),
  );
  const flows = product && { name: product.name, grade: product.gradeWord, temperature: `${number(product.liquidusC, 0)} °C` };
  return [
    ...fact(say('sheet.in_fire'), checked.inFire.map(part).join(', ')),
    ...fact(say('sheet.solder'), flows && say('sheet.solder_words', flows), true),
    ...fact(say('sheet.lot'), product && (lot.length === 0 ? say('sheet.no_lot') : lot.join('; '))),
    ...fact(say('sheet.amount'), product && say('sheet.amount_words', { chips, mg: number(placedG * 1000, 1) })),
    ...fact(say('sheet.flux'), fluxName),
    ...fact(
      say('sheet.place'),
      (planned.protections ?? []).map((one) => protectionWords(wording, one, { name, part })).join('\n') || null,
    ),
    ...fact(say('sheet.flame'), flameWords(wording, planned.flame, { name, part })),
    ...fact(
      say('sheet.peak'),
      checked.flowC === null
        ? null
        : checked.flow === 'does_not_flow'
          ? say('sheet.no_flow')
          : peakWords(wording, checked.flowC, checked.timeToFlowS),
      true,
    ),
    ...fact(say('sheet.after'), say(quench === 'air' ? 'sheet.after_air' : 'sheet.after_water')),
  ];
}

function earlier({ wording, name }: Words, { checked }: SheetHeat): Fact[] {
  const said = checked.earlierJoints.map((one) => earlierWords(wording, one, name));
  return fact(wording.say('sheet.earlier'), said.length === 0 ? null : said.join('\n'));
}

function guesses({ wording, name }: Words, { checked }: SheetHeat, soldersOf: Content['soldersOf']): Fact[] {
  const { say, number } = wording;
  const asked = checked.earlierJoints.map(({ joint }) => {
    const product = soldersOf(joint);
    if (!product) return say('student.guess_unknown', { joint: name(joint) });
    const [solidus, liquidus] = [product.solidusC, product.liquidusC].map((value) => `${number(value, 0)} °C`);
    return say('student.guess_words', { joint: name(joint), grade: product.gradeWord, solidus: solidus!, liquidus: liquidus! });
  });
  return fact(say('student.guess'), asked.length === 0 ? say('student.nothing') : asked.join('\n'));
}

/** Each caution once, with the heats it belongs to. */
function cautions({ wording }: Words, heats: readonly SheetHeat[]): Block[] {
  const ids = [...new Set(heats.flatMap((heat) => heat.cautions))].toSorted((a, b) => Number(a.slice(1)) - Number(b.slice(1)));
  const { say } = wording;
  const rows = ids.map((id) => {
    const of = heats.filter((heat) => heat.cautions.includes(id)).map(({ number }) => number);
    // Of every heat without saying so.
    const which = of.length === heats.length ? '' : ` ${say('sheet.heats_of', { heats: of.join(', ') })}`;
    return { label: `${id}${which}`, value: cautionWords(wording, id) };
  });
  return rows.length === 0 ? [] : [{ kind: 'step', mark: '!', title: say('sheet.cautions'), rows, blanks: [] }];
}
