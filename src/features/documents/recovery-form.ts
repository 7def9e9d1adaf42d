import { dateInZone } from '../../platform/clock.ts';
import type { Db } from '../../platform/db/client.ts';
import { getSettings } from '../settings/index.ts';
import { linesOf } from './frame.ts';
import type { Paper } from './paper.ts';
import { qrPicture } from './qr-picture.ts';
import { wordingFor } from './wording.ts';

/** Characters of a key at a time, so that they can be copied from paper. */
const GROUP = 6;

/** The key of the backups to be kept apart from them, and how the book is brought back with it. In the language of the studio. */
export function recoveryForm(db: Db, { identity, at }: { identity: string; at: Date }): Paper {
  const { studioName, language, timeZone, papers, backups } = getSettings(db);
  const { say, date, locale } = wordingFor(language);
  const day = dateInZone(at, timeZone);
  const groups = identity.match(new RegExp(`.{1,${GROUP}}`, 'g'))!.join(' ');
  return {
    language: locale,
    title: say('paper.recovery'),
    author: studioName,
    size: papers.size,
    writtenAt: `${day}T00:00:00.000Z`,
    blocks: [
      { kind: 'letterhead', name: studioName, lines: linesOf(papers.address) },
      { kind: 'title', text: say('paper.recovery') },
      { kind: 'notice', text: say('recovery.keep') },
      {
        kind: 'facts',
        rows: [
          { label: say('label.date'), value: date(day) },
          { label: say('recovery.folder'), value: backups.folder === '' ? say('recovery.no_folder') : backups.folder },
          { label: say('recovery.key'), value: groups, strong: true },
        ],
      },
      { kind: 'square', svg: qrPicture(identity), caption: say('recovery.square') },
      { kind: 'heading', text: say('recovery.how') },
      { kind: 'list', items: [say('recovery.install'), say('recovery.stop'), say('recovery.restore'), say('recovery.other')] },
      { kind: 'blanks', labels: [say('recovery.kept_at'), say('recovery.told')] },
    ],
  };
}
