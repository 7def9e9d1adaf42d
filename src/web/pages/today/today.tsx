import { api, bodyOf } from '../../api/client.ts';
import type { ReplyOf } from '../../api/reply.ts';
import { useLoaded } from '../../api/use-loaded.ts';
import { may, useSession } from '../../session/session.ts';
import { showQuantity } from '../../units/shown-units.ts';
import { Waiting } from '../../ui/waiting.tsx';
import { useWords } from '../../words/words.ts';
import { FirstSteps } from './first-steps.tsx';

/** What matters now, by what this person does here. */
export function Today() {
  const { say } = useWords();
  const session = useSession();
  const tiles = (
    <div class="tiles">
      {may(session, 'student') && <NextStep />}
      {may(session, 'desk', 'bench') && <DueNext />}
      {may(session, 'desk') && <ToOrder />}
    </div>
  );
  return (
    <>
      <h1>{say('today.title')}</h1>
      {may(session, 'owner') ? <FirstSteps>{tiles}</FirstSteps> : tiles}
    </>
  );
}

function NextStep() {
  const { say, moment } = useWords();
  const { studio } = useSession();
  const now = useLoaded((signal) => bodyOf(api.GET('/api/v1/bench/now', { signal })), []);
  return (
    <section class="card" aria-labelledby="next">
      <h2 id="next">{say('today.next')}</h2>
      <Waiting of={now}>
        {({ running, heat }) => (
          <>
            {running && <p>{say('today.timer', { since: moment(running.startedAt, studio.timeZone) })}</p>}
            <p>{heat ? say('today.nextHeat', { heat: heat.number, joints: heat.joints.join(', ') }) : say('today.noHeat')}</p>
          </>
        )}
      </Waiting>
    </section>
  );
}

const UNDER_WAY: ReadonlySet<string> = new Set(['asked', 'shaping', 'offered', 'agreed', 'on_bench', 'resting', 'made']);

function DueNext() {
  const { say, named } = useWords();
  const session = useSession();
  const loaded = useLoaded((signal) => bodyOf(api.GET('/api/v1/commissions', { params: { query: { limit: 200 } }, signal })), []);
  return (
    <section class="card" aria-labelledby="due">
      <h2 id="due">{say('today.due')}</h2>
      <Waiting of={loaded}>
        {({ items }) => {
          const due = items
            .filter(({ state, daysToDue }) => UNDER_WAY.has(state) && daysToDue !== null)
            .sort((a, b) => a.daysToDue! - b.daysToDue!);
          return items.length === 0 ? (
            <p>{say('today.nothingDue')}</p>
          ) : (
            <ul class="plain-list">
              {due.slice(0, 8).map(({ id, number, title, state, daysToDue }) => (
                <li key={id} class="line">
                  <a href={`/commissions/${id}`}>
                    {number} {title}
                  </a>{' '}
                  <span class={daysToDue! < 0 ? 'late' : 'soft'}>
                    {say(daysToDue! < 0 ? 'today.daysLate' : 'today.daysLeft', { days: Math.abs(daysToDue!) })},{' '}
                    {named('commission.state', state)}
                  </span>
                </li>
              ))}
            </ul>
          );
        }}
      </Waiting>
      {may(session, 'desk') && <a href="/commissions/new">{say('today.enquiry')}</a>}
    </section>
  );
}

type ReorderList = Exclude<ReplyOf<'/api/v1/reorder-list'>, string>;

function ToOrder() {
  const words = useWords();
  const { units } = useSession();
  const { say, number } = words;
  const list = useLoaded(async (signal) => (await bodyOf(api.GET('/api/v1/reorder-list', { signal }))) as ReorderList, []);
  return (
    <section class="card" aria-labelledby="order">
      <h2 id="order">{say('today.order')}</h2>
      <Waiting of={list}>
        {({ suppliers, supplies }) =>
          suppliers.length + supplies.length === 0 ? (
            <p>{say('today.nothingToOrder')}</p>
          ) : (
            <ul class="plain-list">
              {suppliers.flatMap(({ supplier, lines }) =>
                lines.map(({ productId, name, orderG }) => (
                  <li key={productId} class="line">
                    {say('today.orderLine', { quantity: showQuantity(words, units, 'mass', orderG), name, supplier })}
                  </li>
                )),
              )}
              {supplies.map(({ supplyId, name, unit, order }) => {
                const quantity =
                  unit === 'g'
                    ? showQuantity(words, units, 'mass', order)
                    : say('orders.pieces', { count: order, shown: number(order) });
                return (
                  <li key={supplyId} class="line">
                    {say('orders.line', { quantity, name })}
                  </li>
                );
              })}
            </ul>
          )
        }
      </Waiting>
      <a href="/drawer">{say('today.toDrawer')}</a>
    </section>
  );
}
