import { useEffect, useRef, useState } from 'preact/hooks';
import type { Design } from '../../../../shared/design/design.ts';
import type { Bench, Plan } from '../../../../shared/design/plan.ts';
import type { Solder } from '../../../../shared/design/solder.ts';
import type { ProtectionOption } from '../../../../shared/sequencing/plan-search-request.ts';
import type { PlanSearchOutcome, PlanSearchStep } from '../../../../shared/sequencing/search-plan.ts';
import { askEngine, type Asked } from '../../engine/engine.ts';
import { useSession } from '../../session/session.ts';
import { showDifference } from '../../units/shown-units.ts';
import { Button } from '../../ui/button.tsx';
import { Select, Tick } from '../../ui/field.tsx';
import { ProblemNotice } from '../../ui/problem-notice.tsx';
import { useWords } from '../../words/words.ts';
import { PlanFound } from './plan-found.tsx';

const OPTIONS: readonly ProtectionOption[] = [
  { kind: 'flame_away' },
  { kind: 'sink', maxPerHeat: 2, leastDistanceMm: 8 },
  { kind: 'shield', maxPerHeat: 2 },
  { kind: 'anti_flow', maxPerHeat: 3 },
];

interface Props {
  design: Design;
  solders: readonly Solder[];
  bench: Bench;
  take: (plan: Plan) => void;
}

/** Looks for the best plan in this browser; it can be stopped, and then answers with what it has. */
export function SearchPanel({ design, solders, bench, take }: Props) {
  const words = useWords();
  const { units } = useSession();
  const { say } = words;
  const [targetMarginK, setTarget] = useState(10);
  const [kinds, setKinds] = useState<readonly ProtectionOption['kind'][]>(OPTIONS.map(({ kind }) => kind));
  const [step, setStep] = useState<PlanSearchStep>();
  const [found, setFound] = useState<PlanSearchOutcome>();
  const [error, setError] = useState<Error>();
  const asked = useRef<Asked<'search'> | undefined>(undefined);
  useEffect(() => () => asked.current?.drop(), []);
  const search = () => {
    setFound(undefined);
    setError(undefined);
    setStep({ workUnits: 0, thermalRuns: 0 });
    const protections = OPTIONS.filter(({ kind }) => kinds.includes(kind));
    asked.current = askEngine(
      'search',
      { design, solders, bench, options: { targetMarginK, protections, timeMs: 60_000 } },
      setStep,
    );
    asked.current.answer
      .then(setFound)
      .catch((thrown: Error) => thrown.name !== 'AbortError' && setError(thrown))
      .finally(() => setStep(undefined));
  };
  const best = step?.proof?.map(({ level, value }) => `${say(`plan.level.${level}`)} ${value ?? '–'}`).join(', ');
  return (
    <section class="card" aria-labelledby="find">
      <h2 id="find">{say('plan.find')}</h2>
      <p class="soft">{say('plan.findLead')}</p>
      <div class="row">
        <Select
          label={say('plan.target')}
          value={String(targetMarginK)}
          onValue={(value) => setTarget(Number(value))}
          choices={[0, 10, 20, 30].map((value) => ({ value: String(value), label: showDifference(words, units, value) }))}
        />
        <fieldset class="row">
          <legend>{say('plan.allowed')}</legend>
          {OPTIONS.map(({ kind }) => (
            <Tick
              key={kind}
              label={say(`plan.allow.${kind}`)}
              checked={kinds.includes(kind)}
              onChecked={(checked) => setKinds(checked ? [...kinds, kind] : kinds.filter((one) => one !== kind))}
            />
          ))}
        </fieldset>
        <Button kind="main" busy={step !== undefined} onClick={search}>
          {say('plan.find')}
        </Button>
        {step && <Button onClick={() => asked.current?.finish()}>{say('plan.stop')}</Button>}
      </div>
      <div role="status">
        {step && (
          <>
            <progress aria-label={say('plan.find')} />
            <p>
              {say('plan.searching', { runs: step.thermalRuns })}: {best ?? say('plan.searchingNone')}
            </p>
          </>
        )}
      </div>
      <ProblemNotice error={error} />
      {found && <PlanFound found={found} take={take} />}
    </section>
  );
}
