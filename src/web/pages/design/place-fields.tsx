import { useEffect, useRef } from 'preact/hooks';
import type { Form, FormKind } from '../../../../shared/design/design.ts';
import { familyOf } from '../../../../shared/drawing/part-shape.ts';
import { Button } from '../../ui/button.tsx';
import { Select } from '../../ui/field.tsx';
import { useWords, type MessageKey } from '../../words/words.ts';
import type { Place } from '../../../../shared/design/design.ts';
import { useDesign, type Picking } from './design-context.ts';
import { withPlace } from './design-edits.ts';
import { names } from './names.ts';
import { SizeField } from './design-fields.tsx';

interface Props extends Picking {
  /** Of the joint or contact, as it is known. */
  of: string;
  place: Place | undefined;
}

/** One of the two places of a joint or a contact: shown on the drawing, or by its part and its numbers. */
export function PlaceFields({ list, index, side, of, place }: Props) {
  const { say, named } = useWords();
  const { draft, edit, error, readOnly, picking, pick } = useDesign();
  const isPicking = picking?.list === list && picking.index === index && picking.side === side;
  // Back from the drawing to where it was asked for.
  const box = useRef<HTMLFieldSetElement>(null);
  const was = useRef(false);
  useEffect(() => {
    if (was.current && !isPicking) box.current?.querySelector('button')?.focus();
    was.current = isPicking;
  }, [isPicking]);
  const pointer = `/${list}/${index}/between/${side}`;
  const part = draft.parts.find(({ id }) => place !== undefined && names(place.part, id));
  const legend = say(`design.place.${side}`);
  return (
    <fieldset class="design-place" ref={box}>
      <legend>{legend}</legend>
      {!readOnly && (
        <Button
          aria-label={say('design.pick.onDrawingOf', { place: legend, joint: of })}
          onClick={() => pick({ list, index, side })}
        >
          {say('design.pick.onDrawing')}
        </Button>
      )}
      <div class="columns">
        <PartChoice
          label={say('design.place.part')}
          value={place?.part ?? ''}
          pointer={`${pointer}/part`}
          error={error}
          onValue={(id) => edit((before) => withPlace(before, { list, index, side }, { part: id }))}
        />
        {part &&
          axesOf(part.form.kind).map(([axis, from]) => (
            <SizeField
              key={`${part.id}.${axis}`}
              pointer={`${pointer}/${axis}`}
              label={named('design.axis', axis)}
              hint={say(from)}
            />
          ))}
        {part && axesOf(part.form.kind).length === 0 && <p class="soft">{say('design.onlyPlace')}</p>}
      </div>
    </fieldset>
  );
}

/** A choice among the parts and their copies; what names none of them is offered as it stands. */
export function PartChoice({
  value,
  ...rest
}: {
  label: string;
  value: string;
  pointer: string;
  error: Error | undefined;
  onValue: (part: string) => void;
}) {
  const { say } = useWords();
  const { draft } = useDesign();
  const known = draft.parts.flatMap(({ id, name, count = 1 }) => [
    { value: id, label: name === undefined ? id : `${id} (${name})` },
    ...(count > 1 && count <= 200
      ? Array.from({ length: count }, (_, i) => ({ value: `${id}.${i + 1}`, label: `${id}.${i + 1}` }))
      : []),
  ]);
  const strange = value === '' || known.some((one) => one.value === value) ? [] : [{ value, label: value }];
  return <Select {...rest} value={value} choices={[{ value: '', label: say('design.place.choose') }, ...known, ...strange]} />;
}

/** The axes that a place on a shape has, and from where each is counted. */
function axesOf(kind: FormKind): (readonly [axis: string, from: MessageKey])[] {
  if (kind === 'sheet') return ['xMm', 'yMm'].map((axis) => [axis, 'design.axis.corner'] as const);
  switch (familyOf({ kind } as Form)) {
    case 'plate':
      return ['xMm', 'yMm'].map((axis) => [axis, 'design.axis.centre'] as const);
    case 'band':
      return [
        ['alongMm', 'design.axis.seam'],
        ['acrossMm', 'design.axis.edge'],
      ];
    case 'ring':
      return [['alongMm', 'design.axis.seam']];
    case 'rod':
      return [['alongMm', 'design.axis.end']];
    case 'lump':
      return [];
  }
}
