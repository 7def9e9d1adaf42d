import type { ComponentChildren } from 'preact';
import type { Loaded } from '../../api/use-loaded.ts';
import { useSession } from '../../session/session.ts';
import { Table } from '../../ui/table.tsx';
import { TakeBack, type Sent } from '../../ui/take-back.tsx';
import { Waiting } from '../../ui/waiting.tsx';
import { useWords } from '../../words/words.ts';

interface Movement {
  id: string;
  kind: string;
  reason: string | null;
  reversedById: string | null;
}

interface Props<One extends Movement> {
  of: Loaded<{ items: One[]; nextCursor: string | null }>;
  amountOf: (one: One) => string;
  /** When it was, RFC 3339. */
  atOf: (one: One) => string;
  /** What else is to be said of one. */
  beside?: (one: One) => ComponentChildren;
  mayTakeBack: (one: One) => boolean;
  takeBack: (one: One, sent: Sent) => Promise<unknown>;
  done: () => void;
}

/** What went in and out, newest first; what was wrong is taken back by its opposite. */
export function MovementTable<One extends Movement>({ of, amountOf, atOf, beside, mayTakeBack, takeBack, done }: Props<One>) {
  const { say, tell, named, moment } = useWords();
  const { studio } = useSession();
  const when = (one: One) => moment(atOf(one), studio.timeZone);
  const isOpen = (one: One) => one.kind !== 'reverse' && one.reversedById === null && mayTakeBack(one);
  return (
    <section class="card">
      <h2>{say('lot.movements')}</h2>
      <Waiting of={of}>
        {({ items }) =>
          items.length === 0 ? (
            <p>{say('lot.noMovements')}</p>
          ) : (
            <Table
              label={say('lot.movements')}
              rows={items}
              keyOf={({ id }) => id}
              columns={[
                { head: say('lot.when'), of: when },
                { head: say('lot.what'), of: ({ kind }) => named('movement', kind) },
                { head: say('lot.amount'), of: amountOf, figure: true },
                {
                  head: say('lot.reason'),
                  of: (one) => (
                    <>
                      {one.reason && tell(one.reason)} {beside?.(one)}{' '}
                      {one.reversedById !== null && <span class="word">{say('movement.wasReversed')}</span>}
                      {isOpen(one) && (
                        <TakeBack
                          name={`${named('movement', one.kind)}, ${amountOf(one)}, ${when(one)}`}
                          takeBack={(sent) => takeBack(one, sent)}
                          done={done}
                        />
                      )}
                    </>
                  ),
                },
              ]}
            />
          )
        }
      </Waiting>
    </section>
  );
}
