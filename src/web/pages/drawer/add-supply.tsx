import { useRef } from 'preact/hooks';
import { api, bodyOf } from '../../api/client.ts';
import { idempotencyKey } from '../../api/device.ts';
import { useSending } from '../../api/use-sending.ts';
import { Button } from '../../ui/button.tsx';
import { Select } from '../../ui/field.tsx';
import { ProblemNotice } from '../../ui/problem-notice.tsx';
import { useDraft } from '../../ui/use-draft.ts';
import { useWords } from '../../words/words.ts';
import { BY_WEIGHT, EMPTY_SUPPLY, SUPPLY_KINDS, supplyOf, type SupplyDraft, type SupplyKind } from './supply-draft.ts';
import { SupplyFields } from './supply-fields.tsx';

/** Flux, pickle salt, gas, findings or stones that the drawer did not know. */
export function AddSupply({ done }: { done: () => void }) {
  const { say, named } = useWords();
  const { draft, isChanged, change, drop } = useDraft<SupplyDraft>('supply', EMPTY_SUPPLY);
  const set = (part: Partial<SupplyDraft>) => change({ ...draft, ...part });
  const key = useRef(idempotencyKey());
  const sending = useSending(async (confirming) => {
    const headers = { 'idempotency-key': key.current, ...confirming };
    await bodyOf(api.POST('/api/v1/supplies', { body: supplyOf(draft), headers }));
    key.current = idempotencyKey();
    drop();
    done();
  });
  const ofKind = (kind: SupplyKind) => set({ kind, unit: BY_WEIGHT.has(kind) ? 'g' : 'piece' });
  return (
    <details class="card" open={isChanged || undefined}>
      <summary>{say('supply.add')}</summary>
      <form
        onSubmit={(event) => {
          event.preventDefault();
          void sending.send();
        }}
      >
        <div class="columns">
          <Select
            label={say('supply.kind')}
            value={draft.kind}
            onValue={(kind) => ofKind(kind as SupplyKind)}
            choices={SUPPLY_KINDS.map((value) => ({ value, label: named('supply.kind', value) }))}
          />
          {!BY_WEIGHT.has(draft.kind) && (
            <Select
              label={say('supply.unit')}
              value={draft.unit}
              onValue={(unit) => set({ unit: unit as SupplyDraft['unit'] })}
              choices={(['piece', 'g'] as const).map((value) => ({ value, label: say(`supply.unit.${value}`) }))}
            />
          )}
          <SupplyFields draft={draft} set={set} error={sending.error} />
        </div>
        <ProblemNotice error={sending.error} sending={sending} />
        <div class="row">
          <Button type="submit" kind="main" busy={sending.busy}>
            {say('product.save')}
          </Button>
          {isChanged && <Button onClick={drop}>{say('shell.draftDrop')}</Button>}
        </div>
      </form>
    </details>
  );
}
