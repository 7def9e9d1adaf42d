import type { Db } from '../../platform/db/client.ts';
import { money } from '../../platform/http/money.ts';
import { getSettings } from '../settings/index.ts';
import { getCommission, moneyMoved, quotesOf } from './commissions.store.ts';

export interface Account {
  currency: string;
  /** Of the accepted version; null while there is none. */
  grossMinor: number | null;
  depositMinor: number | null;
  receivedMinor: number;
  /** gross − everything received; below zero: owed to the client. */
  balanceMinor: number;
}

/** Money between a client and us. Once it is called off nothing more is due, and what was received is the open question. */
export function accountOf(db: Db, commissionId: string): Account {
  const accepted = quotesOf(db, commissionId).find(({ state }) => state === 'accepted');
  const { inMinor, backMinor } = moneyMoved(db, commissionId);
  const received = inMinor - backMinor;
  const dueMinor = getCommission(db, commissionId).state === 'called_off' ? 0 : (accepted?.grossMinor ?? 0);
  return {
    currency: accepted?.currency ?? getSettings(db).currency,
    grossMinor: accepted?.grossMinor ?? null,
    depositMinor: accepted?.depositMinor ?? null,
    receivedMinor: received,
    balanceMinor: dueMinor - received,
  };
}

export function showAccount({ currency, grossMinor, depositMinor, receivedMinor, balanceMinor }: Account) {
  return {
    gross: grossMinor === null ? null : money(grossMinor, currency),
    deposit: depositMinor === null ? null : money(depositMinor, currency),
    received: money(receivedMinor, currency),
    balance: money(balanceMinor, currency),
  };
}
