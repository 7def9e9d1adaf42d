import { Select, Tick, type Choice } from '../../ui/field.tsx';
import { useWords } from '../../words/words.ts';
import { useDesign } from './design-context.ts';
import { ChoiceField, NumberField, refusalsUnder, SizeField } from './design-fields.tsx';
import { put, type DraftJoint } from './draft.ts';

/** What is asked of a joint more seldom: its solder, what pulls on it, whether it exists already, and which solders it may have. */
export function JointMore({ joint, pointer }: { joint: DraftJoint; pointer: string }) {
  const { say, named } = useWords();
  const { draft, edit, error, solders } = useDesign();
  const said = [joint.solder, draft.rules?.grades?.[joint.id]?.only].filter((code) => typeof code === 'string');
  const codes = [...new Set([...solders.map(({ code }) => code), ...said])];
  const choices = codes.map((code): Choice => ({ value: code, label: solders.find((one) => one.code === code)?.name ?? code }));
  const grade = `/rules/grades/${joint.id.replaceAll('~', '~0').replaceAll('/', '~1')}`;
  const excluded = draft.rules?.grades?.[joint.id]?.exclude ?? [];
  return (
    <details open={refusalsUnder(error, pointer).length > 0}>
      <summary>{say('design.joint.more')}</summary>
      <div class="columns">
        <ChoiceField
          pointer={`${pointer}/solder`}
          label={say('design.solder')}
          choices={[{ value: '', label: say('design.solder.none') }, ...choices]}
        />
        <NumberField pointer={`${pointer}/pieces`} label={say('design.pieces')} />
        <NumberField pointer={`${pointer}/trimFraction`} label={say('design.trim')} hint={say('design.trim.hint')} per={0.01} />
        <ChoiceField
          pointer={`${pointer}/load`}
          label={say('design.load')}
          choices={['none', 'own_weight', 'sprung', 'tied'].map((value) => ({
            value: value === 'none' && joint['load'] === undefined ? '' : value,
            label: named('design.load', value),
          }))}
        />
        <ChoiceField
          pointer={`${grade}/only`}
          label={say('design.grade.only')}
          choices={[{ value: '', label: say('design.grade.any') }, ...choices]}
        />
      </div>
      <fieldset>
        <legend>{say('design.grade.exclude')}</legend>
        <div class="row">
          {[...new Set([...codes, ...excluded])].map((code) => (
            <Tick
              key={code}
              label={code}
              checked={excluded.includes(code)}
              onChecked={(is) => {
                const left = is ? [...excluded, code] : excluded.filter((one) => one !== code);
                edit((before) => put(before, `${grade}/exclude`, left.length === 0 ? undefined : left));
              }}
            />
          ))}
        </div>
      </fieldset>
      <Made joint={joint} pointer={`${pointer}/made`} />
    </details>
  );
}

/** A joint that is soldered already, with a solder that is known or not. */
function Made({ joint: { made }, pointer }: { joint: DraftJoint; pointer: string }) {
  const { say, named } = useWords();
  const { edit, error } = useDesign();
  const standing = made === undefined ? 'no' : made.solder === 'unknown' ? 'unknown' : 'known';
  const became = { no: undefined, unknown: { solder: 'unknown' }, known: { solder: { id: '' } } };
  return (
    <div class="columns">
      <Select
        label={say('design.made')}
        value={standing}
        choices={['no', 'unknown', 'known'].map((value) => ({ value, label: named('design.made', value) }))}
        error={error}
        pointer={pointer}
        onValue={(value) => edit((before) => put(before, pointer, became[value as keyof typeof became]))}
      />
      {standing === 'known' && (
        <>
          <KnownSolder pointer={`${pointer}/solder`} />
          <SizeField pointer={`${pointer}/solder/solidusC`} label={say('design.made.solidus')} quantity="temperature" />
          <SizeField pointer={`${pointer}/solder/liquidusC`} label={say('design.made.liquidus')} quantity="temperature" />
        </>
      )}
      {standing === 'unknown' &&
        (['Solidus', 'Liquidus'] as const).map((line) => (
          <SizeField
            key={line}
            pointer={`${pointer}/assumed${line}C`}
            label={say(`design.made.assumed${line}`)}
            hint={say('design.made.assumed.hint')}
            quantity="temperature"
          />
        ))}
      {standing !== 'no' && (
        <ChoiceField
          pointer={`${pointer}/cadmiumStanding`}
          label={say('design.made.cadmium')}
          choices={[
            { value: '', label: say('design.made.cadmium.unsaid') },
            ...['no', 'yes', 'unknown'].map((value) => ({ value, label: named('design.made.cadmium', value) })),
          ]}
        />
      )}
    </div>
  );
}

/** Of a solder in the drawer the two temperatures are taken with it. */
function KnownSolder({ pointer }: { pointer: string }) {
  const { say } = useWords();
  const { draft, edit, error, solders } = useDesign();
  const [, , joint] = pointer.split('/');
  const { solder } = draft.joints[Number(joint)]!.made!;
  const id = typeof solder === 'object' && typeof solder['id'] === 'string' ? solder['id'] : '';
  const known = solders.map(({ code, name }) => ({ value: code, label: name }));
  const strange = id === '' || solders.some(({ code }) => code === id) ? [] : [{ value: id, label: id }];
  return (
    <Select
      label={say('design.made.id')}
      value={id}
      choices={[{ value: '', label: say('design.place.choose') }, ...known, ...strange]}
      error={error}
      pointer={`${pointer}/id`}
      onValue={(code) => {
        const found = solders.find((one) => one.code === code);
        const taken = found && { id: code, solidusC: found.solidusC, liquidusC: found.liquidusC };
        edit((before) => put(before, pointer, taken ?? { id: code }));
      }}
    />
  );
}
