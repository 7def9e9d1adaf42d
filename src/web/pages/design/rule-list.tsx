import { Button } from '../../ui/button.tsx';
import { Tick } from '../../ui/field.tsx';
import { useWords } from '../../words/words.ts';
import { useDesign } from './design-context.ts';
import { ChoiceField, NumberField, SizeField } from './design-fields.tsx';
import { put } from './draft.ts';

/** What the maker has decided about heats, whatever the heat model would allow. */
export function RuleList() {
  const { say } = useWords();
  const { draft } = useDesign();
  return (
    <section class="card" aria-labelledby="rules">
      <h2 id="rules">{say('design.rules')}</h2>
      <div class="columns">
        <NumberField pointer="/rules/maxJointsPerHeat" label={say('design.rules.most')} hint={say('design.rules.most.hint')} />
        <SizeField pointer="/rules/maxSpreadMm" label={say('design.rules.spread')} />
        <NumberField pointer="/rules/leastSilverFraction" label={say('design.rules.silver')} per={0.01} />
      </div>
      {draft.joints.length < 2 ? (
        <p class="soft">{say('design.rules.twoJoints')}</p>
      ) : (
        <>
          <Orders />
          <Sets name="sameHeat" />
          <Sets name="notSameHeat" />
        </>
      )}
    </section>
  );
}

function Orders() {
  const { say } = useWords();
  const { draft, edit, readOnly } = useDesign();
  const before = draft.rules?.before ?? [];
  const ids = draft.joints.map(({ id }) => id);
  const choices = (named: string) => [...new Set([...ids, named])].map((id) => ({ value: id, label: id }));
  return (
    <fieldset>
      <legend>{say('design.rules.before')}</legend>
      {before.map(([first, then], index) => (
        <div class="row" key={index}>
          <ChoiceField pointer={`/rules/before/${index}/0`} label={say('design.rules.first')} choices={choices(first)} />
          <ChoiceField pointer={`/rules/before/${index}/1`} label={say('design.rules.then')} choices={choices(then)} />
          {!readOnly && <Remove pointer={`/rules/before/${index}`} what={`${first} – ${then}`} />}
        </div>
      ))}
      {!readOnly && (
        <Button onClick={() => edit((draft) => put(draft, '/rules/before', [...before, [ids[0], ids[1]]]))}>
          {say('design.rules.addBefore')}
        </Button>
      )}
    </fieldset>
  );
}

function Sets({ name }: { name: 'sameHeat' | 'notSameHeat' }) {
  const { say } = useWords();
  const { draft, edit, readOnly } = useDesign();
  const sets = draft.rules?.[name] ?? [];
  const ids = draft.joints.map(({ id }) => id);
  const title = say(`design.rules.${name}`);
  return (
    <fieldset>
      <legend>{title}</legend>
      {sets.map((set, index) => (
        <fieldset key={index} class="design-place">
          <legend>{say('design.rules.set', { name: title, number: index + 1 })}</legend>
          <div class="row">
            {[...new Set([...ids, ...set])].map((id) => (
              <Tick
                key={id}
                label={id}
                checked={set.includes(id)}
                onChecked={(is) =>
                  edit((draft) => put(draft, `/rules/${name}/${index}`, is ? [...set, id] : set.filter((one) => one !== id)))
                }
              />
            ))}
            {!readOnly && <Remove pointer={`/rules/${name}/${index}`} what={set.join(', ')} />}
          </div>
        </fieldset>
      ))}
      {!readOnly && (
        <Button onClick={() => edit((draft) => put(draft, `/rules/${name}`, [...sets, ids.slice(0, 2)]))}>
          {say(name === 'sameHeat' ? 'design.rules.addSameHeat' : 'design.rules.addNotSameHeat')}
        </Button>
      )}
    </fieldset>
  );
}

function Remove({ pointer, what }: { pointer: string; what: string }) {
  const { say } = useWords();
  const { edit } = useDesign();
  return (
    <Button aria-label={say('design.rules.removeOf', { what })} onClick={() => edit((draft) => put(draft, pointer, undefined))}>
      {say('design.rules.remove')}
    </Button>
  );
}
