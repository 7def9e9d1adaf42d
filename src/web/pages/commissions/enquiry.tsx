import { useLocation } from 'preact-iso';
import { useRef, useState } from 'preact/hooks';
import { api, bodyOf } from '../../api/client.ts';
import { idempotencyKey } from '../../api/device.ts';
import type { BodyOf, ItemOf } from '../../api/reply.ts';
import { useLoaded } from '../../api/use-loaded.ts';
import { useSending } from '../../api/use-sending.ts';
import { useSession } from '../../session/session.ts';
import { moneyTyped } from '../../units/typed-money.ts';
import { Button } from '../../ui/button.tsx';
import { Field, Select, TextArea, Tick } from '../../ui/field.tsx';
import { ProblemNotice } from '../../ui/problem-notice.tsx';
import { useDraft } from '../../ui/use-draft.ts';
import { useWords } from '../../words/words.ts';
import { CanWe } from './can-we.tsx';

const KINDS = ['one_off', 'small_run', 'own_stock', 'repair', 'teaching_piece'] as const;
type NewCommission = BodyOf<'/api/v1/commissions', 'post'>;

const EMPTY = {
  title: '',
  wish: '',
  kind: 'one_off' as (typeof KINDS)[number],
  client: '',
  reach: '',
  quantity: '1',
  dueOn: '',
  minutes: '',
  budget: '',
  placeOfSale: '',
  quiet: false,
};

/** An enquiry, before they leave the shop: what, for whom, by when, for about how much. */
export function Enquiry() {
  const { say, named } = useWords();
  const { studio } = useSession();
  const { route } = useLocation();
  const { draft, isChanged, change, drop } = useDraft('enquiry', EMPTY);
  const set = (part: Partial<typeof EMPTY>) => change({ ...draft, ...part });
  const clients = useClientsNamed(draft.client);
  const known = clients.find(({ name }) => name.toLowerCase() === draft.client.trim().toLowerCase());
  const needsClient = draft.kind !== 'own_stock' && draft.kind !== 'teaching_piece';
  const [key] = useState(idempotencyKey);
  // A client who was made stays when the commission is refused: the next try is for the same one.
  const made = useRef<{ name: string; id: string } | undefined>(undefined);
  const sending = useSending(async (confirming) => {
    const clientId = needsClient ? (known?.id ?? (await clientFor(draft, made))) : null;
    const body = commissionOf(draft, { clientId, currency: studio.currency });
    const noted = await bodyOf(api.POST('/api/v1/commissions', { body, headers: { 'idempotency-key': key, ...confirming } }));
    drop();
    route(`/commissions/${noted.id}`);
  });
  const { error } = sending;
  const submit = (event: Event) => {
    event.preventDefault();
    void sending.send();
  };
  return (
    <form class="card" onSubmit={submit}>
      <h1>{say('enquiry.title')}</h1>
      <Field
        label={say('enquiry.what')}
        value={draft.title}
        onValue={(title) => set({ title })}
        error={error}
        pointer="/title"
        maxLength={120}
        required
      />
      <TextArea
        label={say('enquiry.wish')}
        value={draft.wish}
        onValue={(wish) => set({ wish })}
        error={error}
        pointer="/wish"
        maxLength={2000}
      />
      <div class="columns">
        <Select
          label={say('enquiry.kind')}
          value={draft.kind}
          onValue={(kind) => set({ kind: kind as typeof draft.kind })}
          choices={KINDS.map((value) => ({ value, label: named('kind', value) }))}
        />
        <Field
          label={say('enquiry.quantity')}
          value={draft.quantity}
          onValue={(quantity) => set({ quantity })}
          inputMode="numeric"
          error={error}
          pointer="/quantity"
          required
        />
        <Field
          label={say('enquiry.dueOn')}
          type="date"
          value={draft.dueOn}
          onValue={(dueOn) => set({ dueOn })}
          error={error}
          pointer="/dueOn"
        />
        <Field
          label={say('enquiry.budget', { currency: studio.currency })}
          value={draft.budget}
          onValue={(budget) => set({ budget })}
          inputMode="decimal"
          error={error}
          pointer="/budget/amountMinor"
        />
        <Field
          label={say('enquiry.place')}
          value={draft.placeOfSale}
          onValue={(place) => set({ placeOfSale: place.toUpperCase() })}
          error={error}
          pointer="/placeOfSale"
          maxLength={2}
        />
        <Field label={say('enquiry.minutes')} value={draft.minutes} onValue={(minutes) => set({ minutes })} inputMode="numeric" />
      </div>
      <CanWe dueOn={draft.dueOn} minutes={draft.minutes} />
      {needsClient && (
        <fieldset>
          <legend>{say('enquiry.client')}</legend>
          <Field
            label={say('enquiry.clientFind')}
            value={draft.client}
            onValue={(client) => set({ client })}
            error={error}
            pointer="/name"
            autoComplete="off"
            required
          />
          <div class="row">
            {draft.client.trim() !== '' &&
              clients.map(({ id, name }) => (
                <Button key={id} aria-pressed={known?.id === id} onClick={() => set({ client: name })}>
                  {name}
                </Button>
              ))}
          </div>
          {draft.client.trim() !== '' && !known && (
            <Field
              label={`${say('enquiry.clientNew', { name: draft.client.trim() })}: ${say('enquiry.clientReach')}`}
              value={draft.reach}
              onValue={(reach) => set({ reach })}
              error={error}
              pointer={draft.reach.includes('@') ? '/email' : '/phone'}
              required
            />
          )}
        </fieldset>
      )}
      <Tick label={say('enquiry.quiet')} checked={draft.quiet} onChecked={(quiet) => set({ quiet })} />
      <ProblemNotice error={error} sending={sending} />
      <div class="row">
        <Button type="submit" kind="main" busy={sending.busy}>
          {say('enquiry.save')}
        </Button>
        {isChanged && <Button onClick={drop}>{say('shell.draftDrop')}</Button>}
      </div>
    </form>
  );
}

type Client = ItemOf<'/api/v1/clients'>;

function useClientsNamed(name: string): readonly Client[] {
  const asked = name.trim();
  const found = useLoaded(
    async (signal) =>
      asked === ''
        ? []
        : (await bodyOf(api.GET('/api/v1/clients', { params: { query: { name: asked, limit: 6 } }, signal }))).items,
    [asked],
  );
  return found.value ?? [];
}

async function clientFor(
  { client, reach }: typeof EMPTY,
  made: { current: { name: string; id: string } | undefined },
): Promise<string> {
  const name = client.trim();
  if (made.current?.name !== name) {
    const way = reach.includes('@') ? { email: reach.trim() } : { phone: reach.replaceAll(/[\s()/-]/g, '') };
    made.current = await bodyOf(api.POST('/api/v1/clients', { body: { name, ...way } }));
  }
  return made.current.id;
}

function commissionOf(draft: typeof EMPTY, { clientId, currency }: { clientId: string | null; currency: string }): NewCommission {
  return {
    title: draft.title,
    kind: draft.kind,
    clientId,
    quantity: Number(draft.quantity),
    quiet: draft.quiet,
    ...(draft.wish.trim() !== '' && { wish: draft.wish }),
    ...(draft.dueOn !== '' && { dueOn: draft.dueOn }),
    ...(draft.placeOfSale !== '' && { placeOfSale: draft.placeOfSale }),
    ...(draft.budget.trim() !== '' && { budget: moneyTyped(draft.budget, currency) }),
  };
}
