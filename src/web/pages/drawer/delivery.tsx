import { useRef, useState } from 'preact/hooks';
import { api, bodyOf } from '../../api/client.ts';
import { idempotencyKey } from '../../api/device.ts';
import type { ReplyOf } from '../../api/reply.ts';
import { useSending } from '../../api/use-sending.ts';
import { useSession } from '../../session/session.ts';
import { Button } from '../../ui/button.tsx';
import { Field } from '../../ui/field.tsx';
import { ProblemNotice } from '../../ui/problem-notice.tsx';
import { QuantityField } from '../../ui/quantity-field.tsx';
import { useWords } from '../../words/words.ts';
import { dayIn } from './day-in.ts';

type Order = ReplyOf<'/api/v1/supplier-orders/{id}'>;
type Line = Order['lines'][number];

interface Came {
  quantityG?: number | undefined;
  mark: string;
  useBy: string;
}

const MAY_COME: ReadonlySet<string> = new Set(['sent', 'promised', 'part_in']);

/** What came of an order: a lot for each line. */
export function Delivery({ order, show }: { order: Order; show: (order: Order) => void }) {
  const { say } = useWords();
  const { studio } = useSession();
  const open = MAY_COME.has(order.state) ? order.lines.filter(({ openG, closedShort }) => openG > 0 && !closedShort) : [];
  const [receivedOn, setReceivedOn] = useState(() => dayIn(studio.timeZone));
  const [changed, setChanged] = useState<Readonly<Record<string, Came>>>({});
  const [lots, setLots] = useState<readonly string[]>([]);
  const key = useRef(idempotencyKey());
  const cameOf = ({ id, openG }: Line): Came => changed[id] ?? { quantityG: openG, mark: '', useBy: '' };
  const came = open.filter((line) => cameOf(line).quantityG !== undefined);
  const sending = useSending(async (confirming) => {
    const delivery = await bodyOf(
      api.POST('/api/v1/supplier-orders/{id}/deliveries', {
        params: { path: { id: order.id } },
        body: { receivedOn, lines: came.map((line) => lineOf(line, cameOf(line))) },
        headers: { 'idempotency-key': key.current, ...confirming },
      }),
    );
    key.current = idempotencyKey();
    setChanged({});
    setLots(delivery.lots.map(({ number }) => number));
    show(delivery.order);
  });
  const submit = (event: Event) => {
    event.preventDefault();
    void sending.send();
  };
  if (open.length === 0 && lots.length === 0) return null;
  return (
    <section class="card" aria-labelledby="delivery">
      <h2 id="delivery">{say('delivery.title')}</h2>
      {open.length > 0 && (
        <form onSubmit={submit}>
          <p class="soft">{say('delivery.lead')}</p>
          <Field
            label={say('receive.on')}
            type="date"
            value={receivedOn}
            onValue={setReceivedOn}
            error={sending.error}
            pointer="/receivedOn"
            required
          />
          {open.map((line) => (
            <CameFields
              key={line.id}
              line={line}
              came={cameOf(line)}
              onCame={(part) => setChanged({ ...changed, [line.id]: { ...cameOf(line), ...part } })}
              error={sending.error}
              place={came.indexOf(line)}
            />
          ))}
          <ProblemNotice error={sending.error} sending={sending} />
          <Button type="submit" kind="main" busy={sending.busy} disabled={came.length === 0}>
            {say('delivery.save')}
          </Button>
        </form>
      )}
      <div role="status">{lots.length > 0 && <p>{say('delivery.lots', { numbers: lots.join(', ') })}</p>}</div>
    </section>
  );
}

interface CameProps {
  line: Line;
  came: Came;
  onCame: (part: Partial<Came>) => void;
  error: Error | undefined;
  place: number;
}

function CameFields({ line, came, onCame, error, place }: CameProps) {
  const { say } = useWords();
  const pointer = `/lines/${place}`;
  return (
    <fieldset>
      <legend>{line.name}</legend>
      <div class="columns">
        <QuantityField
          label={say('receive.quantity')}
          quantity="mass"
          value={came.quantityG}
          onValue={(quantityG) => onCame({ quantityG })}
          error={error}
          pointer={`${pointer}/quantityG`}
        />
        {line.productId !== null && (
          <>
            <Field
              label={say('receive.mark')}
              hint={say('receive.markHint')}
              value={came.mark}
              onValue={(mark) => onCame({ mark })}
              error={error}
              pointer={`${pointer}/markOnMetal`}
              maxLength={6}
            />
            <Field
              label={say('receive.useBy')}
              type="date"
              value={came.useBy}
              onValue={(useBy) => onCame({ useBy })}
              error={error}
              pointer={`${pointer}/useBy`}
            />
          </>
        )}
      </div>
    </fieldset>
  );
}

function lineOf({ id, productId }: Line, { quantityG, mark, useBy }: Came) {
  const line = { lineId: id, quantityG: quantityG as number, markOnMetal: null, useBy: null };
  return productId === null ? line : { ...line, markOnMetal: mark.trim() || null, useBy: useBy || null };
}
