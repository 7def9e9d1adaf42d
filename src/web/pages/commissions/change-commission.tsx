import { api, bodyOf } from '../../api/client.ts';
import type { BodyOf, ReplyOf } from '../../api/reply.ts';
import { useSending } from '../../api/use-sending.ts';
import { useSession } from '../../session/session.ts';
import { moneyInField, moneyTyped } from '../../units/typed-money.ts';
import { ChangeForm } from '../../ui/change-form.tsx';
import { Field, TextArea, Tick } from '../../ui/field.tsx';
import { useDraft } from '../../ui/use-draft.ts';
import { useWords } from '../../words/words.ts';

type Commission = ReplyOf<'/api/v1/commissions/{id}'>;
type Change = BodyOf<'/api/v1/commissions/{id}', 'patch'>;

function draftOf({ title, wish, quantity, dueOn, budget, placeOfSale, quiet }: Commission, locale: string) {
  return {
    title,
    wish: wish ?? '',
    quantity: String(quantity),
    dueOn: dueOn ?? '',
    budget: budget ? moneyInField(locale, budget) : '',
    placeOfSale: placeOfSale ?? '',
    quiet,
  };
}

type Draft = ReturnType<typeof draftOf>;

/** What was noted of a promise, to be put right or filled in: the day, the place, the wish. */
export function ChangeCommission({ commission, done }: { commission: Commission; done: () => void }) {
  const { say, locale } = useWords();
  const { studio } = useSession();
  const { id, version } = commission;
  const before = draftOf(commission, locale);
  const { draft, isChanged, change, drop } = useDraft<Draft>(`commission:${id}:${version}`, before);
  const set = (part: Partial<Draft>) => change({ ...draft, ...part });
  const sending = useSending(async (confirming) => {
    const params = { path: { id }, header: { 'If-Match': `"${version}"` } };
    const body = changeOf(draft, { before, currency: studio.currency });
    await bodyOf(api.PATCH('/api/v1/commissions/{id}', { params, body, headers: confirming }));
    drop();
    done();
  });
  const { error } = sending;
  return (
    <ChangeForm title={say('commission.change')} sending={sending} isChanged={isChanged} drop={drop}>
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
      </div>
      <Tick label={say('enquiry.quiet')} checked={draft.quiet} onChecked={(quiet) => set({ quiet })} />
    </ChangeForm>
  );
}

/** Only what is not as it was; an emptied field takes out what was there. */
function changeOf(draft: Draft, { before, currency }: { before: Draft; currency: string }): Change {
  const is = (member: keyof Draft) => draft[member] !== before[member];
  return {
    ...(is('title') && { title: draft.title }),
    ...(is('wish') && { wish: orNull(draft.wish) }),
    ...(is('quantity') && { quantity: Number(draft.quantity) }),
    ...(is('dueOn') && { dueOn: orNull(draft.dueOn) }),
    ...(is('budget') && { budget: draft.budget.trim() === '' ? null : moneyTyped(draft.budget, currency) }),
    ...(is('placeOfSale') && { placeOfSale: orNull(draft.placeOfSale) }),
    ...(is('quiet') && { quiet: draft.quiet }),
  };
}

const orNull = (text: string) => (text.trim() === '' ? null : text);
