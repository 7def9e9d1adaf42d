import { useState } from 'preact/hooks';
import type { Design } from '../../../../shared/design/design.ts';
import type { Bench, Flame, Heat, Plan, Protection } from '../../../../shared/design/plan.ts';
import type { Solder } from '../../../../shared/design/solder.ts';
import { drawHeat } from '../../../../shared/drawing/draw-heat.ts';
import { meltingLadder } from '../../../../shared/drawing/melting-ladder.ts';
import { predictedState } from '../../../../shared/thermal/predicted-state.ts';
import { toFive } from '../../../../shared/thermal/to-five.ts';
import type { HeatCheck } from '../../../../shared/sequencing/plan-check-answer.ts';
import { useSession } from '../../session/session.ts';
import { showDifference, showQuantity } from '../../units/shown-units.ts';
import { Button } from '../../ui/button.tsx';
import { Picture, saveSvg } from '../../ui/picture.tsx';
import { useWords, type Words } from '../../words/words.ts';
import { withHeat, withoutProtection, withProtection } from './edit-heats.ts';
import { HeatHistories } from './heat-histories.tsx';
import { windowOf } from './window-of.ts';

interface Props {
  design: Design;
  solders: readonly Solder[];
  bench: Bench;
  plan: Plan;
  heat: Heat;
  check: HeatCheck;
  onChange: (plan: Plan) => void;
}

/** One heat: the ladder of every earlier joint, the piece in the fire, both margins in words, and what may be put in the way. */
export function HeatView({ design, solders, bench, plan, heat, check, onChange }: Props) {
  const words = useWords();
  const { units } = useSession();
  const { say } = words;
  const index = check.heat - 1;
  const shown = (celsius: number) => showQuantity(words, units, 'temperature', celsius);
  const numberOf = (joint: string) => design.joints.findIndex(({ id }) => id === joint) + 1;
  const joints = check.earlierJoints.map((one) => ({
    ...one,
    ...windowOf(one.joint, { design, solders, plan, riseK: bench.riseK ?? 0 }, one),
    name: one.joint,
    number: numberOf(one.joint),
    verdict: predictedState(one),
    says: say(`plan.joint.${predictedState(one)}`),
  }));
  const ladder = meltingLadder({
    flowC: check.flowC,
    joints,
    words: {
      title: say('plan.ladder', { number: check.heat }),
      description: say('plan.ladderDesc'),
      flow: check.flowC === null ? '' : say('plan.flowLine', { temperature: shown(check.flowC) }),
      temperature: shown,
    },
  });
  const made = plan.heats.slice(0, index).flatMap((earlier) => earlier.joints);
  const drawing = drawHeat(design, {
    heat,
    inFire: check.inFire,
    made: [...made, ...design.joints.filter((joint) => joint.made !== undefined).map(({ id }) => id)],
    words: {
      title: say('plan.drawing', { number: check.heat }),
      description: say('plan.inFire', { parts: check.inFire.join(', ') }),
    },
  });
  return (
    <section class="card heat-view" aria-labelledby="heat-view">
      <h2 id="heat-view">{say('plan.heatOf', { number: check.heat, joints: heat.joints.join(', ') })}</h2>
      <p>
        {check.flow === 'does_not_flow'
          ? say('plan.flow.does_not_flow', { temperature: check.settlesC === null ? '–' : shown(check.settlesC) })
          : say(`plan.flow.${check.flow}`, { seconds: Math.round(check.timeToFlowS ?? 0) })}
        {check.flowC !== null && `, ${say('plan.broughtTo', { temperature: shown(check.flowC) })}`}
      </p>
      <div class="heat-pictures">
        {joints.length > 0 ? <Picture svg={ladder} /> : <p class="soft">{say('plan.ladderNone')}</p>}
        <Picture svg={drawing} />
      </div>
      <ul class="margins">
        {check.earlierJoints.map((one) => (
          <li key={one.joint} class={`margin-${predictedState(one)}`}>
            {inWords(one, words, (differenceK) => showDifference(words, units, differenceK))}
          </li>
        ))}
        {check.parts
          .filter(({ verdict }) => verdict !== 'within')
          .map(({ part, verdict, peakC, limitC }) => (
            <li key={part} class={verdict === 'over_limit' ? 'margin-runs' : 'margin-softens'}>
              {say(`plan.part.${verdict as 'near_limit' | 'over_limit'}`, {
                part,
                margin: showDifference(words, units, Math.abs(limitC - peakC)),
                limit: shown(limitC),
              })}
            </li>
          ))}
      </ul>
      <Protections
        {...{ plan, heat, index, onChange }}
        earlier={check.earlierJoints.map(({ joint }) => joint)}
        parts={check.inFire}
      />
      {check.histories && (
        <details>
          <summary>{say('plan.histories')}</summary>
          <HeatHistories histories={check.histories} flowC={check.flowC} />
        </details>
      )}
      {joints.length > 0 && (
        <Button kind="quiet" onClick={() => saveSvg(ladder, `heat-${check.heat}`)}>
          {say('plan.saveSvg')}
        </Button>
      )}
    </section>
  );
}

/** What is predicted of an earlier joint, with its margins rounded as the engine's own sentences round them. */
function inWords(
  { joint, verdict, solidMarginK, runMarginK, uncertaintyK, secondsAboveLiquidus }: HeatCheck['earlierJoints'][number],
  { say, number }: Words,
  difference: (differenceK: number) => string,
): string {
  const run = difference(toFive(Math.abs(runMarginK)));
  return say(`plan.says.${verdict}`, {
    joint,
    solid: difference(toFive(Math.abs(solidMarginK))),
    run,
    runSide: say(runMarginK < 0 ? 'plan.side.above' : 'plan.side.below', { run }),
    uncertainty: difference(toFive(uncertaintyK)),
    seconds: number(secondsAboveLiquidus, 1),
  });
}

interface ProtectionsProps {
  plan: Plan;
  heat: Heat;
  index: number;
  earlier: readonly string[];
  parts: readonly string[];
  onChange: (plan: Plan) => void;
}

const MEANS = ['sink', 'heavy_clamp', 'wet_pack', 'shield', 'anti_flow', 'away'] as const;
type Means = (typeof MEANS)[number];

function Protections({ plan, heat, index, earlier, parts, onChange }: ProtectionsProps) {
  const { say } = useWords();
  const [means, setMeans] = useState<Means>('sink');
  const guarded = [...earlier, ...(means === 'shield' ? parts : [])];
  const [what, setWhat] = useState('');
  const chosen = guarded.includes(what) ? what : guarded[0];
  const add = () => {
    if (chosen === undefined) return;
    if (means === 'away') onChange(withHeat(plan, index, { flame: { ...heat.flame, tiltDeg: 45, awayFrom: chosen } }));
    else onChange(withProtection(plan, index, protectionOf(means, chosen)));
  };
  return (
    <div>
      <ul class="plain-list">
        {(heat.protections ?? []).map((one, which) => (
          <li key={JSON.stringify(one)}>
            <Button onClick={() => onChange(withoutProtection(plan, index, which))}>
              {say('plan.takeAway', { what: say(...wordOf(one)) })}
            </Button>
          </li>
        ))}
        {heat.flame?.awayFrom !== undefined && (
          <li>
            <Button onClick={() => onChange(withHeat(plan, index, { flame: upright(heat.flame ?? {}) }))}>
              {say('plan.takeAway', { what: say('plan.protect.away', { what: heat.flame.awayFrom }) })}
            </Button>
          </li>
        )}
      </ul>
      {earlier.length > 0 && (
        <div class="row" role="group" aria-label={say('plan.addProtection')}>
          <select
            aria-label={say('plan.addProtection')}
            value={means}
            onChange={(event) => setMeans(event.currentTarget.value as Means)}
          >
            {MEANS.map((one) => (
              <option key={one} value={one}>
                {say(`plan.protect.${one}`, { what: '…' })}
              </option>
            ))}
          </select>
          <select aria-label={say('plan.protect.on')} value={chosen} onChange={(event) => setWhat(event.currentTarget.value)}>
            {guarded.map((one) => (
              <option key={one}>{one}</option>
            ))}
          </select>
          <Button onClick={add}>{say('plan.addProtection')}</Button>
        </div>
      )}
    </div>
  );
}

function protectionOf(means: Exclude<Means, 'away'>, what: string): Protection {
  switch (means) {
    case 'sink':
      return { kind: 'sink', sink: 'tweezers', at: { joint: what } };
    case 'heavy_clamp':
    case 'wet_pack':
      return { kind: 'sink', sink: means, at: { joint: what } };
    case 'shield':
    case 'anti_flow':
      return { kind: means, guards: what };
  }
}

function wordOf(protection: Protection): [`plan.protect.${Means}`, { what: string }] {
  if (protection.kind !== 'sink') return [`plan.protect.${protection.kind}`, { what: protection.guards }];
  const { sink, at } = protection;
  return [`plan.protect.${sink === 'tweezers' ? 'sink' : sink}`, { what: 'joint' in at ? at.joint : at.part }];
}

function upright({ awayFrom: _away, towards: _towards, tiltDeg: _tilt, ...rest }: Flame): Flame {
  return rest;
}
