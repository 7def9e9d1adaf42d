import type { EstimateRequest } from '../../../../shared/costing/estimate-request.ts';
import type { Answer } from './base-price.ts';

export type Step = Answer['steps'][number];

/** The steps of the working that led to a line of what it costs. */
export function stepsOfLine(
  { group, label }: Pick<Answer['lines'][number], 'group' | 'label'>,
  { design }: EstimateRequest,
  steps: readonly Step[],
): Step[] {
  const id = label.slice(label.indexOf(' ') + 1);
  const heats = (...names: string[]) =>
    ofKeys(steps, (key) => key.startsWith('heat.') && names.some((name) => key.endsWith(`.${name}`)));
  const starting = (...starts: string[]) => ofKeys(steps, (key) => starts.some((start) => key.startsWith(start)));
  switch (group) {
    case 'metal': {
      const parts = design.parts.filter(({ metal }) => metal === id).map((part) => `part.${part.id}.`);
      return [
        ...starting(...parts).filter(({ key }) => !key.endsWith('.area')),
        ...starting(`price_per_g.${id}`, `metal.${id}.`).filter(({ key }) => !key.endsWith('.scrap_credit')),
      ];
    }
    case 'scrap_credit':
      return starting(`metal.${label.replace(/^scrap credit /, '')}.`).filter(({ key }) => /\.(net|scrap_credit)$/.test(key));
    case 'solder': {
      const joints = design.joints.filter(({ solder }) => solder === id).map((joint) => `joint.${joint.id}.`);
      return starting(...joints, `price_per_g.${id}`, `solder.${id}.`);
    }
    case 'flux':
      return [...heats('area', 'flux'), ...starting('flux.')];
    case 'pickle':
      return [...heats('cuo', 'acid'), ...starting('pickle.')];
    case 'gas':
      return [...heats('mass', 'flame', 'gas'), ...starting('gas.')];
    case 'labour':
      return starting('labour.').filter(({ key }) => key !== 'labour.minutes');
    default:
      return starting('labour.minutes', `${group}.`);
  }
}

/** Whether a line costs something, only less than the smallest coin. */
export function isUnderOne(line: Answer['lines'][number], { flux, gas }: EstimateRequest, steps: readonly Step[]): boolean {
  if (line.amountMinor !== 0) return false;
  const has = (key: string) => steps.some((step) => step.key === key && Number(step.value) > 0);
  const id = line.label.replace(/^solder /, '');
  switch (line.group) {
    case 'solder':
      return has(`price_per_g.${id}`) && has(`solder.${id}.product`);
    case 'flux':
      return Number(flux?.pricePerG) > 0 && has('flux.total');
    case 'gas':
      return Number(gas?.pricePerG) > 0 && has('gas.fuel');
    case 'pickle':
      return has('pickle.bath_cost') && has('pickle.acid');
    default:
      return false;
  }
}

/** The steps that led to a total. */
export function stepsOfTotal(total: string, steps: readonly Step[]): Step[] {
  const wanted = TOTALS[total] ?? [];
  return ofKeys(steps, (key) => wanted.some((one) => (one.endsWith('.') ? key.startsWith(one) : key === one)));
}

const TOTALS: Readonly<Record<string, readonly string[]>> = {
  baseMinor: ['making.base'],
  contingencyMinor: ['making.base', 'making.contingency'],
  makingCostMinor: ['making.base', 'making.contingency', 'making.cost'],
  makingPriceMinor: ['making.cost', 'making.price'],
  netBeforeDiscountMinor: ['making.price', 'pass.', 'handling.', 'net.before_discount'],
  discountMinor: ['net.before_discount', 'net.discount'],
  netMinor: ['net.before_discount', 'net.discount', 'net.price'],
  taxMinor: ['net.price', 'tax.'],
  grossMinor: ['net.price', 'tax.total', 'gross.price'],
  depositMinor: ['gross.price', 'deposit'],
  balanceMinor: ['gross.price', 'deposit', 'balance'],
  profitMinor: ['net.price', 'check.'],
};

function ofKeys(steps: readonly Step[], wanted: (key: string) => boolean): Step[] {
  return steps.filter(({ key }) => wanted(key));
}
