import { useState } from 'preact/hooks';
import { api, bodyOf } from '../../api/client.ts';
import type { ReplyOf } from '../../api/reply.ts';
import { useLoaded } from '../../api/use-loaded.ts';
import { Select } from '../../ui/field.tsx';
import { Table } from '../../ui/table.tsx';
import { Waiting } from '../../ui/waiting.tsx';
import { useWords } from '../../words/words.ts';
import type { Quote } from './base-price.ts';
import { WhatMoved } from './what-moved.tsx';

/** Two versions line by line, and every number that went into them and is not alike. */
export function Compare({ quotes }: { quotes: readonly Quote[] }) {
  const { say, named } = useWords();
  const [isOpen, setOpen] = useState(false);
  const [first, setFirst] = useState(quotes[1]!.id);
  const [second, setSecond] = useState(quotes[0]!.id);
  const choices = quotes.map(({ id, number, state }) => ({
    value: id,
    label: say('commission.quoteLine', { number, state: named('quote.state', state) }),
  }));
  return (
    <details class="card" onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>{say('price.compare')}</summary>
      <div class="columns">
        <Select label={say('price.compareOne')} value={first} onValue={setFirst} choices={choices} />
        <Select label={say('price.compareOther')} value={second} onValue={setSecond} choices={choices} />
      </div>
      {isOpen && <Compared first={first} second={second} />}
    </details>
  );
}

function Compared({ first, second }: { first: string; second: string }) {
  const { say } = useWords();
  const loaded = useLoaded(
    (signal) =>
      bodyOf(api.GET('/api/v1/quotes/{id}/comparison', { params: { path: { id: first }, query: { with: second } }, signal })),
    [first, second],
  );
  return (
    <Waiting of={loaded}>
      {({ before, after, currency, differences, changed }) => (
        <>
          <p role="status">
            {changed.length === 0 && differences.totals.every(({ differenceMinor }) => differenceMinor === 0)
              ? say('price.alike')
              : say('price.compared', { before: before.number, after: after.number })}
          </p>
          <WhatMoved differences={differences} currency={currency} id="compared" />
          <Inputs changed={changed} />
        </>
      )}
    </Waiting>
  );
}

const shown = (value: unknown) => (value === null ? '–' : typeof value === 'string' ? value : JSON.stringify(value));

type Changed = ReplyOf<'/api/v1/quotes/{id}/comparison'>['changed'];

function Inputs({ changed }: { changed: Changed }) {
  const { say } = useWords();
  if (changed.length === 0) return null;
  return (
    <>
      <h3>{say('price.inputs')}</h3>
      <Table
        label={say('price.inputs')}
        rows={changed}
        keyOf={({ input }) => input}
        named
        columns={[
          { head: say('price.input'), of: ({ input }) => input },
          { head: say('price.before'), of: ({ before }) => shown(before) },
          { head: say('price.after'), of: ({ after }) => shown(after) },
        ]}
      />
    </>
  );
}
