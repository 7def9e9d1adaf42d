import { useEffect, useState } from 'preact/hooks';
import type { Joint, Part } from '../../../../shared/design/design.ts';
import { formFinder, withOwnSizes } from '../../../../shared/design/own-sizes.ts';
import { Button } from '../../ui/button.tsx';
import { Select } from '../../ui/field.tsx';
import { showQuantity } from '../../units/shown-units.ts';
import { useSession } from '../../session/session.ts';
import { useWords } from '../../words/words.ts';
import { useDesign } from './design-context.ts';
import { withJointRenamed, withoutJoint } from './design-edits.ts';
import { IdField, NumberField, refusalsUnder, SizeField, WordField } from './design-fields.tsx';
import { put, withCopy, type Draft, type DraftJoint, type JointKindName } from './draft.ts';
import { JointMore } from './joint-more.tsx';
import { PartChoice, PlaceFields } from './place-fields.tsx';
import { JOINT_KINDS, JOINT_SIZES } from './sizes.ts';
import { withUsualSizes } from './usual-sizes.ts';
import { wholeForm } from './weigh-draft.ts';

/** One joint: what it joins, where, and the sizes that decide its solder. */
export function JointCard({ joint, index, isNew }: { joint: DraftJoint; index: number; isNew: boolean }) {
  const words = useWords();
  const { say, named } = words;
  const { units } = useSession();
  const { draft, edit, error, readOnly, open: mark } = useDesign();
  const pointer = `/joints/${index}`;
  const refusals = refusalsUnder(error, pointer);
  const [open, setOpen] = useState(isNew);
  useEffect(() => {
    if (refusals.length > 0) setOpen(true);
  }, [error]);
  const own = ownSizes(joint, draft);
  const hintOf = (size: string) => {
    if (/^fillet|^corner/.test(size)) return say('design.mayBeEmpty');
    const told = own[size];
    if (joint[size] !== undefined || typeof told !== 'number') return undefined;
    return say('design.ofPart', { size: showQuantity(words, units, 'length', told) });
  };
  // The card stays for the next joint, shut.
  const remove = () => {
    setOpen(false);
    edit((before) => withoutJoint(before, index));
  };
  return (
    <li class="design-card">
      <details
        open={open}
        onToggle={(event) => {
          setOpen(event.currentTarget.open);
          mark(event.currentTarget.open ? joint.id : undefined);
        }}
      >
        <summary>
          {index + 1} <strong>{joint.name ?? joint.id}</strong>
          {(joint.count ?? 1) > 1 && ` × ${joint.count}`} <span class="soft">{named('design.kind', joint.kind)}</span>{' '}
          {joint.made && <span class="word">{named('joint.state', 'sound')}</span>}
          {refusals.length > 0 && <span class="word word-runs">{say('design.refused', { count: refusals.length })}</span>}
        </summary>
        {open && (
          <>
            <div class="columns">
              <IdField
                id={joint.id}
                taken={draft.joints.map(({ id }) => id)}
                label={say('design.id')}
                pointer={`${pointer}/id`}
                onId={(to) => edit((before) => withJointRenamed(before, index, to))}
              />
              <WordField pointer={`${pointer}/name`} label={say('design.name')} />
              <Select
                label={say('design.kind')}
                value={joint.kind}
                choices={JOINT_KINDS.map((kind) => ({ value: kind, label: named('design.kind', kind) }))}
                error={error}
                pointer={pointer}
                onValue={(kind) => edit((before) => put(before, pointer, ofKind(joint, kind as JointKindName, before)))}
              />
              <Select
                label={say('design.lies')}
                value={joint.closes === undefined ? 'between' : 'closes'}
                choices={['closes', 'between'].map((value) => ({ value, label: named('design.lies', value) }))}
                error={error}
                pointer={`${pointer}/between`}
                onValue={(lies) => edit((before) => put(before, pointer, lying(joint, lies === 'closes')))}
              />
            </div>
            {joint.closes === undefined ? (
              <>
                {([0, 1] as const).map((side) => (
                  <PlaceFields key={side} {...{ list: 'joints', index, side, of: joint.id, place: joint.between?.[side] }} />
                ))}
              </>
            ) : (
              <PartChoice
                label={say('design.closes')}
                value={joint.closes}
                pointer={`${pointer}/closes`}
                error={error}
                onValue={(closes) => edit((before) => put(before, pointer, withUsualSizes({ ...joint, closes }, before)))}
              />
            )}
            <div class="columns">
              {JOINT_SIZES[joint.kind].map((size) =>
                size === 'cornerAngleDeg' ? (
                  <NumberField
                    key={size}
                    pointer={`${pointer}/${size}`}
                    label={named('design.size', size)}
                    hint={say('design.mayBeEmpty')}
                  />
                ) : (
                  <SizeField
                    key={`${joint.kind}.${size}`}
                    pointer={`${pointer}/${size}`}
                    label={named('design.size', size)}
                    gauged={size === 'thicknessMm'}
                    hint={hintOf(size)}
                  />
                ),
              )}
              <SizeField pointer={`${pointer}/gapMm`} label={say('design.gap')} />
              <NumberField pointer={`${pointer}/count`} label={say('design.count')} hint={say('design.count.hint')} />
            </div>
            <JointMore joint={joint} pointer={pointer} />
            {!readOnly && (
              <div class="row">
                <Button
                  aria-label={say('design.copyOf', { what: joint.id })}
                  onClick={() => edit((before) => withCopy(before, 'joints', index))}
                >
                  {say('design.copy')}
                </Button>
                <Button kind="danger" onClick={remove}>
                  {say('design.removeJoint', { joint: joint.id })}
                </Button>
              </div>
            )}
          </>
        )}
      </details>
    </li>
  );
}

/** The sizes that the recipe takes from the parts where none is given. */
function ownSizes(joint: DraftJoint, { parts }: Draft): Readonly<Record<string, unknown>> {
  const whole = parts.flatMap((part) => {
    const form = wholeForm(part.form);
    return form ? [{ ...part, form } as Part] : [];
  });
  return withOwnSizes(joint as unknown as Joint, formFinder(whole)) as unknown as Readonly<Record<string, unknown>>;
}

/** Sizes that only the kind before had are dropped. */
function ofKind(joint: DraftJoint, kind: JointKindName, draft: Draft): DraftJoint {
  const sizes = new Set(Object.values(JOINT_SIZES).flat());
  const kept = Object.entries(joint).filter(
    ([name]) => name !== 'exactRing' && (!sizes.has(name) || JOINT_SIZES[kind].includes(name)),
  );
  return withUsualSizes({ ...(Object.fromEntries(kept) as DraftJoint), kind }, draft);
}

function lying({ closes, between, ...joint }: DraftJoint, isClosing: boolean): DraftJoint {
  return isClosing
    ? { ...joint, closes: closes ?? between?.[0].part ?? '' }
    : { ...joint, between: between ?? [{ part: closes ?? '' }, { part: '' }] };
}
