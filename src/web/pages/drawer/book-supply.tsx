import { useRef, useState } from 'preact/hooks';
import { api, bodyOf } from '../../api/client.ts';
import { idempotencyKey } from '../../api/device.ts';
import type { BodyOf } from '../../api/reply.ts';
import { useSending } from '../../api/use-sending.ts';
import { may, useSession, type Session } from '../../session/session.ts';
import { Button } from '../../ui/button.tsx';
import { Field, Select } from '../../ui/field.tsx';
import { ProblemNotice } from '../../ui/problem-notice.tsx';
import { JustDone, type Done } from '../../ui/take-back.tsx';
import { useWords } from '../../words/words.ts';
import { saySupply } from './say-supply.ts';
import { unitPriceOf, type Supply } from './supply-draft.ts';
import { SupplyQuantity } from './supply-quantity.tsx';
import { takeSupplyBack } from './take-movement-back.ts';

type NewMovement = BodyOf<'/api/v1/supply-movements', 'post'>;

const ACTS = [
  { act: 'use', role: 'bench' },
  { act: 'receive', role: 'desk' },
  { act: 'count', role: 'bench' },
  { act: 'put_back', role: 'bench' },
  { act: 'write_off', role: 'owner' },
] as const;
type Act = (typeof ACTS)[number]['act'];
const WITH_REASON: ReadonlySet<Act> = new Set<Act>(['count', 'write_off']);
const OWNERS: ReadonlySet<string> = new Set(['receive', 'write_off']);

interface Typed {
  quantity?: number | undefined;
  paid: string;
  reason: string;
}
const NOTHING: Typed = { paid: '', reason: '' };

/** What came of a supply, what was used, and what there is when somebody counts. */
export function BookSupply({ supply, done }: { supply: Supply; done: () => void }) {
  const words = useWords();
  const { say, named } = words;
  const session = useSession();
  const { id, unit } = supply;
  const acts = ACTS.filter(({ role }) => may(session, role)).map(({ act }) => act);
  const [act, setAct] = useState<Act>(acts[0]!);
  const [typed, setTyped] = useState<Typed>(NOTHING);
  const [last, setLast] = useState<Done>();
  const set = (part: Partial<Typed>) => setTyped({ ...typed, ...part });
  const key = useRef(idempotencyKey());
  const sending = useSending(async (confirming) => {
    setLast(undefined);
    const movement = act === 'count' ? await countedAs(supply, typed) : booked(act, id, typed);
    if (movement) {
      const headers = { 'idempotency-key': key.current, ...confirming };
      const made = await bodyOf(api.POST('/api/v1/supply-movements', { body: movement, headers }));
      const amount = saySupply(words, session.units, unit, Math.abs(made.onHand));
      setLast({
        id: made.id,
        says: say('supply.booked', { what: named('movement', made.kind), amount }),
        ...(mayTakeBack(session, made.kind) && {
          takeBack: (back) => takeSupplyBack(made.id, back),
        }),
      });
    } else setLast({ id: key.current, says: say('supply.agrees') });
    key.current = idempotencyKey();
    setTyped(NOTHING);
    done();
  });
  const { error } = sending;
  return (
    <form
      class="card"
      aria-labelledby="book-supply"
      onSubmit={(event) => {
        event.preventDefault();
        void sending.send();
      }}
    >
      <h2 id="book-supply">{say('supply.book')}</h2>
      <div class="columns">
        <Select
          label={say('metal.kind')}
          value={act}
          onValue={(value) => {
            setAct(value as Act);
            sending.clear();
          }}
          choices={acts.map((value) => ({ value, label: say(`supply.act.${value}`) }))}
        />
        <SupplyQuantity
          key={`${key.current} ${act}`}
          label={say(act === 'count' ? 'supply.counted' : 'metal.quantity')}
          unit={unit}
          value={typed.quantity}
          onValue={(quantity) => set({ quantity })}
          error={error}
          pointer="/quantity"
        />
        {act === 'receive' && (
          <Field
            label={say('supply.paid', { currency: session.studio.currency })}
            hint={say('supply.paidHint')}
            value={typed.paid}
            onValue={(paid) => set({ paid })}
            inputMode="decimal"
            error={error}
            pointer="/unitCost"
          />
        )}
        {WITH_REASON.has(act) && (
          <Field
            label={say('moves.reason')}
            value={typed.reason}
            onValue={(reason) => set({ reason })}
            error={error}
            pointer="/reason"
            maxLength={200}
            required
          />
        )}
      </div>
      <ProblemNotice error={error} sending={sending} />
      <Button type="submit" kind="main" busy={sending.busy}>
        {say('metal.bookIt')}
      </Button>
      <JustDone done={last} after={done} />
    </form>
  );
}

function mayTakeBack(session: Session, kind: string): boolean {
  return may(session, OWNERS.has(kind) ? 'owner' : 'bench');
}

function booked(kind: Exclude<Act, 'count'>, supplyId: string, { quantity, paid, reason }: Typed): NewMovement {
  const unitCost = kind === 'receive' ? unitPriceOf(paid, quantity) : undefined;
  return {
    kind,
    supplyId,
    quantity: quantity as number,
    ...(unitCost !== undefined && { unitCost }),
    ...(WITH_REASON.has(kind) && { reason }),
  };
}

/** A count as the difference from what the book has at this moment; nothing where they agree. */
async function countedAs({ id }: Supply, { quantity, reason }: Typed): Promise<NewMovement | undefined> {
  const { onHand } = await bodyOf(api.GET('/api/v1/supplies/{id}', { params: { path: { id } } }));
  if (typeof quantity !== 'number') return { kind: 'count_up', supplyId: id, quantity: quantity as never, reason };
  const difference = Number((quantity - onHand).toFixed(4));
  if (difference === 0) return undefined;
  return { kind: difference > 0 ? 'count_up' : 'count_down', supplyId: id, quantity: Math.abs(difference), reason };
}
