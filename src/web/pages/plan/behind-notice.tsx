import { planDifference, type HeatDifference } from '../../../../shared/design/plan-difference.ts';
import type { Plan } from '../../../../shared/design/plan.ts';
import { Button } from '../../ui/button.tsx';
import { useWords, type Words } from '../../words/words.ts';
import type { PlanVersion } from './piece-plans.ts';
import type { PlanDraft } from './use-plan-draft.ts';

interface Props {
  work: PlanDraft;
  mine: Plan;
  newest: PlanVersion;
  looksAtTheirs: boolean;
  setLooksAtTheirs: (looks: boolean) => void;
  layOver: () => void;
}

/** Somebody saved another version meanwhile: in what the two differ, and what is to become of this one. Neither is lost. */
export function BehindNotice({ work, mine, newest, looksAtTheirs, setLooksAtTheirs, layOver }: Props) {
  const words = useWords();
  const { say } = words;
  const differences = planDifference(mine, newest.plan);
  return (
    <div class="notice notice-caution" role="alert">
      <p>{say('plan.behind', { number: newest.number, base: work.baseNumber })}</p>
      {differences.length === 0 ? (
        <p>{say('plan.behindAlike')}</p>
      ) : (
        <ul>
          {differences.map((one) => (
            <li key={`${one.yours?.heat} ${one.theirs?.heat}`}>{differenceWords(one, words)}</li>
          ))}
        </ul>
      )}
      <div class="row">
        <Button aria-pressed={looksAtTheirs} onClick={() => setLooksAtTheirs(!looksAtTheirs)}>
          {say(looksAtTheirs ? 'design.lookAtMine' : 'design.lookAtTheirs')}
        </Button>
        <Button onClick={layOver}>{say('plan.layOver')}</Button>
        <Button onClick={work.takeSaved}>{say('design.takeTheirs')}</Button>
      </div>
    </div>
  );
}

/** "bezel: heat 2 in yours, 3 in theirs; another flame". */
function differenceWords({ joints, yours, theirs, fields }: HeatDifference, { say, named, locale }: Words): string {
  const what = joints.length === 0 ? say('plan.diff.anneal') : new Intl.ListFormat(locale).format(joints);
  if (theirs === null) return say('plan.diff.onlyYours', { what, heat: yours!.heat });
  if (yours === null) return say('plan.diff.onlyTheirs', { what, heat: theirs.heat });
  const both = fields.map((field) => {
    if (field === 'heat') return say('plan.diff.heat', { yours: yours.heat, theirs: theirs.heat });
    if (field === 'solder') return say('plan.diff.solder', { yours: yours.solder ?? '–', theirs: theirs.solder ?? '–' });
    return named('plan.diff', field);
  });
  return `${what}: ${both.join('; ')}`;
}
