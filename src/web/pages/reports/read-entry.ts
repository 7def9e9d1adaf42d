import { api, bodyOf } from '../../api/client.ts';
import type { MessageKey, Words } from '../../words/words.ts';
import { showMoney } from './show-value.ts';

export type EntryKind = MessageKey extends infer Key ? (Key extends `report.entry.${infer Kind}` ? Kind : never) : never;

export interface ReadEntry {
  id: string;
  text: string;
  /** Its page, or that of what it belongs to. */
  href?: string;
}

/** One entry in a line; null where the book tells it only by its number. */
export async function readEntry(
  kind: EntryKind,
  { id, signal, words }: { id: string; signal: AbortSignal; words: Words },
): Promise<ReadEntry | null> {
  const { say, named, number, moment, date } = words;
  const at = { params: { path: { id } }, signal };
  switch (kind) {
    case 'commission': {
      const { number: numbered, title } = await bodyOf(api.GET('/api/v1/commissions/{id}', at));
      return { id, text: `${numbered} ${title}`, href: `/commissions/${id}` };
    }
    case 'piece': {
      const { number: numbered, title } = await bodyOf(api.GET('/api/v1/pieces/{id}', at));
      return { id, text: `${numbered} ${title}`, href: `/pieces/${id}` };
    }
    case 'quote': {
      const { number: version, state, commissionId } = await bodyOf(api.GET('/api/v1/quotes/{id}', at));
      const text = say('commission.quoteLine', { number: version, state: named('quote.state', state) });
      return { id, text, href: `/commissions/${commissionId}` };
    }
    case 'benchTime': {
      const { operation, startedAt, minutes } = await bodyOf(api.GET('/api/v1/bench-times/{id}', at));
      const took = minutes === null ? '–' : say('report.minutes', { minutes: number(minutes) });
      return { id, text: `${moment(startedAt)}: ${named('operation', operation)}, ${took}` };
    }
    case 'heat': {
      const { number: numbered, state, pieceId } = await bodyOf(api.GET('/api/v1/heats/{id}', at));
      return { id, text: `${numbered}, ${named('heat.state', state)}`, href: `/pieces/${pieceId}` };
    }
    case 'incident': {
      const { kind: what, seenAt, pieceId } = await bodyOf(api.GET('/api/v1/incidents/{id}', at));
      return { id, text: `${moment(seenAt)}: ${named('bench.incident', what)}`, href: `/pieces/${pieceId}` };
    }
    case 'packet': {
      const { number: numbered, state } = await bodyOf(api.GET('/api/v1/hallmark-packets/{id}', at));
      return { id, text: `${numbered}, ${named('report.packet', state)}` };
    }
    case 'payment': {
      const { amount, receivedOn } = await bodyOf(api.GET('/api/v1/payments/{id}', at));
      return { id, text: `${receivedOn ? date(receivedOn) : '–'}: ${showMoney(amount, words)}` };
    }
    case 'plan': {
      const { number: version, pieceId } = await bodyOf(api.GET('/api/v1/plans/{id}', at));
      return { id, text: String(version), href: `/pieces/${pieceId}/plan` };
    }
    case 'movement':
    case 'letter':
    case 'guess':
      return null;
  }
}
