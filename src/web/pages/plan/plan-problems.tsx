import type { Plan } from '../../../../shared/design/plan.ts';
import type { PlanProblem } from '../../../../shared/sequencing/plan-check-answer.ts';
import { Button } from '../../ui/button.tsx';
import { useWords } from '../../words/words.ts';

/** What is predicted to go wrong, and for each the best small change that was tried, ready to take. */
export function PlanProblems({ problems, take }: { problems: readonly PlanProblem[]; take: (plan: Plan) => void }) {
  const { say, tell } = useWords();
  return (
    <section class="card" aria-labelledby="problems">
      <h2 id="problems">{say('plan.problems')}</h2>
      <ul class="plain-list">
        {problems.map(({ heat, joint, part, says, bestFix, helps, nothingHelps }) => (
          <li key={`${heat} ${joint ?? part}`} class="problem">
            <p>
              <strong>{say('plan.heat', { number: heat })}</strong>: {tell(says)}
            </p>
            {bestFix && (
              <p class="row">
                <span>
                  {say('plan.fix')}: {tell(bestFix.says)}
                </span>
                <Button onClick={() => take(bestFix.change.plan)}>{say('plan.doFix')}</Button>
              </p>
            )}
            {helps.length > 0 && (
              <>
                <p>{say('plan.help')}</p>
                <ul>
                  {helps.map((help) => (
                    <li key={help.says}>{tell(help.says)}</li>
                  ))}
                </ul>
              </>
            )}
            {nothingHelps && <p>{tell(nothingHelps)}</p>}
          </li>
        ))}
      </ul>
    </section>
  );
}
