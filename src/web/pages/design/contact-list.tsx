import { useState } from 'preact/hooks';
import type { Contact } from '../../../../shared/design/design.ts';
import { Button } from '../../ui/button.tsx';
import { useWords } from '../../words/words.ts';
import { useDesign } from './design-context.ts';
import { NumberField, refusalsUnder } from './design-fields.tsx';
import { put } from './draft.ts';
import { PlaceFields } from './place-fields.tsx';

/** Parts that touch without solder, such as links of a chain: they hang together in the fire, and little heat passes. */
export function ContactList() {
  const { say } = useWords();
  const { draft, edit, readOnly } = useDesign();
  const contacts = draft.contacts ?? [];
  const [added, setAdded] = useState<number>();
  const add = () => {
    setAdded(contacts.length);
    const contact: Contact = { kind: 'loose', between: [{ part: '' }, { part: '' }] };
    edit((before) => put(before, '/contacts', [...(before.contacts ?? []), contact]));
  };
  return (
    <section class="card" aria-labelledby="contacts">
      <h2 id="contacts">{say('design.contacts')}</h2>
      <p class="soft">{say('design.contacts.lead')}</p>
      <ol class="plain-list">
        {contacts.map((contact, index) => (
          <ContactCard key={index} contact={contact} index={index} isNew={index === added} />
        ))}
      </ol>
      {!readOnly && draft.parts.length > 0 && <Button onClick={add}>{say('design.addContact')}</Button>}
    </section>
  );
}

function ContactCard({ contact, index, isNew }: { contact: Contact; index: number; isNew: boolean }) {
  const { say } = useWords();
  const { edit, error, readOnly } = useDesign();
  const pointer = `/contacts/${index}`;
  const refusals = refusalsUnder(error, pointer);
  const [open, setOpen] = useState(isNew);
  const parts = contact.between.map(({ part }) => part || '…').join(' – ');
  const remove = () => {
    setOpen(false);
    edit((before) => {
      const left = (before.contacts ?? []).filter((_, at) => at !== index);
      return put(before, '/contacts', left.length === 0 ? undefined : left);
    });
  };
  return (
    <li class="design-card">
      <details open={open || refusals.length > 0} onToggle={(event) => setOpen(event.currentTarget.open)}>
        <summary>
          <strong>{parts}</strong>
          {refusals.length > 0 && <span class="word word-runs">{say('design.refused', { count: refusals.length })}</span>}
        </summary>
        {(open || refusals.length > 0) && (
          <>
            {([0, 1] as const).map((side) => (
              <PlaceFields key={side} {...{ list: 'contacts', index, side, of: parts, place: contact.between[side] }} />
            ))}
            <NumberField
              pointer={`${pointer}/conductanceWPerK`}
              label={say('design.conductance')}
              hint={say('design.conductance.hint')}
            />
            {!readOnly && (
              <Button kind="danger" onClick={remove}>
                {say('design.removeContact', { parts })}
              </Button>
            )}
          </>
        )}
      </details>
    </li>
  );
}
