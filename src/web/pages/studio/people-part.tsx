import { useState } from 'preact/hooks';
import { api, bodyOf } from '../../api/client.ts';
import { useLoaded } from '../../api/use-loaded.ts';
import { Button } from '../../ui/button.tsx';
import { Waiting } from '../../ui/waiting.tsx';
import { useWords } from '../../words/words.ts';
import type { Person } from './person.ts';
import { PersonForm } from './person-form.tsx';
import { PinCode } from './pin-code.tsx';

/** Who works here: what each may do, costs, and how they get in. */
export function PeoplePart() {
  const { say } = useWords();
  const [open, setOpen] = useState<string>();
  const people = useLoaded((signal) => bodyOf(api.GET('/api/v1/people', { params: { query: { limit: 200 } }, signal })), []);
  const done = () => {
    setOpen(undefined);
    people.reload();
  };
  return (
    <section class="card" aria-labelledby="people">
      <h2 id="people">{say('studio.part.people')}</h2>
      <Waiting of={people}>
        {({ items }) => (
          <ul class="plain-list">
            {items.map((person) => (
              <li key={person.id} class="line">
                <Row
                  person={person}
                  isOpen={open === person.id}
                  toggle={() => setOpen(open === person.id ? undefined : person.id)}
                />
                {open === person.id && (
                  <>
                    <PersonForm key={person.version} person={person} done={done} />
                    <PinCode person={person} />
                  </>
                )}
              </li>
            ))}
          </ul>
        )}
      </Waiting>
      {open === 'new' ? (
        <PersonForm done={done} />
      ) : (
        <Button kind="main" onClick={() => setOpen('new')}>
          {say('people.add')}
        </Button>
      )}
    </section>
  );
}

function Row({ person, isOpen, toggle }: { person: Person; isOpen: boolean; toggle: () => void }) {
  const { say } = useWords();
  const { name, roles, tutor, signInName, active } = person;
  return (
    <div class="row">
      <span>
        <strong>{name}</strong>{' '}
        <span class="soft">
          {roles.map((role) => say(`role.${role}`)).join(', ')}
          {tutor && `, ${say('people.tutor')}`}
          {`; ${signInName === null ? say('people.noSignIn') : say('people.signsInAs', { name: signInName })}`}
        </span>{' '}
        {!active && <span class="word">{say('people.left')}</span>}
      </span>
      <Button aria-expanded={isOpen} aria-label={say('people.changeOf', { name })} onClick={toggle}>
        {say('people.change')}
      </Button>
    </div>
  );
}
