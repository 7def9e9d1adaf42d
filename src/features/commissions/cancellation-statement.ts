import type { z } from 'zod';
import { labourMinutes } from '../../../shared/costing/labour-minutes.ts';
import { Decimal, sum } from '../../../shared/decimal.ts';
import type { Db } from '../../platform/db/client.ts';
import { money } from '../../platform/http/money.ts';
import { getSettings } from '../settings/index.ts';
import { boughtInMinor, boughtInPriceMinor } from './bought-in.ts';
import { spendToDate } from './commission-spend.ts';
import type { CancellationReply } from './commissions.schema.ts';
import { acceptedQuote, moneyMoved, type CommissionRow } from './commissions.store.ts';

type Statement = z.infer<typeof CancellationReply>;
type Quote = NonNullable<ReturnType<typeof acceptedQuote>>;

/** What a commission has taken, beside what was paid for it; what of that may be kept is for the studio's terms. */
export function cancellationStatement(db: Db, { id, number, state }: CommissionRow, now: Date): Statement {
  const { currency } = getSettings(db);
  const quote = acceptedQuote(db, id);
  const spent = spendToDate(db, id);
  const { inMinor, backMinor } = moneyMoved(db, id);
  const boughtMinor = quote ? boughtInMinor(quote.request, spent.hallmark.amountMinor > 0) : 0;
  const spentMinor = spent.total.amountMinor + boughtMinor;
  const leftOf = (minor: number) => money(inMinor - backMinor - minor, currency);
  const quotedMinutes = quote ? sum(quote.request.labour.map((line) => labourMinutes(line))) : null;
  return {
    commissionId: id,
    number,
    state: state as Statement['state'],
    asOf: now.toISOString(),
    spent,
    boughtIn: money(boughtMinor, currency),
    quoted: quote
      ? {
          net: money(quote.netMinor, quote.currency),
          gross: money(quote.grossMinor, quote.currency),
          minutes: quotedMinutes!.toDecimalPlaces(1).toNumber(),
        }
      : null,
    doneFraction: !quotedMinutes || quotedMinutes.isZero() ? null : doneOf(spent.minutes, quotedMinutes),
    received: money(inMinor, currency),
    sentBack: money(backMinor, currency),
    atCost: { spent: money(spentMinor, currency), left: leftOf(spentMinor) },
    atQuotedPrice: quote ? atQuotedPrice(quote, { spent, leftOf }) : null,
    says: [
      'What of it may be kept is for your terms and the law of the place; what goes back is a payment of the kind send_back',
      'Metal and solder that come back to stock are not in what was spent: weigh them back first',
      ...(spent.unpricedMetals.length > 0 ? [`Without a price in the settings: ${spent.unpricedMetals.join(', ')}`] : []),
      ...(quote ? [] : ['No version was accepted: there is no price to go by']),
      ...(quote && quote.currency !== currency ? [`The quote is in ${quote.currency}, costs are in ${currency}`] : []),
    ],
  };
}

function doneOf(minutes: number, quoted: Decimal): number {
  return Decimal.min(new Decimal(minutes).div(quoted), 1).toDecimalPlaces(4).toNumber();
}

/** Work at the accepted profit, what was bought in with its own handling, the discount taken off, and tax on it. */
function atQuotedPrice(
  { answer: { totals }, request, currency }: Quote,
  { spent, leftOf }: { spent: Statement['spent']; leftOf: (minor: number) => Statement['received'] },
): Statement['atQuotedPrice'] {
  const hallmarkMinor = spent.hallmark.amountMinor;
  const profit = totals.makingCostMinor === 0 ? 1 : new Decimal(totals.makingPriceMinor).div(totals.makingCostMinor);
  const discount = new Decimal(1).minus(request.policy.discountFraction ?? 0);
  const handling = request.passThrough?.find(({ kind }) => kind === 'hallmark')?.handlingFraction ?? 0;
  const netMinor = whole(
    new Decimal(spent.total.amountMinor - hallmarkMinor)
      .times(profit)
      .plus(new Decimal(hallmarkMinor).times(1 + handling))
      .plus(boughtInPriceMinor(request, hallmarkMinor > 0))
      .times(discount),
  );
  const taxMinor = whole(new Decimal(netMinor).times(request.policy.tax.rateFraction));
  return { net: money(netMinor, currency), tax: money(taxMinor, currency), left: leftOf(netMinor + taxMinor) };
}

function whole(exact: Decimal): number {
  return exact.toDecimalPlaces(0, Decimal.ROUND_HALF_UP).toNumber() + 0;
}
