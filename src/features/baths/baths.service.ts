import { bathCautions, type BathStands } from '../../../shared/cautions/bath-cautions.ts';
import type { z } from 'zod';
import { findMove, type GuardOf } from '../../../shared/lifecycles/lifecycles.ts';
import { dateInZone } from '../../platform/clock.ts';
import type { Db } from '../../platform/db/client.ts';
import { writtenBy, type Actor } from '../../platform/http/actor.ts';
import { allowedMoves, holdToLifecycle } from '../../platform/http/moves.ts';
import { pageOf, type Page } from '../../platform/http/paging.ts';
import { invalidFields, Problem, type FieldError } from '../../platform/http/problem.ts';
import { membersSent } from '../../platform/http/patch-body.ts';
import { newId, nextNumber } from '../../platform/ids.ts';
import { writeJournal } from '../../platform/journal.ts';
import type { Platform } from '../../platform/platform.ts';
import { getSettings } from '../settings/index.ts';
import { bathClocks, TIRING_FRACTION, type BathClocks } from './bath-clocks.ts';
import type { BathMove, BathQuery, BathReply, DipReply, NewBath } from './baths.schema.ts';
import * as store from './baths.store.ts';
import { takeDipBack } from './take-dip-back.ts';

export type BathService = ReturnType<typeof createBathService>;

type Sent = z.infer<typeof BathMove>;

/** Neutral enough to be handed on. */
const NEUTRAL_PH = { from: 7, to: 9 };

export function createBathService({ db, clock }: Platform) {
  return {
    /** Notes a bath that was mixed; what is not said is as in the settings. */
    mix(actor: Actor, given: z.infer<typeof NewBath>) {
      return db.transaction((tx) => {
        const by = writtenBy(actor, clock.now());
        const { pickle, timeZone } = getSettings(tx);
        const today = dateInZone(by.at, timeZone);
        if (given.openedOn !== undefined && given.openedOn > today)
          throw invalidFields([{ pointer: '/openedOn', detail: `${given.openedOn} has not come yet.`, given: given.openedOn }]);
        const { acid, volumeL, strengthGPerL, copperLimitGPerL } = pickle;
        const row = store.insertBath(tx, {
          acid,
          volumeL,
          strengthGPerL,
          copperLimitGPerL,
          openedOn: today,
          ...membersSent(given),
          id: newId(by.at),
          number: `B${nextNumber(tx, 'pickle-bath')}`,
          state: 'fresh',
          createdAt: by.at.toISOString(),
        });
        writeJournal(tx, by, { what: 'pickle-bath', id: row.id, after: row });
        return show(tx, actor, row);
      });
    },

    get: (actor: Actor, id: string) => show(db, actor, store.getBath(db, id)),

    list(actor: Actor, query: z.infer<typeof BathQuery>) {
      const { pickle } = getSettings(db);
      return pageOf(store.listBaths(db, query), query, (row) => show(db, actor, row, bathClocks(db, row, pickle)));
    },

    dips(id: string, page: Page) {
      store.getBath(db, id);
      return pageOf(store.listDips(db, id, page), page, showDip);
    },

    /** Takes a dip back that was counted in the wrong bath, or never was. */
    takeDipBack(actor: Actor, dipId: string, reason: string) {
      return db.transaction((tx) => {
        takeDipBack(tx, writtenBy(actor, clock.now()), dipId, reason);
        return showDip(store.getDip(tx, dipId));
      });
    },

    move(actor: Actor, id: string, sent: Sent) {
      return db.transaction((tx) => {
        const now = clock.now();
        const before = store.getBath(tx, id);
        holdToLifecycle('pickle_bath', actor, { state: before.state, sent, now });
        holdNothingElseSent(sent, before.state);
        const guard = findMove('pickle_bath', before.state, sent.to)?.guard as GuardOf<'pickle_bath'> | undefined;
        const missing = guard === undefined ? [] : GUARDS[guard](sent, bathClocks(tx, before));
        if (missing.length > 0)
          throw new Problem(
            'condition-not-met',
            `Cannot move bath ${before.number} to ${sent.to.replaceAll('_', ' ')}: ${missing.join('; ')}`,
            { missing },
          );
        const day = dateInZone(new Date(sent.occurredAt), getSettings(tx).timeZone);
        const after = store.updateBath(tx, id, {
          state: sent.to,
          stateReason: sent.reason ?? null,
          version: before.version + 1,
          blushes: before.blushes + (sent.blushes ?? 0),
          ...(sent.to === 'neutralised' ? { ph: sent.ph!, neutralisedOn: day } : {}),
          ...(sent.to === 'gone' ? { goneTo: sent.goneTo!, goneOn: day } : {}),
        });
        writeJournal(tx, writtenBy(actor, now, sent.deviceId), { what: 'pickle-bath', id, before, after });
        return show(tx, actor, after);
      });
    },
  };
}

const GUARDS: Readonly<Record<GuardOf<'pickle_bath'>, (sent: Sent, clocks: BathClocks) => string[]>> = {
  'first-dip': () => ['it is in use with its first dip: name it when a heat goes into the pickle'],
  // Only the count of dips makes this move.
  'nearly-spent': () => [],
  'iron-went-in': () => [],
  'iron-out-blush-checked': ({ ironOut, piecesChecked, blushes }) => [
    ...(ironOut ? [] : ['take the iron out (ironOut)']),
    ...(piecesChecked ? [] : ['look at the pieces that were in it for copper blush (piecesChecked)']),
    ...(blushes === undefined ? ['say how many blushed (blushes)'] : []),
  ],
  'limit-reached': ({ reason }, { fraction }) =>
    fraction >= 1 || reason !== undefined ? [] : [`it is at ${percent(fraction)} of its limit: say why it is spent (reason)`],
  'ph-noted': neutral,
  'disposal-noted': ({ goneTo }) => (goneTo === undefined ? ['say where it went, by the rule of the place (goneTo)'] : []),
  'made-up-wrongly': (sent) => [
    ...(sent.reason === undefined ? ['say how it was made up wrongly (reason)'] : []),
    ...neutral(sent),
  ],
};

function neutral({ ph }: Sent): string[] {
  if (ph !== undefined && ph >= NEUTRAL_PH.from && ph <= NEUTRAL_PH.to) return [];
  const { from, to } = NEUTRAL_PH;
  return [
    ph === undefined
      ? `measure the pH, from ${from} to ${to} (ph)`
      : `the pH is ${ph}: neutralise on until it is from ${from} to ${to}`,
  ];
}

/** What belongs to another move is refused, so that nobody believes it was taken. */
function holdNothingElseSent({ to, ironOut, piecesChecked, blushes, ph, goneTo }: Sent, from: string): void {
  const cleaning = from === 'fouled' && to === 'in_use';
  const errors = [
    ...notTaken({ ironOut, piecesChecked, blushes }, cleaning, 'from fouled back to in_use'),
    ...notTaken({ ph }, to === 'neutralised', 'to neutralised'),
    ...notTaken({ goneTo }, to === 'gone', 'to gone'),
  ];
  if (errors.length > 0) throw invalidFields(errors);
}

function notTaken(fields: Readonly<Record<string, unknown>>, taken: boolean, move: string): FieldError[] {
  if (taken) return [];
  return Object.entries(fields).flatMap(([name, given]) =>
    given === undefined ? [] : [{ pointer: `/${name}`, detail: `This is taken only with the move ${move}.`, given }],
  );
}

function show(db: Db, actor: Actor, row: store.BathRow, clocks = bathClocks(db, row)): z.infer<typeof BathReply> {
  return {
    ...row,
    ...clocks,
    state: row.state as z.infer<typeof BathReply>['state'],
    says: says(row, clocks),
    cautions: bathCautions(row.state as BathStands).map(({ id, words, tick }) => ({ id, words, tick })),
    // Students run heats; the bath is kept by those who work here.
    allowedMoves: allowedMoves('pickle_bath', actor, { state: row.state }),
  };
}

/** In a sentence, for the lid of the pot. */
export function says(bath: store.BathRow, { copper, acidUsed, copperGPerL, fraction }: BathClocks): string {
  const first = (acidUsed?.fraction ?? 0) > copper.fraction ? 'acid' : 'copper';
  const ofLimit = percent(copper.fraction);
  const figures = acidUsed
    ? `Copper ${copperGPerL} g/L (${ofLimit} of its limit), acid ${percent(acidUsed.fraction)} used`
    : `Copper ${copperGPerL} g/L (${ofLimit} of its limit)`;
  const { state, stateReason } = bath;
  if (state === 'gone') return `${figures}. Gone on ${bath.goneOn}: ${bath.goneTo}.`;
  if (state === 'neutralised')
    return `${figures}. Neutralised on ${bath.neutralisedOn}, pH ${bath.ph}: hand it on by the rule of the place.`;
  if (state === 'spent' && fraction < 1) return `${figures}: called spent, ${stateReason}. Neutralise it, and mix a new one.`;
  if (state === 'spent' || fraction >= 1) return `${figures}: spent by ${first}. Neutralise it, and mix a new one.`;
  if (state === 'fouled') return `${figures}. Iron is in it: what is dipped now is plated with copper.`;
  if (fraction >= TIRING_FRACTION) return `${figures}: tiring, by ${first}. Mix the next one soon.`;
  return `${figures}.`;
}

function showDip({ at, takenBack, ...dip }: store.ListedDip): z.infer<typeof DipReply> {
  return { ...dip, occurredAt: at, takenBack: takenBack && { reason: takenBack.reason, at: takenBack.at } };
}

function percent(fraction: number): string {
  return `${Math.round(fraction * 100)} %`;
}
