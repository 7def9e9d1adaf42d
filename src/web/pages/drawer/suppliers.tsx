import { api, bodyOf } from '../../api/client.ts';
import { useLoaded } from '../../api/use-loaded.ts';
import { useSending } from '../../api/use-sending.ts';
import { useSession } from '../../session/session.ts';
import { Button } from '../../ui/button.tsx';
import { ProblemNotice } from '../../ui/problem-notice.tsx';
import { useDraft } from '../../ui/use-draft.ts';
import { Waiting } from '../../ui/waiting.tsx';
import { useWords } from '../../words/words.ts';
import { ChangeKept } from './change-kept.tsx';
import { changedMembers } from './changed-members.ts';
import { EMPTY_SUPPLIER, supplierDraftOf, supplierOf, type Supplier, type SupplierDraft } from './supplier-draft.ts';
import { SupplierFields } from './supplier-fields.tsx';

/** Everybody the studio orders from. */
export function Suppliers({ changed }: { changed: () => void }) {
  const { say, money } = useWords();
  const loaded = useLoaded((signal) => bodyOf(api.GET('/api/v1/suppliers', { params: { query: { limit: 200 } }, signal })), []);
  const done = () => {
    loaded.reload();
    changed();
  };
  return (
    <section class="card" aria-labelledby="suppliers">
      <h2 id="suppliers">{say('supplier.title')}</h2>
      <Waiting of={loaded}>
        {({ items }) => (
          <ul class="plain-list">
            {items.map((supplier) => (
              <li key={supplier.id} class="line">
                <p>
                  <strong>{supplier.name}</strong>{' '}
                  <span class="soft">
                    {say('supplier.lead', { days: supplier.leadWorkingDays })}
                    {supplier.minimum.amountMinor > 0 &&
                      `, ${say('supplier.minimum', { minimum: money(supplier.minimum.amountMinor, supplier.minimum.currency) })}`}
                  </span>{' '}
                  {!supplier.active && <span class="word">{say('edit.notKept')}</span>}
                </p>
                {supplier.note && <p class="as-typed soft">{supplier.note}</p>}
                <ChangeSupplier key={supplier.version} supplier={supplier} done={done} />
              </li>
            ))}
          </ul>
        )}
      </Waiting>
      <AddSupplier done={done} />
    </section>
  );
}

function ChangeSupplier({ supplier, done }: { supplier: Supplier; done: () => void }) {
  const { say, locale } = useWords();
  const { studio } = useSession();
  const { id, version, name, active } = supplier;
  const before = supplierDraftOf(supplier, locale);
  const { draft, isChanged, change, drop } = useDraft<SupplierDraft>(`supplier:${id}:${version}`, before);
  const set = (part: Partial<SupplierDraft>) => change({ ...draft, ...part });
  const sending = useSending(async (confirming) => {
    const params = { path: { id }, header: { 'If-Match': `"${version}"` } };
    const body = {
      ...changedMembers(supplierOf(draft, studio.currency), supplierOf(before, studio.currency)),
      ...(draft.active !== active && { active: draft.active }),
    };
    await bodyOf(api.PATCH('/api/v1/suppliers/{id}', { params, body, headers: confirming }));
    drop();
    done();
  });
  return (
    <ChangeKept
      title={say('edit.title', { name })}
      sending={sending}
      isChanged={isChanged}
      drop={drop}
      active={draft.active}
      onActive={(kept) => set({ active: kept })}
    >
      <SupplierFields draft={draft} set={set} error={sending.error} />
    </ChangeKept>
  );
}

function AddSupplier({ done }: { done: () => void }) {
  const { say } = useWords();
  const { studio } = useSession();
  const { draft, isChanged, change, drop } = useDraft<SupplierDraft>('supplier', EMPTY_SUPPLIER);
  const sending = useSending(async (confirming) => {
    await bodyOf(api.POST('/api/v1/suppliers', { body: supplierOf(draft, studio.currency), headers: confirming }));
    drop();
    done();
  });
  return (
    <details open={isChanged || undefined}>
      <summary>{say('supplier.add')}</summary>
      <form
        onSubmit={(event) => {
          event.preventDefault();
          void sending.send();
        }}
      >
        <SupplierFields draft={draft} set={(part) => change({ ...draft, ...part })} error={sending.error} />
        <ProblemNotice error={sending.error} sending={sending} />
        <Button type="submit" kind="main" busy={sending.busy}>
          {say('orders.noteIt')}
        </Button>
      </form>
    </details>
  );
}
