import { dateInZone } from '../../platform/clock.ts';
import type { Db } from '../../platform/db/client.ts';
import { accountOf, getCommission, type CommissionRow } from '../commissions/index.ts';
import { isFinished, wordingFor, type Wording } from '../documents/index.ts';
import { findClient } from '../clients/index.ts';
import { photosForClient } from '../photos/index.ts';
import { livePiecesOf } from '../pieces/index.ts';
import { getSettings } from '../settings/index.ts';
import * as store from './private-links.store.ts';

/** How far it is, in words a client has for it. */
export const STAGES = ['drawn', 'agreed', 'bench', 'assay', 'ready'] as const;
export type Stage = (typeof STAGES)[number] | 'handed_over' | 'called_off';

export type VersionState = 'open' | 'accepted' | 'declined' | 'lapsed' | 'replaced' | 'withdrawn';

/** All that a client may see of a commission: no cost, no time, nobody's name, nobody else's work. */
export interface ClientView {
  wording: Wording;
  studioName: string;
  title: string;
  stage: Stage;
  dueOn: string | null;
  versions: {
    number: number;
    sentOn: string;
    validUntil: string;
    grossMinor: number;
    currency: string;
    state: VersionState;
  }[];
  /** Null before anything is agreed. Of what was called off only what was received: the rest is being settled. */
  account: { currency: string; receivedMinor: number; due: { grossMinor: number; balanceMinor: number } | null } | null;
  /** Pieces that have a care card. */
  cards: { serial: number; number: string }[];
  /** Pictures that somebody ticked for the client, as they were taken. */
  photos: { id: string; caption: string | null; takenOn: string; widthPx: number; heightPx: number }[];
}

export function clientView(db: Db, commissionId: string, at: Date): ClientView {
  const commission = getCommission(db, commissionId);
  const { timeZone, studioName } = getSettings(db);
  const today = dateInZone(at, timeZone);
  const { grossMinor, balanceMinor, receivedMinor, currency: paidIn } = accountOf(db, commissionId);
  return {
    wording: wordingOf(db, commission),
    studioName,
    title: commission.quiet ? commission.number : commission.title,
    stage: stageOf(db, commission),
    dueOn: commission.dueOn,
    versions: store.versionsSent(db, commissionId).map(({ number, sentAt, validUntil, grossMinor: gross, currency, state }) => ({
      number,
      sentOn: dateInZone(new Date(sentAt!), timeZone),
      validUntil,
      grossMinor: gross,
      currency,
      state: state === 'sent' ? (today > validUntil ? 'lapsed' : 'open') : (state as VersionState),
    })),
    account:
      grossMinor === null
        ? null
        : {
            currency: paidIn,
            receivedMinor,
            due: commission.state === 'called_off' ? null : { grossMinor, balanceMinor },
          },
    cards: livePiecesOf(db, commissionId)
      .filter(isFinished)
      .map(({ serial, number }) => ({ serial, number })),
    photos: photosForClient(db, commissionId).map(({ id, caption, takenAt, widthPx, heightPx }) => ({
      id,
      caption,
      takenOn: dateInZone(new Date(takenAt), timeZone),
      widthPx,
      heightPx,
    })),
  };
}

/** In the language of the client. */
export function wordingOf(db: Db, { clientId }: CommissionRow): Wording {
  const client = clientId === null ? undefined : findClient(db, clientId);
  return wordingFor(...(client ? [client.language] : []), getSettings(db).language);
}

const STAGE_OF: Readonly<Record<string, Stage>> = {
  agreed: 'agreed',
  on_bench: 'bench',
  resting: 'bench',
  made: 'ready',
  handed_over: 'handed_over',
  settled: 'handed_over',
  called_off: 'called_off',
  turned_down: 'called_off',
};

function stageOf(db: Db, { id, state }: CommissionRow): Stage {
  const stage = STAGE_OF[state] ?? 'drawn';
  const away = stage === 'bench' && livePiecesOf(db, id).some((piece) => piece.state === 'away');
  return away ? 'assay' : stage;
}
