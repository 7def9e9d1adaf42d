import { useState } from 'preact/hooks';
import { api, bodyOf } from '../../api/client.ts';
import { useLoaded } from '../../api/use-loaded.ts';
import { Waiting } from '../../ui/waiting.tsx';
import { useWords } from '../../words/words.ts';

const SPENT = ['labour', 'overhead', 'consumables', 'metal', 'solder', 'hallmark', 'total'] as const;

/** If it were called off now: what it has taken, beside what was paid. */
export function Cancellation({ id, round }: { id: string; round: number }) {
  const { say } = useWords();
  const [isOpen, setOpen] = useState(false);
  return (
    <details onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>{say('cancel.title')}</summary>
      {isOpen && <Statement id={id} round={round} />}
    </details>
  );
}

function Statement({ id, round }: { id: string; round: number }) {
  const { say, money, percent } = useWords();
  const loaded = useLoaded(
    (signal) => bodyOf(api.GET('/api/v1/commissions/{id}/cancellation-statement', { params: { path: { id } }, signal })),
    [id, round],
  );
  return (
    <Waiting of={loaded}>
      {({ spent, boughtIn, quoted, doneFraction, received, sentBack, atCost, atQuotedPrice }) => {
        const rows: [string, { amountMinor: number; currency: string }][] = [
          ...SPENT.map((part): [string, typeof received] => [say(`cancel.${part}`), spent[part]]),
          [say('cancel.boughtIn'), boughtIn],
          [say('cancel.received'), received],
          [say('cancel.sentBack'), sentBack],
          [say('cancel.leftAtCost'), atCost.left],
          ...(atQuotedPrice
            ? ([
                [say('cancel.atPrice'), atQuotedPrice.net],
                [say('cancel.atPriceTax'), atQuotedPrice.tax],
                [say('cancel.leftAtPrice'), atQuotedPrice.left],
              ] as [string, typeof received][])
            : []),
        ];
        return (
          <>
            <p>
              {say('cancel.minutes', { minutes: Math.round(spent.minutes) })}
              {quoted && `, ${say('cancel.quotedMinutes', { minutes: Math.round(quoted.minutes) })}`}
              {doneFraction !== null && `: ${percent(doneFraction)}`}
            </p>
            <dl class="pairs">
              {rows.map(([name, amount]) => (
                <div key={name}>
                  <dt>{name}</dt>
                  <dd class="figure">{money(amount.amountMinor, amount.currency)}</dd>
                </div>
              ))}
            </dl>
            <p class="soft">{say('cancel.terms')}</p>
            {spent.unpricedMetals.length > 0 && (
              <p class="soft">{say('cancel.unpriced', { metals: spent.unpricedMetals.join(', ') })}</p>
            )}
            {!quoted && <p class="soft">{say('cancel.notAgreed')}</p>}
          </>
        );
      }}
    </Waiting>
  );
}
