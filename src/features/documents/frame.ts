import { dateInZone } from '../../platform/clock.ts';
import type { Db } from '../../platform/db/client.ts';
import { findClient } from '../clients/index.ts';
import type { CommissionRow } from '../commissions/index.ts';
import { getSettings, type Settings } from '../settings/index.ts';
import type { MessageKey } from './messages/en.ts';
import type { Block, Fact, Paper } from './paper.ts';
import { wordingFor, type Wording } from './wording.ts';

/** What every paper of one commission is written with. */
export interface Frame {
  wording: Wording;
  settings: Settings;
  commission: CommissionRow;
  clientName: string | null;
  /** What the commission is called on paper: its title, or its number alone where that is a secret. */
  called: string;
  /** Whose paper it is, and for whom, with the title and what is below it. */
  paper: (kind: MessageKey, writtenAt: string, blocks: readonly Block[]) => Paper;
  /** A moment as the date on the studio's wall. */
  on: (at: string) => string;
}

export function frameFor(db: Db, commission: CommissionRow): Frame {
  const settings = getSettings(db);
  const client = commission.clientId === null ? undefined : findClient(db, commission.clientId);
  const wording = wordingFor(...(client ? [client.language] : []), settings.language);
  const { number, quiet, title } = commission;
  const called = quiet ? number : title;
  const on = (at: string) => wording.date(dateInZone(new Date(at), settings.timeZone));
  return {
    wording,
    settings,
    commission,
    clientName: client?.name ?? null,
    called,
    on,
    paper: (kind, writtenAt, blocks) => ({
      language: wording.locale,
      title: `${wording.say(kind)} ${number}`,
      author: settings.studioName,
      size: settings.papers.size,
      writtenAt,
      blocks: together([
        { kind: 'letterhead', name: settings.studioName, lines: linesOf(settings.papers.address) },
        ...(client ? [{ kind: 'address' as const, lines: [client.name, ...linesOf(client.postAddress ?? '')] }] : []),
        { kind: 'title', text: quiet ? wording.say(kind) : `${wording.say(kind)}: ${title}` },
        {
          kind: 'facts',
          rows: [
            { label: wording.say('label.number'), value: number },
            { label: wording.say('label.date'), value: on(writtenAt) },
          ],
        },
        ...blocks,
      ]),
    }),
  };
}

/** Facts that follow on facts are one list; of none, none. */
function together(blocks: readonly Block[]): Block[] {
  const all: Block[] = [];
  for (const block of blocks) {
    const last = all.at(-1);
    if (block.kind !== 'facts') all.push(block);
    else if (last?.kind === 'facts') all.splice(-1, 1, { kind: 'facts', rows: [...last.rows, ...block.rows] });
    else if (block.rows.length > 0) all.push(block);
  }
  return all;
}

export function linesOf(text: string): string[] {
  return text.split('\n').filter((line) => line.trim() !== '');
}

/** A row of figures or words; nothing to say, no row. */
export function fact(label: string, value: string | null | undefined, strong = false): Fact[] {
  return value === null || value === undefined ? [] : [{ label, value, ...(strong ? { strong } : {}) }];
}
