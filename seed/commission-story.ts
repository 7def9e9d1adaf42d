import type { Design } from '../shared/design/design.ts';
import type { Plan } from '../shared/design/plan.ts';
import type { Story } from './calendar.ts';
import { benchWork, calibrateTorch, planPiece, spoilHeat, workHeat } from './bench-work.ts';
import { sendToBeMarked } from './marking.ts';
import { sent } from './sent.ts';
import { typeFinePrice, type Studio } from './studio.ts';

type Commission = ReturnType<Studio['services']['commissions']['add']>;

export interface Order {
  title: string;
  client: string | null;
  kind: 'one_off' | 'small_run' | 'own_stock' | 'repair' | 'teaching_piece';
  design: Design;
  /** What it is mainly made of; sterling when absent. */
  metal?: string;
  /** 'own': the studio's, as it is calibrated in the hand by then. */
  torch?: 'small' | 'medium' | 'large' | 'extra_large' | 'own';
  /** A plan by hand, where no better one is looked for. */
  byHand?: Plan;
  quantity?: number;
  /** Days from the first wish to the due date. */
  dueInDays: number;
  /** Fine silver a gram on the day of the quote. */
  finePerG: string;
  /** How long the work took against what was planned. */
  pace: number;
  /** How long each heat took to flow against what was predicted: noted, and the torch calibrated by it. */
  timedAt?: number;
  /** Where it goes no further, whatever the time. */
  endsAt?: 'asked' | 'turned_down' | 'shaping' | 'offered' | 'agreed' | 'on_bench' | 'resting' | 'at_the_office' | 'made';
  /** Its parts as an assay office wants them listed, where it goes to be marked. */
  marked?: string;
  /** What the client left with us. */
  left?: { what: string; weightG: number; declaredValue: { amountMinor: number; currency: string } | null }[];
  /** The position of a heat, from 1, that reflows an earlier joint. */
  reflowsAt?: number;
  /** The same, of one in which nothing flows. */
  noFlowAt?: number;
}

/** One commission from the wish to the last payment, so far as time and its end let it. */
export async function* commissionStory(studio: Studio, order: Order): Story {
  const { services, people } = studio;
  const commission = takeDown(studio, order);
  if (order.endsAt === 'asked') return;
  yield 1;
  const move = mover(studio, commission.id);
  if (order.endsAt === 'turned_down') {
    move(people.owner, 'asked', 'turned_down', { reason: 'wants it in three days; no bench is free' });
    return;
  }
  move(people.desk, 'asked', 'shaping');
  const pieceIds = await layOut(studio, commission, order);
  yield 1;
  if (order.endsAt === 'shaping') {
    typeFinePrice(studio, order.finePerG);
    services.quotes.add(people.owner, { commissionId: commission.id, overrides: {} });
    return;
  }
  if (order.client === null) move(people.owner, 'shaping', 'agreed');
  else {
    const quoteId = offer(studio, commission.id, order);
    if (order.endsAt === 'offered') return;
    yield 3;
    accept(studio, commission.id, quoteId);
  }
  if (order.endsAt === 'agreed') return;
  yield 2;
  for (const pieceId of pieceIds) takePlanIntoUse(studio, pieceId);
  move(people.bench, 'agreed', 'on_bench');
  for (const pieceId of pieceIds) yield* makePiece(studio, pieceId, order);
  if (order.endsAt === 'on_bench') return;
  if (order.endsAt === 'at_the_office') return;
  if (order.timedAt !== undefined) await calibrateTorch(studio, pieceIds[0]!);
  if (order.endsAt === 'resting') {
    move(people.bench, 'on_bench', 'resting', { waitingFor: 'stone', reason: 'the cabochon is with the cutter' });
    tellClient(studio, commission, 'new_date');
    return;
  }
  yield 1;
  move(people.owner, 'on_bench', 'made');
  if (order.endsAt === 'made') {
    yield 4;
    tellClient(studio, commission, 'collection_notice');
    return;
  }
  yield 2;
  handOver(studio, commission.id, pieceIds);
  yield 7;
  move(people.owner, 'handed_over', 'settled');
}

export function takeDown(
  { services, people, clock }: Studio,
  { title, client, kind, quantity = 1, dueInDays, left = [] }: Order,
): Commission {
  const name = client ?? '';
  const known = client === null ? undefined : services.clients.list({ limit: 50, name }).items[0];
  const clientId =
    client === null
      ? null
      : (
          known ??
          services.clients.add(people.desk, {
            ...NOBODY,
            name,
            email: `${name.toLowerCase().replaceAll(' ', '.')}@example.org`,
            language: READ_GERMAN.has(name) ? 'de' : 'en',
          })
        ).id;
  return services.commissions.add(people.desk, {
    title,
    kind,
    clientId,
    wish: client === null ? 'for the shelf' : `${client} would like: ${title.toLowerCase()}`,
    quantity,
    dueOn: new Date(clock.now().getTime() + dueInDays * 86_400_000).toISOString().slice(0, 10),
    budget: null,
    placeOfSale: 'DE',
    clientProperty: left,
    pointsToPieceId: null,
    quiet: false,
  });
}

/** Clients whose papers are in German. */
const READ_GERMAN = new Set(['Osier Holt', 'Fen Lane']);

const NOBODY = { phone: null, postAddress: null, ringSizeMm: null, metalSensitivity: null, photoAllowed: false, notes: null };

async function layOut({ services, people, torchId, found }: Studio, commission: Commission, order: Order): Promise<string[]> {
  const { pieces, designs } = services.bench;
  const { torch = 'medium', byHand } = order;
  const known = `${torch} ${JSON.stringify(order.design)}`;
  const bench = { ...(torch === 'own' ? { torchId } : { torch }), support: 'brick' } as const;
  const ids: string[] = [];
  for (let i = 0; i < (order.quantity ?? 1); i++) {
    const { id } = pieces.add(people.bench, {
      commissionId: commission.id,
      title: order.title,
      metal: order.metal ?? 'sterling-925',
    });
    designs.put(people.bench, id, () => 0, mutable(order.design));
    const plan = byHand ?? found.get(known);
    const { plan: kept } = await planPiece(services, people.bench, id, {
      ...(plan ? { plan } : { search: { policy: 'do_not_run', protections: [{ kind: 'flame_away' }, { kind: 'anti_flow' }] } }),
      bench,
    });
    found.set(known, kept);
    ids.push(id);
  }
  return ids;
}

function offer(studio: Studio, commissionId: string, { finePerG }: Order): string {
  const { services, people, clock } = studio;
  typeFinePrice(studio, finePerG);
  const quote = services.quotes.add(people.owner, { commissionId, overrides: {} });
  clock.advance(10);
  services.quotes.move(people.owner, quote.id, sent(clock, 'sketch', 'sent'));
  mover(studio, commissionId)(people.owner, 'shaping', 'offered');
  return quote.id;
}

function accept(studio: Studio, commissionId: string, quoteId: string): void {
  const { services, people, clock } = studio;
  const quote = services.quotes.move(people.desk, quoteId, sent(clock, 'sent', 'accepted'));
  services.payments.add(people.desk, { commissionId, kind: 'deposit', amount: quote.deposit, how: 'transfer', reason: null });
  mover(studio, commissionId)(people.desk, 'offered', 'agreed');
}

function takePlanIntoUse({ services, people, clock }: Studio, pieceId: string): void {
  const [plan] = services.bench.plans.list(people.bench, pieceId, { limit: 1 }).items;
  services.bench.plans.move(people.bench, plan!.id, sent(clock, 'draft', 'checked'));
  services.bench.plans.move(people.bench, plan!.id, sent(clock, 'checked', 'in_use'));
}

async function* makePiece(studio: Studio, pieceId: string, order: Order): Story {
  const { services, people, clock } = studio;
  const { pieces, heats } = services.bench;
  const computedG = pieces.get(people.bench, pieceId).computedG!;
  const minutes = (usual: number) => Math.round(usual * order.pace);
  pieces.move(people.bench, pieceId, sent(clock, 'drawn', 'cut', { metalIssuedG: Number((computedG * 1.35).toFixed(2)) }));
  benchWork(studio, pieceId, 'marking out and sawing', minutes(12));
  benchWork(studio, pieceId, 'fitting joints', minutes(23));
  yield 1;
  for (;;) {
    const waiting = heats.list(people.bench, { pieceId, state: 'laid_out', limit: 200 }).items;
    const heat = waiting.toSorted((a, b) => a.position - b.position)[0];
    if (!heat) break;
    const isFirstPlan = heat.planNumber === 1;
    const kind = heat.position === order.reflowsAt ? 'reflow' : heat.position === order.noFlowAt ? 'no_flow' : undefined;
    benchWork(studio, pieceId, 'soldering', minutes(20), heat.id);
    if (isFirstPlan && kind) {
      spoilHeat(studio, heat.id, kind);
      yield 2;
      await planPiece(services, people.bench, pieceId, { search: { policy: 'do_not_run', targetMarginK: 0 } });
      yield 1;
      takePlanIntoUse(studio, pieceId);
    } else workHeat(studio, heat.id, { timedAt: order.timedAt });
    if (order.endsAt === 'on_bench') return;
    yield 0.5;
  }
  pieces.move(people.bench, pieceId, sent(clock, 'soldering', 'built'));
  pieces.move(people.bench, pieceId, sent(clock, 'built', 'finishing'));
  benchWork(studio, pieceId, 'filing and emery', minutes(45));
  benchWork(studio, pieceId, 'polishing', minutes(30));
  yield 1;
  if (order.marked !== undefined) {
    const staysThere = order.endsAt === 'at_the_office';
    yield* sendToBeMarked(studio, { pieceId, parts: order.marked, staysThere });
    if (staysThere) return;
  }
  const lookedOver: ('joints' | 'surface' | 'edges' | 'sizes' | 'fittings')[] = [
    'joints',
    'surface',
    'edges',
    'sizes',
    'fittings',
  ];
  pieces.move(people.owner, pieceId, sent(clock, 'finishing', 'checked', { lookedOver }));
  pieces.move(
    people.owner,
    pieceId,
    sent(clock, 'checked', 'ready', { weighedG: Number((computedG * 0.97).toFixed(2)), photoTaken: true, labelled: true }),
  );
}

function handOver(studio: Studio, commissionId: string, pieceIds: readonly string[]): void {
  const { services, people, clock } = studio;
  const { account } = services.commissions.get(people.owner, commissionId);
  if (account && account.balance.amountMinor > 0)
    services.payments.add(people.desk, { commissionId, kind: 'balance', amount: account.balance, how: 'card', reason: null });
  mover(studio, commissionId)(people.desk, 'made', 'handed_over');
  for (const id of pieceIds) services.bench.pieces.move(people.desk, id, sent(clock, 'ready', 'given'));
}

function tellClient({ services, people }: Studio, { id, clientId }: Commission, kind: 'new_date' | 'collection_notice'): void {
  if (clientId === null) return;
  services.letters.add(people.desk, { commissionId: id, kind, how: kind === 'new_date' ? 'phone' : 'post', note: null });
}

function mover({ services, clock }: Studio, commissionId: string) {
  type Sent = Parameters<typeof services.commissions.move>[2];
  return (actor: Studio['people']['owner'], from: Sent['from'], to: Sent['to'], extra: Partial<Sent> = {}) =>
    services.commissions.move(actor, commissionId, { ...sent(clock, from, to), ...extra });
}

/** A design as the book takes it, whose lists it may change; the seed's own stay as they are. */
export function mutable(design: Design): Parameters<Studio['services']['bench']['designs']['put']>[3] {
  return { ...structuredClone(design), entered: {} } as never;
}
