import { useEffect, useState } from 'preact/hooks';
import type { FormKind } from '../../../../shared/design/design.ts';
import { partSizes } from '../../../../shared/drawing/part-sizes.ts';
import { useSession } from '../../session/session.ts';
import { Button } from '../../ui/button.tsx';
import { Select, Tick } from '../../ui/field.tsx';
import { showQuantity } from '../../units/shown-units.ts';
import { useWords } from '../../words/words.ts';
import { useDesign } from './design-context.ts';
import { jointsOn, withoutPart, withPartRenamed } from './design-edits.ts';
import { ChoiceField, IdField, NumberField, refusalsUnder, SizeField, TickField, WordField } from './design-fields.tsx';
import { put, withCopy, type DraftPart } from './draft.ts';
import { FORM_KINDS, FORM_SIZES, isGauged } from './sizes.ts';
import { wholeForm, weighPart } from './weigh-draft.ts';

/** One part: what it is, its own sizes, and what it weighs. */
export function PartCard({ part, index, isNew }: { part: DraftPart; index: number; isNew: boolean }) {
  const words = useWords();
  const { say, named } = words;
  const { units } = useSession();
  const { draft, edit, error, metals, readOnly } = useDesign();
  const pointer = `/parts/${index}`;
  const refusals = refusalsUnder(error, pointer);
  const [open, setOpen] = useState(isNew);
  useEffect(() => {
    if (refusals.length > 0) setOpen(true);
  }, [error]);
  const grams = weighPart(part, metals);
  const form = wholeForm(part.form);
  const joints = jointsOn(draft, part.id).length;
  // The card stays for the next part, shut.
  const remove = () => {
    setOpen(false);
    edit((before) => withoutPart(before, index));
  };
  return (
    <li class="design-card">
      <details open={open} onToggle={(event) => setOpen(event.currentTarget.open)}>
        <summary>
          <strong>{part.name ?? part.id}</strong>
          {(part.count ?? 1) > 1 && ` × ${part.count}`}{' '}
          <span class="soft">{form ? partSizes(form) : say('design.sizesMissing')}</span>{' '}
          <span class="figure">{grams === null ? '–' : showQuantity(words, units, 'mass', grams)}</span>
          {refusals.length > 0 && <span class="word word-runs">{say('design.refused', { count: refusals.length })}</span>}
        </summary>
        {open && (
          <>
            <div class="columns">
              <IdField
                id={part.id}
                taken={draft.parts.map(({ id }) => id)}
                label={say('design.id')}
                pointer={`${pointer}/id`}
                onId={(to) => edit((before) => withPartRenamed(before, index, to))}
              />
              <WordField pointer={`${pointer}/name`} label={say('design.name')} />
              <Select
                label={say('design.shape')}
                value={part.form.kind}
                choices={FORM_KINDS.map((kind) => ({ value: kind, label: named('design.form', kind) }))}
                error={error}
                pointer={`${pointer}/form`}
                onValue={(kind) => edit((before) => put(before, `${pointer}/form`, reshaped(part.form, kind as FormKind)))}
              />
              <MetalField part={part} pointer={`${pointer}/metal`} />
              {FORM_SIZES[part.form.kind].map((size) => (
                <FormSize
                  key={`${part.form.kind}.${size}`}
                  kind={part.form.kind}
                  size={size}
                  pointer={`${pointer}/form/${size}`}
                />
              ))}
              <NumberField pointer={`${pointer}/count`} label={say('design.count')} hint={say('design.count.hint')} />
            </div>
            <details open={refusals.length > 0}>
              <summary>{say('design.part.more')}</summary>
              <div class="columns">
                <TickField pointer={`${pointer}/cast`} label={say('design.cast')} />
                <Tick
                  label={say('design.hollow')}
                  checked={part.hollow !== undefined}
                  onChecked={(is) => edit((before) => put(before, `${pointer}/hollow`, is ? { ventMm: 0 } : undefined))}
                />
                {part.hollow && (
                  <SizeField pointer={`${pointer}/hollow/ventMm`} label={say('design.vent')} hint={say('design.vent.hint')} />
                )}
                <SizeField
                  pointer={`${pointer}/maxC`}
                  label={say('design.maxC')}
                  hint={say('design.maxC.hint')}
                  quantity="temperature"
                />
                <NumberField
                  pointer={`${pointer}/supportContactFraction`}
                  label={say('design.contact')}
                  hint={say('design.contact.hint')}
                  per={0.01}
                />
              </div>
            </details>
            {!readOnly && (
              <div class="row">
                <Button
                  aria-label={say('design.copyOf', { what: part.id })}
                  onClick={() => edit((before) => withCopy(before, 'parts', index))}
                >
                  {say('design.copy')}
                </Button>
                <Button kind="danger" onClick={remove}>
                  {say('design.removePart', { part: part.id, joints })}
                </Button>
              </div>
            )}
          </>
        )}
      </details>
    </li>
  );
}

/** What two shapes both have is kept, as it stands. */
function reshaped(form: DraftPart['form'], kind: FormKind): DraftPart['form'] {
  return {
    ...Object.fromEntries(FORM_SIZES[kind].flatMap((size) => (form[size] === undefined ? [] : [[size, form[size]]]))),
    kind,
  };
}

function FormSize({ kind, size, pointer }: { kind: FormKind; size: string; pointer: string }) {
  const { named } = useWords();
  const label = named('design.size', size);
  if (size === 'areaMm2') return <NumberField pointer={pointer} label={label} />;
  return (
    <SizeField pointer={pointer} label={label} quantity={size === 'massG' ? 'mass' : 'length'} gauged={isGauged(kind, size)} />
  );
}

function MetalField({ part: { metal }, pointer }: { part: DraftPart; pointer: string }) {
  const { say, tell } = useWords();
  const { metals, edit, error } = useDesign();
  const offered = metals.filter((one) => one.from === 'table' || one.active || one.id === metal);
  const choices = offered.map(({ id, name }) => ({ value: id, label: tell(name) }));
  if (typeof metal === 'string') return <ChoiceField pointer={pointer} label={say('design.metal')} choices={choices} />;
  // A copy of a metal of the studio as it was when the design was saved; to choose it again takes it as it is now.
  const kept = { value: '', label: say('design.metalKept', { metal: tell(metal.name ?? metal.code ?? '') }) };
  return (
    <Select
      label={say('design.metal')}
      value=""
      choices={[kept, ...choices]}
      error={error}
      pointer={pointer}
      onValue={(chosen) => chosen !== '' && edit((before) => put(before, pointer, chosen))}
    />
  );
}
