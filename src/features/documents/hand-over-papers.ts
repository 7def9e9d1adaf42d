import type { Db } from '../../platform/db/client.ts';
import { Problem } from '../../platform/http/problem.ts';
import { accountOf, getCommission } from '../commissions/index.ts';
import { livePiecesOf, type PieceRow } from '../pieces/index.ts';
import { toG } from '../stock/index.ts';
import * as store from './documents.store.ts';
import { fact, frameFor, type Frame } from './frame.ts';
import { payTo } from './money-papers.ts';
import type { Block, Paper } from './paper.ts';
import { mainMetal } from './piece-words.ts';

const DAY_MS = 86_400_000;

/** That the work is ready, since when, and what to bring. */
export function collectionNotice(db: Db, commissionId: string, at: Date): Paper {
  const frame = frameFor(db, getCommission(db, commissionId));
  const { wording, commission, clientName, on } = frame;
  const { say, money } = wording;
  if (commission.state !== 'made')
    throw new Problem(
      'condition-not-met',
      `Cannot ask for ${commission.number} to be collected: it is ${commission.state.replaceAll('_', ' ')}, not made`,
    );
  const { balanceMinor, currency } = accountOf(db, commissionId);
  const days = Math.max(0, Math.floor((at.getTime() - Date.parse(commission.stateSince)) / DAY_MS));
  const count = livePiecesOf(db, commissionId).length;
  const body = say('collection.body', { count });
  return frame.paper('paper.collection', at.toISOString(), [
    ...(clientName === null ? [] : [{ kind: 'paragraph' as const, text: say('quote.greeting', { name: clientName }) }]),
    { kind: 'paragraph', text: `${body} ${say('collection.waiting', { days, count })}` },
    { kind: 'facts', rows: fact(say('label.ready_since'), on(commission.stateSince)) },
    {
      kind: 'paragraph',
      text: balanceMinor > 0 ? say('collection.balance', { amount: money(balanceMinor, currency) }) : say('collection.paid'),
    },
    ...(balanceMinor > 0 ? payTo(frame, 'reminder.pay_to') : []),
  ]);
}

/** What the client left with us, as weighed, with room for what is seen when it is looked over together. */
export function takeInReceipt(db: Db, commissionId: string): Paper {
  const frame = frameFor(db, getCommission(db, commissionId));
  const { wording, commission, settings } = frame;
  const { say, money, grams } = wording;
  const left = commission.clientProperty;
  const photos = store.photosTakenIn(db, commissionId);
  const value = (minor: number | undefined) => (minor === undefined ? '' : money(minor, settings.currency));
  return frame.paper('paper.take_in', commission.createdAt, [
    { kind: 'paragraph', text: say(left.length === 0 ? 'take_in.none' : 'take_in.intro') },
    ...(left.length === 0
      ? [{ kind: 'blanks' as const, labels: [say('label.what'), say('label.weight_column'), say('label.declared_value')] }]
      : [
          {
            kind: 'table' as const,
            head: [say('label.what'), say('label.weight_column'), say('label.declared_value')],
            rows: left.map(({ what, weightG, declaredValueMinor }) => [what, grams(weightG), value(declaredValueMinor)]),
            amounts: true,
          },
        ]),
    { kind: 'heading', text: say('take_in.checked') },
    { kind: 'blanks', labels: [say('label.marks'), say('label.stones_counted'), say('label.flaws')] },
    photos > 0
      ? { kind: 'facts', rows: fact(say('label.photos'), wording.number(photos, 0)) }
      : { kind: 'checks', items: [say('label.photos')] },
    { kind: 'heading', text: say('take_in.terms_title') },
    { kind: 'paragraph', text: say('take_in.terms') },
    { kind: 'paragraph', text: say('take_in.solder') },
    { kind: 'blanks', labels: [say('label.place_and_date'), say('label.signature'), say('label.taken_in_by')] },
  ]);
}

/** Before, nobody knows what will hold it together. */
export function isFinished({ state }: PieceRow): boolean {
  return state === 'ready' || state === 'given';
}

/** How to look after a piece, and what a jeweller has to know of it. */
export function careCard(db: Db, piece: PieceRow): Paper {
  if (!isFinished(piece))
    throw new Problem(
      'condition-not-met',
      `Cannot write the care card of ${piece.number}: it is ${piece.state.replaceAll('_', ' ')}, not ready`,
    );
  const frame = frameFor(db, getCommission(db, piece.commissionId));
  const { wording, commission } = frame;
  const { say, grams } = wording;
  const since = store.enteredState(db, commission.id, 'handed_over');
  const weight = piece.weighedTenthMg === null ? null : grams(toG(piece.weighedTenthMg));
  return {
    ...frame.paper('paper.care', since ?? piece.createdAt, [
      {
        kind: 'facts',
        rows: [
          ...fact(say('label.what'), commission.quiet ? null : piece.title),
          ...fact(say('label.metal'), mainMetal(db, piece, wording)),
          ...fact(say('label.final_weight'), weight),
        ],
      },
      { kind: 'paragraph', text: say('care.body') },
      { kind: 'heading', text: say('care.avoid_title') },
      {
        kind: 'list',
        items: [say('care.avoid_water'), say('care.avoid_chemicals'), say('care.avoid_heat'), say('care.avoid_scratch')],
      },
      { kind: 'heading', text: say('care.clean_title') },
      { kind: 'paragraph', text: say('care.clean') },
      ...forTheJeweller(db, piece, frame),
    ]),
    title: `${say('paper.care')} ${piece.number}`,
  };
}

function forTheJeweller(db: Db, { id, number }: PieceRow, { wording }: Frame): Block[] {
  const { say, locale } = wording;
  const solders = store.soldersIn(db, id);
  const known = solders.flatMap((solder) =>
    solder ? [say('care.solder', { grade: solder.gradeWord, temperature: `${wording.number(solder.liquidusC, 0)} °C` })] : [],
  );
  const list = new Intl.ListFormat(locale, { type: 'conjunction' }).format(known);
  const words = [
    ...(solders.length === 0 ? [say('care.jeweller_plain', { number })] : []),
    ...(known.length > 0 ? [say('care.jeweller_soldered', { solders: list, number })] : []),
    ...(solders.includes(null) ? [say('care.jeweller_unknown', { number })] : []),
    say('care.contact', { number }),
  ];
  return [{ kind: 'heading', text: say('care.jeweller_title') }, ...words.map((text): Block => ({ kind: 'paragraph', text }))];
}
