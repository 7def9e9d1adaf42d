import { z } from 'zod';
import { LIFECYCLES } from '../../../shared/lifecycles/lifecycles.ts';
import { Country } from '../../platform/http/country.ts';
import { fenced } from '../../platform/http/fences.ts';
import { Money, moneyGiven } from '../../platform/http/money.ts';
import { moveFields } from '../../platform/http/moves.ts';
import { PageQuery } from '../../platform/http/paging.ts';
import { PatchBody } from '../../platform/http/patch-body.ts';
import { blockOfText, lineOfText } from '../../platform/http/text.ts';
import { withoutCardNumber } from '../clients/index.ts';

export const CommissionParams = z.strictObject({ id: z.uuid() });

export const CommissionKind = z.enum(['one_off', 'small_run', 'own_stock', 'repair', 'teaching_piece']);
const CommissionState = z.enum(LIFECYCLES.commission.states);
const WaitingFor = z.enum(['metal', 'solder', 'client', 'assay', 'stone', 'hands']);

const ClientPropertyGiven = z.strictObject({
  what: lineOfText(200),
  weightG: fenced('client_property', 'weightG', z.number()),
  declaredValue: moneyGiven(z.number().int().min(0)).nullable().default(null),
});

const given = {
  title: withoutCardNumber(lineOfText(120, 'Give the commission a short title.')),
  kind: CommissionKind,
  clientId: z.uuid().nullable().describe('Null for own stock and teaching pieces.'),
  wish: withoutCardNumber(blockOfText(2000)).nullable().describe('What the client asked for, in their words.'),
  quantity: fenced('commission', 'quantity', z.number().int()),
  dueOn: z.iso.date().nullable().describe('Needed before it is agreed.'),
  budget: moneyGiven(fenced('commission', 'budgetMinor', z.number().int())).nullable(),
  placeOfSale: Country.nullable().describe('ISO 3166-1; needed before a quote is sent.'),
  clientProperty: z.array(ClientPropertyGiven).max(50).describe('What the client left with us, weighed before it was taken in.'),
  pointsToPieceId: z
    .uuid()
    .nullable()
    .describe('The piece of our own that a repair came back with; empty for a piece made elsewhere.'),
  quiet: z.boolean().describe('What it is for is a secret: kept off labels, letters and subject lines.'),
};

export const NewCommission = z.strictObject({
  ...given,
  clientId: given.clientId.default(null),
  wish: given.wish.default(null),
  quantity: given.quantity.default(1),
  dueOn: given.dueOn.default(null),
  budget: given.budget.default(null),
  placeOfSale: given.placeOfSale.default(null),
  clientProperty: given.clientProperty.default([]),
  pointsToPieceId: given.pointsToPieceId.default(null),
  quiet: given.quiet.default(false),
});

export const CommissionChange = z.strictObject(given).partial();

export const CommissionQuery = PageQuery.extend({
  state: CommissionState.optional(),
  clientId: z.uuid().optional(),
  kind: CommissionKind.optional(),
});

export const CommissionMove = z.strictObject({
  ...moveFields,
  to: CommissionState,
  waitingFor: WaitingFor.optional().describe('With the move to resting.'),
  override: z
    .boolean()
    .optional()
    .describe(
      'The owner says so, with a reason: agreed without the deposit, on the bench without a checked plan, handed over before the balance is paid.',
    ),
  overrides: PatchBody.optional().describe(
    'With "accept now" for a repair: a JSON Merge Patch of the estimate that its version is made from.',
  ),
});

export const CommissionSummary = z.object({
  id: z.string(),
  number: z.string(),
  title: z.string(),
  kind: CommissionKind,
  clientId: z.string().nullable().describe('Null for those who may know no more than the name.'),
  clientName: z.string().nullable(),
  wish: z.string().nullable(),
  quantity: z.number().int(),
  dueOn: z.string().nullable(),
  daysToDue: z
    .number()
    .int()
    .nullable()
    .describe("Days from today, in the studio's zone, to the due date; negative when it is late."),
  budget: Money.nullable(),
  placeOfSale: z.string().nullable(),
  clientProperty: z.array(z.object({ what: z.string(), weightG: z.number(), declaredValue: Money.nullable() })),
  pointsToPieceId: z.string().nullable(),
  quiet: z.boolean(),
  state: CommissionState,
  stateReason: z.string().nullable(),
  stateSince: z.string(),
  waitingFor: WaitingFor.nullable(),
  allowedMoves: z.array(z.string()),
  version: z.number().int(),
  createdAt: z.string(),
});

/** What one owes the other. balance = gross of the accepted version − everything received; below zero: we owe it back. */
export const AccountReply = z.object({
  gross: Money.nullable(),
  deposit: Money.nullable(),
  received: Money,
  balance: Money,
});

/** What a commission has cost us so far, for the owner. */
const SpendReply = z.object({
  minutes: z.number(),
  labour: Money,
  overhead: Money,
  consumables: Money,
  solder: Money,
  metal: Money,
  hallmark: Money.describe('The share of each packet its pieces went with.'),
  total: Money,
  unpricedMetals: z.array(z.string()).describe('Metals that were issued and have no price in the settings: not in the total.'),
});

export const CancellationReply = z.object({
  commissionId: z.string(),
  number: z.string(),
  state: CommissionState,
  asOf: z.string(),
  spent: SpendReply,
  boughtIn: Money.describe('Stones, findings and the like, as they were quoted: whether they are bought is not kept.'),
  quoted: z.object({ net: Money, gross: Money, minutes: z.number() }).nullable(),
  doneFraction: z.number().nullable().describe('Minutes worked over minutes quoted, 1 at the most.'),
  received: Money.describe('All that came in.'),
  sentBack: Money,
  atCost: z
    .object({ spent: Money, left: Money })
    .describe('What was spent, and what is left of the money received: below zero, it does not cover it.'),
  atQuotedPrice: z
    .object({ net: Money, tax: Money, left: Money })
    .nullable()
    .describe('The same work at the profit and tax of the accepted version.'),
  says: z.array(z.string()),
});

export const CommissionReply = CommissionSummary.extend({
  pieces: z.array(z.object({ id: z.string(), number: z.string(), title: z.string(), state: z.string() })),
  quotes: z.array(z.object({ id: z.string(), number: z.number().int(), state: z.string(), validUntil: z.string() })),
  account: AccountReply.nullable().describe('Null for those who have nothing to do with money.'),
  spend: SpendReply.nullable().describe('For the owner; null for others.'),
});
