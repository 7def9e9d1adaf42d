import { expect, test } from 'vitest';
import type { EstimateRequest } from '../../../shared/costing/estimate-request.ts';
import { estimate } from '../../../shared/costing/estimate.ts';
import { keptScrap } from '../../../shared/costing/kept-scrap.ts';
import reference from '../../reference/estimate-cases.json' with { type: 'json' };

const pendant = reference.cases[0]!.request as unknown as EstimateRequest;
const kept = (changes: Partial<EstimateRequest>) => keptScrap({ ...pendant, ...changes });
const policy = { ...pendant.policy, scrapCredit: null };

// Of the worked quote: 0.25 · 0.98 · 0.90 + 0.08 · 0.85 · 0.75 = 0.2715 of the net, at 1.05 a gram of fine silver.
test('scrap that is kept is worth what it would have been credited at the usual shares', () => {
  expect(kept({})).toEqual([]);
  const found = kept({ policy });
  expect(found.map(({ worthMinor }) => worthMinor)).toEqual([19, 81, 15]);
  // 0.659106 g of fine silver at 0.999.
  expect(found[0]!.fineG).toBeCloseTo(0.659106 * 0.2715 * 0.999, 6);
  const credited = estimate(pendant).lines.filter(({ group }) => group === 'scrap_credit');
  expect(credited.map(({ amountMinor }) => -amountMinor)).toEqual([19, 81, 15]);
  expect(estimate({ ...pendant, policy }).lines.some(({ group }) => group === 'scrap_credit')).toBe(false);
});

test('scrap of a metal that nobody paid for is not the studio’s, and a currency has its own digits', () => {
  const metals = pendant.metals.map((metal, index) =>
    index === 0 ? { ...metal, price: { amount: '0', per: 'g' as const } } : metal,
  );
  expect(kept({ policy, metals }).map(({ worthMinor }) => worthMinor)).toEqual([19, 15]);
  // 0.659106 · 0.999, 3.065001 · 0.925 and 0.587699 · 0.925 g, each · 0.2715 · 1.05, in thousandths of a dinar.
  expect(kept({ policy, currency: 'KWD' }).map(({ worthMinor }) => worthMinor)).toEqual([188, 808, 155]);
  expect(kept({ policy, currency: 'JPY' }).map(({ worthMinor }) => worthMinor)).toEqual([0, 1, 0]);
});
