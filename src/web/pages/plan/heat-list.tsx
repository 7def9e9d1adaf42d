import { useState } from 'preact/hooks';
import type { Design } from '../../../../shared/design/design.ts';
import type { Heat, Plan } from '../../../../shared/design/plan.ts';
import type { Solder } from '../../../../shared/design/solder.ts';
import type { PlanCheck } from '../../../../shared/sequencing/plan-check-answer.ts';
import { predictedState } from '../../../../shared/thermal/predicted-state.ts';
import { useSession } from '../../session/session.ts';
import { showQuantity } from '../../units/shown-units.ts';
import { Button } from '../../ui/button.tsx';
import { Select } from '../../ui/field.tsx';
import { useWords } from '../../words/words.ts';
import { withHeat, withHeatMoved, withJointIn } from './edit-heats.ts';

interface Props {
  plan: Plan;
  design: Design;
  solders: readonly Solder[];
  check: PlanCheck | undefined;
  shown: number;
  onShow: (heat: number) => void;
  onChange: (plan: Plan) => void;
}

/** The heats in order: dragged, or moved by their buttons; each with its solder and its joints. */
export function HeatList({ plan, solders, check, shown, onShow, onChange }: Props) {
  const { say } = useWords();
  const [dragged, setDragged] = useState<number | null>(null);
  const move = (from: number, to: number) => {
    if (to < 0 || to >= plan.heats.length || from === to) return;
    onChange(withHeatMoved(plan, from, to));
    onShow(to);
  };
  return (
    <section aria-labelledby="heats">
      <h2 id="heats">{say('plan.heats')}</h2>
      <ol class="plain-list">
        {plan.heats.map((heat, index) => (
          <li
            key={heat.joints.join(' ')}
            class={`heat-card${index === shown ? ' heat-shown' : ''}`}
            draggable
            onDragStart={() => setDragged(index)}
            onDragOver={(event) => dragged !== null && event.preventDefault()}
            onDrop={(event) => {
              event.preventDefault();
              if (dragged !== null) move(dragged, index);
              setDragged(null);
            }}
          >
            <div class="heat-head">
              <button type="button" class="heat-name" aria-pressed={index === shown} onClick={() => onShow(index)}>
                <strong>{say('plan.heat', { number: index + 1 })}</strong> {heat.joints.join(', ')}
                <Worst check={check} index={index} />
              </button>
              <span class="row">
                <Button
                  aria-label={say('plan.moveEarlier', { number: index + 1 })}
                  disabled={index === 0}
                  onClick={() => move(index, index - 1)}
                >
                  ↑
                </Button>
                <Button
                  aria-label={say('plan.moveLater', { number: index + 1 })}
                  disabled={index === plan.heats.length - 1}
                  onClick={() => move(index, index + 1)}
                >
                  ↓
                </Button>
              </span>
            </div>
            {index === shown && <HeatLevers {...{ plan, heat, index, solders, onChange }} />}
          </li>
        ))}
      </ol>
    </section>
  );
}

/** In a word: the worst that is predicted in a heat. */
function Worst({ check, index }: { check: PlanCheck | undefined; index: number }) {
  const { say } = useWords();
  const heat = check?.heats[index];
  if (!heat || heat.joints.length === 0) return null;
  if (heat.flow === 'does_not_flow') return <span class="word word-runs">{say('plan.worst.noFlow')}</span>;
  const worst = (['runs', 'softens', 'solid'] as const).find((verdict) =>
    heat.earlierJoints.some((one) => predictedState(one) === verdict),
  );
  return worst === undefined ? null : <span class={`word word-${worst}`}>{say(`plan.joint.${worst}`)}</span>;
}

interface LeversProps {
  plan: Plan;
  heat: Heat;
  index: number;
  solders: readonly Solder[];
  onChange: (plan: Plan) => void;
}

function HeatLevers({ plan, heat, index, solders, onChange }: LeversProps) {
  const words = useWords();
  const { units } = useSession();
  const { say } = words;
  const shown = (celsius: number) => showQuantity(words, units, 'temperature', celsius);
  return (
    <div class="heat-levers">
      {heat.purpose !== 'anneal' && (
        <Select
          label={say('plan.solder')}
          value={heat.solder ?? ''}
          onValue={(solder) => onChange(withHeat(plan, index, { solder }))}
          choices={solders.map(({ id, solidusC, liquidusC }) => ({
            value: id,
            label: say('plan.solderTemps', { solder: id, solidus: shown(solidusC), liquidus: shown(liquidusC) }),
          }))}
        />
      )}
      {heat.joints.map((joint) => (
        <Select
          key={joint}
          label={`${joint}: ${say('plan.moveJoint')}`}
          value={String(index)}
          onValue={(to) => onChange(withJointIn(plan, joint, to === 'own' ? 'own' : Number(to)))}
          choices={[
            ...plan.heats.map((_, at) => ({ value: String(at), label: say('plan.heat', { number: at + 1 }) })),
            ...(heat.joints.length > 1 ? [{ value: 'own', label: say('plan.ownHeat') }] : []),
          ]}
        />
      ))}
    </div>
  );
}
