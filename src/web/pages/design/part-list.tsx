import { useState } from 'preact/hooks';
import type { FormKind } from '../../../../shared/design/design.ts';
import { Button } from '../../ui/button.tsx';
import { Select } from '../../ui/field.tsx';
import { useWords } from '../../words/words.ts';
import { useDesign } from './design-context.ts';
import { freeId } from './draft.ts';
import { PartCard } from './part-card.tsx';
import { FORM_KINDS } from './sizes.ts';

/** The parts by shape; another is of the metal of the one before. */
export function PartList({ metal }: { metal: string }) {
  const { say, named } = useWords();
  const { draft, edit, readOnly } = useDesign();
  const [kind, setKind] = useState<FormKind>('sheet');
  const [added, setAdded] = useState<string>();
  const add = () => {
    const id = freeId(draft.parts, kind.replaceAll('_', '-'));
    setAdded(id);
    edit((before) => ({
      ...before,
      parts: [...before.parts, { id, metal: before.parts.at(-1)?.metal ?? metal, form: { kind } }],
    }));
  };
  return (
    <section class="card" aria-labelledby="parts">
      <h2 id="parts">{say('design.parts')}</h2>
      {draft.parts.length === 0 && <p>{say('design.noParts')}</p>}
      <ol class="plain-list">
        {draft.parts.map((part, index) => (
          <PartCard key={index} part={part} index={index} isNew={part.id === added} />
        ))}
      </ol>
      {!readOnly && (
        <div class="row">
          <Select
            label={say('design.nextShape')}
            value={kind}
            choices={FORM_KINDS.map((value) => ({ value, label: named('design.form', value) }))}
            onValue={(value) => setKind(value as FormKind)}
          />
          <Button onClick={add}>{say('design.addPart')}</Button>
        </div>
      )}
    </section>
  );
}
