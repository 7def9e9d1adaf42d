import type { EstimatePolicy, EstimateRequest } from '../../shared/costing/estimate-request.ts';

/** An hour at the bench for 100.00, sold at cost, untaxed; policy and the rest as the test says. */
export function anEstimateRequest({
  policy,
  ...rest
}: Partial<Omit<EstimateRequest, 'policy'>> & { policy?: Partial<EstimatePolicy> } = {}): EstimateRequest {
  return {
    currency: 'EUR',
    metals: [],
    solders: [],
    design: { parts: [], joints: [] },
    heats: [],
    labour: [{ operation: 'sawing', role: 'bench', minutes: 60 }],
    ...rest,
    policy: {
      waste: { offcutFraction: 0, filingsFraction: 0, unrecoveredFraction: 0 },
      finePricePerG: '1.00',
      ratesPerHour: { bench: '100.00' },
      overheadPerBenchHour: '0',
      consumablesPerBenchHour: '0',
      contingencyFraction: 0,
      profit: { markupFraction: 0 },
      tax: { rateFraction: 0, method: 'on_total' },
      ...policy,
    },
  };
}
