import type { Plan } from '../../../../shared/design/plan.ts';
import type { Proof } from '../../../../shared/sequencing/levels.ts';
import type { PlanSearchOutcome } from '../../../../shared/sequencing/search-plan.ts';
import { useSession } from '../../session/session.ts';
import { showDifference } from '../../units/shown-units.ts';
import { Button } from '../../ui/button.tsx';
import { useWords } from '../../words/words.ts';

/** What a search found: the plan, why it is so, how far it is proven, what else was nearly as good; or which joints fight. */
export function PlanFound({ found, take }: { found: PlanSearchOutcome; take: (plan: Plan) => void }) {
  const { say, tell } = useWords();
  if (found.outcome === 'faults')
    return (
      <ul class="notice notice-problem">
        {found.faults.map(({ pointer, detail }) => (
          <li key={pointer + detail}>{tell(detail)}</li>
        ))}
      </ul>
    );
  const { outcome, plan, proof, why, alternatives, worthKnowing, conflict, relaxations } = found;
  return (
    <div aria-live="polite">
      <h3>{say(`plan.found.${outcome}`)}</h3>
      {plan && (
        <Button kind="main" onClick={() => take(plan)}>
          {say('plan.take')}
        </Button>
      )}
      <Lines title={say('plan.why')} lines={why} />
      {conflict && <Lines title={say('plan.conflict')} lines={[conflict.says]} />}
      <Lines title={say('plan.relaxations')} lines={relaxations.map(({ says }) => says)} />
      {alternatives.length > 0 && (
        <>
          <h3>{say('plan.alternatives')}</h3>
          <ul class="plain-list">
            {alternatives.map((other) => (
              <li key={other.tradeOff} class="row">
                <span>{tell(other.tradeOff)}</span>
                <Button onClick={() => take(other.plan)}>{say('plan.take')}</Button>
              </li>
            ))}
          </ul>
        </>
      )}
      <Lines title={say('plan.worthKnowing')} lines={worthKnowing} />
      <details>
        <summary>{say('plan.proof')}</summary>
        <table>
          <tbody>
            {proof.map((one) => (
              <Level key={one.level} proof={one} />
            ))}
          </tbody>
        </table>
      </details>
    </div>
  );
}

function Lines({ title, lines }: { title: string; lines: readonly string[] }) {
  const { tell } = useWords();
  if (lines.length === 0) return null;
  return (
    <>
      <h3>{title}</h3>
      <ul>
        {lines.map((line) => (
          <li key={line}>{tell(line)}</li>
        ))}
      </ul>
    </>
  );
}

function Level({ proof: { level, value, bound, proven, heuristic } }: { proof: Proof }) {
  const words = useWords();
  const { units } = useSession();
  const { say, number } = words;
  const shown = (of: number | null) => {
    if (of === null) return '–';
    if (level === 'margin') return showDifference(words, units, of);
    return level === 'time' ? say('plan.minutes', { minutes: Math.round(of / 60) }) : number(of);
  };
  return (
    <tr>
      <th scope="row">{say(`plan.level.${level}`)}</th>
      <td class="figure">{shown(value)}</td>
      <td>
        {proven ? say('plan.proof.proven') : say('plan.proof.open', { bound: shown(bound) })}
        {heuristic && `, ${say('plan.proof.heuristic')}`}
      </td>
    </tr>
  );
}
