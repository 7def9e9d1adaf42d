import { api, bodyOf } from '../../api/client.ts';
import { useSending } from '../../api/use-sending.ts';
import { useDraft } from '../../ui/use-draft.ts';
import { useWords } from '../../words/words.ts';
import { ChangeKept } from './change-kept.tsx';
import { changedMembers } from './changed-members.ts';
import { changeableOf, draftOf, type Supply, type SupplyDraft } from './supply-draft.ts';
import { SupplyFields } from './supply-fields.tsx';

/** What is said of a supply put right; what there is of it is counted instead. */
export function ChangeSupply({ supply, done }: { supply: Supply; done: () => void }) {
  const { say, locale } = useWords();
  const { id, version, name } = supply;
  const before = draftOf(supply, locale);
  const { draft, isChanged, change, drop } = useDraft<SupplyDraft>(`supply:${id}:${version}`, before);
  const set = (part: Partial<SupplyDraft>) => change({ ...draft, ...part });
  const sending = useSending(async (confirming) => {
    const params = { path: { id }, header: { 'If-Match': `"${version}"` } };
    const body = changedMembers(changeableOf(draft), changeableOf(before));
    await bodyOf(api.PATCH('/api/v1/supplies/{id}', { params, body, headers: confirming }));
    drop();
    done();
  });
  return (
    <section class="card">
      <ChangeKept
        title={say('edit.title', { name })}
        sending={sending}
        isChanged={isChanged}
        drop={drop}
        active={draft.active}
        onActive={(active) => set({ active })}
      >
        <div class="columns">
          <SupplyFields draft={draft} set={set} error={sending.error} />
        </div>
      </ChangeKept>
    </section>
  );
}
