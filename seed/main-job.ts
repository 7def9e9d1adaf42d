import type { Services } from '../src/services.ts';
import { planPiece } from './bench-work.ts';
import type { Actor } from '../src/platform/http/actor.ts';

/** The grades a hand would step down by, joint after joint. */
const BY_HAND = [
  ['wall-seam', 'hard-sheet'],
  ['bail-seam', 'hard-sheet'],
  ['bezel', 'medium-sheet'],
  ['bail-on', 'easy-sheet'],
] as const;

/** The main job on a pendant of the studio: check a plan, find a better one, price it, look in the drawer. Ten lines to read. */
export async function mainJob(services: Services, owner: Actor): Promise<string[]> {
  const { pieces } = services.bench;
  const piece = pieces.list(owner, { state: 'drawn', limit: 200 }).items.find(({ title }) => title === 'Pendant, larger');
  if (!piece)
    return ['The pendant that the demo plans is no longer waiting for its plan: start on a new folder to see it planned.'];
  const { joints, computedG } = pieces.get(owner, piece.id);
  const byHand = await planPiece(services, owner, piece.id, {
    plan: { heats: BY_HAND.map(([joint, solder]) => ({ joints: [joint], solder })) },
  });
  const [problem] = byHand.check!.problems;
  const found = await planPiece(services, owner, piece.id, {
    search: { protections: [{ kind: 'flame_away' }, { kind: 'shield' }, { kind: 'anti_flow' }] },
  });
  const { outcome, proof, why } = found.search!;
  const warmed = found.check!.heats.flatMap(({ heat, earlierJoints }) =>
    earlierJoints.map(({ joint, says }) => `heat ${heat}, ${joint}: ${lower(says)}`),
  );
  const { request, answer, profit } = services.quotes.estimate(owner, { pieceId: piece.id, overrides: {} });
  const { totals, lines } = answer;
  const solder = lines.filter(({ group }) => group === 'solder').length;
  const toOrder = services.reorderList
    .show({ all: false })
    .suppliers.flatMap(({ lines: products }) =>
      products.map(({ code, orderG, onHandG }) => `${orderG} g of ${code} (${onHandG.toFixed(1)} g there)`),
    );
  const money = (minor: number) =>
    new Intl.NumberFormat('en', { style: 'currency', currency: answer.currency }).format(minor / 100);
  return [
    `1  ${piece.number}, ${piece.title.toLowerCase()}: ${joints.length} joints, ${computedG!.toFixed(2)} g of metal from its sizes.`,
    `2  By hand, one joint a heat, hard hard medium easy: ${problem ? `heat ${problem.heat}, ${lower(problem.says)}` : 'no problem found'}.`,
    `3  The best single cure: ${problem?.bestFix ? lower(problem.bestFix.says) : 'none needed'}.`,
    `4  Found, ${outcome}, ${proof.filter(({ proven }) => proven).length} of ${proof.length} levels proven: ${found.plan.heats.length} heats instead of ${BY_HAND.length}.`,
    ...found.plan.heats.slice(0, 2).map((_, i) => `${5 + i}  ${why[i]}.`),
    `7  ${warmed.length > 0 ? warmed.join('; ') : 'No earlier joint is in any of its fires'}.`,
    `8  Price by recipe ${answer.recipe}: making ${money(totals.makingCostMinor)}, net ${money(totals.netMinor)}, gross ${money(totals.grossMinor)}; ${request['labour'] === undefined ? 0 : (request['labour'] as unknown[]).length} operations, ${solder} solders.`,
    `9  That is a margin of ${percent(profit.marginFraction)} and a markup of ${percent(profit.markupFraction)}; half of the gross as deposit: ${money(totals.depositMinor)}.`,
    `10 To order now: ${toOrder.length > 0 ? toOrder.join(', ') : 'nothing'}.`,
  ];
}

function lower(sentence: string): string {
  return sentence.charAt(0).toLowerCase() + sentence.slice(1);
}

function percent(fraction: number | null): string {
  return fraction === null ? 'none' : `${(100 * fraction).toFixed(1)} %`;
}
