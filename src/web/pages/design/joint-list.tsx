import { useState } from 'preact/hooks';
import { Button } from '../../ui/button.tsx';
import { Select } from '../../ui/field.tsx';
import { useWords } from '../../words/words.ts';
import { useDesign } from './design-context.ts';
import { freeId, type DraftJoint, type JointKindName } from './draft.ts';
import { JointCard } from './joint-card.tsx';
import { JOINT_KINDS } from './sizes.ts';

/** Most close a part, or most join two. */
const CLOSING: ReadonlySet<JointKindName> = new Set(['seam', 'jump_ring']);
const USUAL_GAP_MM = 0.05;

/** The joints, numbered as on the drawing. */
export function JointList() {
  const { say, named } = useWords();
  const { draft, edit, readOnly } = useDesign();
  const [kind, setKind] = useState<JointKindName>('seam');
  const [added, setAdded] = useState<string>();
  const add = () => {
    const id = freeId(draft.joints, kind.replaceAll('_', '-'));
    setAdded(id);
    const lies = CLOSING.has(kind) ? { closes: '' } : { between: [{ part: '' }, { part: '' }] as const };
    const joint: DraftJoint = { id, kind, ...lies, gapMm: USUAL_GAP_MM };
    edit((before) => ({ ...before, joints: [...before.joints, joint] }));
  };
  return (
    <section class="card" aria-labelledby="joints">
      <h2 id="joints">{say('design.joints')}</h2>
      {draft.joints.length === 0 && <p>{say(draft.parts.length === 0 ? 'design.joints.partsFirst' : 'design.noJoints')}</p>}
      <ol class="plain-list">
        {draft.joints.map((joint, index) => (
          <JointCard key={index} joint={joint} index={index} isNew={joint.id === added} />
        ))}
      </ol>
      {!readOnly && draft.parts.length > 0 && (
        <div class="row">
          <Select
            label={say('design.nextJoint')}
            value={kind}
            choices={JOINT_KINDS.map((value) => ({ value, label: named('design.kind', value) }))}
            onValue={(value) => setKind(value as JointKindName)}
          />
          <Button onClick={add}>{say('design.addJoint')}</Button>
        </div>
      )}
    </section>
  );
}
