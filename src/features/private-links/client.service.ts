import type { z } from 'zod';
import { dateInZone } from '../../platform/clock.ts';
import type { WrittenBy } from '../../platform/http/actor.ts';
import { newId } from '../../platform/ids.ts';
import { writeJournal } from '../../platform/journal.ts';
import type { Platform } from '../../platform/platform.ts';
import { getCommission } from '../commissions/index.ts';
import { careCard, isFinished, quoteLetter, wordingFor, type MessageKey, type Paper, type Wording } from '../documents/index.ts';
import { findPhotoFile, photosForClient, type PictureFile } from '../photos/index.ts';
import { livePiecesOf } from '../pieces/index.ts';
import { answerByClient } from '../quotes/index.ts';
import { getSettings } from '../settings/index.ts';
import { clientView, wordingOf, type ClientView } from './client-view.ts';
import { hashOf, lastDay } from './link-life.ts';
import type { ClientAnswer, ClientMessage } from './private-links.schema.ts';
import * as store from './private-links.store.ts';
import { createWrongTries } from './wrong-tries.ts';

export type ClientService = ReturnType<typeof createClientPageService>;

const MOST_MESSAGES_A_DAY = 20;
const DAY_MS = 86_400_000;

/** What a client is told instead, in their language. */
export class Refusal extends Error {
  readonly status: number;
  readonly reason: MessageKey;
  readonly wording: Wording;

  constructor(status: number, reason: MessageKey, wording: Wording) {
    super(reason);
    this.status = status;
    this.reason = reason;
    this.wording = wording;
  }
}

/** What a client sees and does by a link. The secret in its address is all the authority there is. */
export function createClientPageService({ db, clock }: Platform) {
  const wrongTries = createWrongTries(clock);

  /** The open link behind a secret; whoever tries too many that are not there waits. */
  function open(secret: string, address: string): store.LinkRow & { wording: Wording } {
    const { language, privateLinks, timeZone } = getSettings(db);
    if (wrongTries.tooMany(address)) throw new Refusal(429, 'refused.too_many', wordingFor(language));
    const link = store.findLinkByHash(db, hashOf(secret));
    if (!link) {
      wrongTries.add(address);
      throw new Refusal(404, 'refused.unknown', wordingFor(language));
    }
    const commission = getCommission(db, link.commissionId);
    const wording = wordingOf(db, commission);
    const last = lastDay(db, commission);
    const isOver = link.state !== 'open' || (last !== null && dateInZone(clock.now(), timeZone) > last);
    if (isOver || !privateLinks.on) throw new Refusal(410, 'refused.ended', wording);
    return { ...link, wording };
  }

  const byClient = ({ id }: store.LinkRow): WrittenBy => ({
    personId: null,
    at: clock.now(),
    deviceId: `private link ${id}`,
    confirmed: null,
  });

  return {
    open,

    view(secret: string, address: string): ClientView {
      const link = open(secret, address);
      store.countVisit(db, link.id, clock.now().toISOString());
      return clientView(db, link.commissionId, clock.now());
    },

    /** A letter as it was sent. */
    letter(secret: string, address: string, number: number): Paper {
      const link = open(secret, address);
      const quote = store.versionsSent(db, link.commissionId).find((one) => one.number === number);
      if (!quote) throw new Refusal(404, 'refused.none', link.wording);
      return withoutAddress(quoteLetter(db, quote));
    },

    card(secret: string, address: string, serial: number): Paper {
      const link = open(secret, address);
      const piece = livePiecesOf(db, link.commissionId).find((one) => one.serial === serial);
      if (!piece || !isFinished(piece)) throw new Refusal(404, 'refused.none', link.wording);
      return withoutAddress(careCard(db, piece));
    },

    /** A picture that was ticked for the client; of every other it is as if it were not there. */
    photo(secret: string, address: string, id: string, size: 'full' | 'thumbnail'): PictureFile {
      const link = open(secret, address);
      const photo = photosForClient(db, link.commissionId).find((one) => one.id === id);
      if (!photo) throw new Refusal(404, 'refused.none', link.wording);
      return findPhotoFile(db, photo, size);
    },

    answer(secret: string, address: string, { version, answer }: z.infer<typeof ClientAnswer>): void {
      const link = open(secret, address);
      const refused = db.transaction((tx) => {
        const quote = store.versionsSent(tx, link.commissionId).find(({ number }) => number === version);
        return quote ? answerByClient(tx, byClient(link), { quoteId: quote.id, answer }) : 'not_open';
      });
      if (refused !== 'done') throw new Refusal(409, `refused.${refused}`, link.wording);
    },

    ask(secret: string, address: string, { words }: z.infer<typeof ClientMessage>): void {
      const link = open(secret, address);
      db.transaction((tx) => {
        const by = byClient(link);
        const aDayAgo = new Date(by.at.getTime() - DAY_MS).toISOString();
        if (store.messagesSince(tx, link.id, aDayAgo) >= MOST_MESSAGES_A_DAY)
          throw new Refusal(429, 'refused.too_many', link.wording);
        const row = store.insertMessage(tx, {
          id: newId(by.at),
          commissionId: link.commissionId,
          linkId: link.id,
          words,
          createdAt: by.at.toISOString(),
        });
        writeJournal(tx, by, { what: 'client-message', id: row.id, after: row });
      });
    },

    /** For those who have no link. */
    studioWording: (): Wording => wordingFor(getSettings(db).language),
  };
}

/** Where the client lives is on the letter that goes by post, not on the page that anyone with its address can read. */
function withoutAddress(paper: Paper): Paper {
  const blocks = paper.blocks.map((block) => (block.kind === 'address' ? { ...block, lines: block.lines.slice(0, 1) } : block));
  return { ...paper, blocks };
}
