import { useSession } from '../../session/session.ts';
import { showQuantity } from '../../units/shown-units.ts';
import { useWords } from '../../words/words.ts';
import type { SupplierToOrder } from './drawer-replies.ts';

/** How the weight that is to be ordered came about. */
export function ReorderWhy({ line }: { line: SupplierToOrder['lines'][number] }) {
  const words = useWords();
  const { say, tell } = words;
  const { units } = useSession();
  const mass = (grams: number) => showQuantity(words, units, 'mass', grams);
  const { onHandG, onOrderG, heldG, positionG, orderPointG, decidedBy, rateGPerWeek, leadWeeks, orderG, working } = line;
  return (
    <details>
      <summary>{say('orders.why', { quantity: mass(orderG) })}</summary>
      <p>
        {say('orders.whyPosition', {
          onHand: mass(onHandG),
          onOrder: mass(onOrderG),
          held: mass(heldG),
          position: mass(positionG),
        })}
      </p>
      <p>{say(`orders.whyPoint.${decidedBy}`, { point: mass(orderPointG) })}</p>
      <p>{say('orders.whyRate', { rate: mass(rateGPerWeek), weeks: leadWeeks })}</p>
      <p>{say('orders.whyWhole')}</p>
      <h4>{say('orders.whySteps')}</h4>
      <ol>
        {working.map((step) => (
          <li key={step}>{tell(step)}</li>
        ))}
      </ol>
    </details>
  );
}
