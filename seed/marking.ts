import type { Story } from './calendar.ts';
import { sent } from './sent.ts';
import type { Studio } from './studio.ts';

/** An invented office with invented rules and charges; no place's law. */
const OFFICE = 'Lantern Quay Assay Office';

export function enterPlaceRules({ services, people }: Studio): void {
  services.placeRules.put(people.owner, 'DE', () => 0, {
    office: OFFICE,
    source: 'invented for the demo: a studio enters what its own office says',
    markOverG: 5,
    leastSolderFinenessFraction: 0.65,
    toleranceWithoutSolderFraction: 0,
    toleranceWithSolderFraction: 0.01,
    addedMetalG: 1,
    addedMetalFraction: 0.5,
    taxRateFraction: null,
    keepYears: null,
  });
}

/** A piece that is being finished goes to be marked, and comes back unless it is still there at the end. */
export async function* sendToBeMarked(
  studio: Studio,
  { pieceId, parts, staysThere }: { pieceId: string; parts: string; staysThere: boolean },
): Story {
  const { services, people, clock } = studio;
  const { computedG } = services.bench.pieces.get(people.desk, pieceId);
  const weighedG = Number((computedG! * 0.98).toFixed(2));
  const { id } = services.packets.add(people.desk, {
    place: 'DE',
    office: OFFICE,
    fee: eur(2400),
    post: eur(1150),
    perArticle: eur(65),
    articles: null,
    pieces: [{ pieceId, weighedG, parts, marks: 'maker, fineness and office', partMarks: null }],
  });
  services.packets.move(people.desk, id, sent(clock, 'packing', 'sent'));
  yield 2;
  services.packets.move(people.desk, id, sent(clock, 'sent', 'there'));
  if (staysThere) return;
  yield 4;
  services.packets.move(people.desk, id, sent(clock, 'there', 'struck'));
  yield 2;
  services.packets.move(people.desk, id, sent(clock, 'struck', 'back', { back: [{ pieceId, weighedG }] }));
}

function eur(amountMinor: number): { amountMinor: number; currency: string } {
  return { amountMinor, currency: 'EUR' };
}
