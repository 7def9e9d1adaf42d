import { api, bodyOf } from '../../api/client.ts';
import { idempotencyKey } from '../../api/device.ts';
import { useSending } from '../../api/use-sending.ts';
import { may, useSession } from '../../session/session.ts';
import { Button } from '../../ui/button.tsx';
import { Moves, type MoveField } from '../../ui/moves.tsx';
import { ProblemNotice } from '../../ui/problem-notice.tsx';
import { useWords } from '../../words/words.ts';
import type { Commission, Quote } from './base-price.ts';
import { LetterLinks } from './outside-page.tsx';

const REASON: MoveField = { name: 'reason', kind: 'text' };
const ASKS: Readonly<Record<string, readonly MoveField[]>> = { declined: [REASON], withdrawn: [REASON] };

/** What was sent is frozen: it is withdrawn, and another is written. */
const undoneBy = ({ from, to }: { from: string; to: string }) => (to === 'sent' ? 'withdrawn' : from);

interface Props {
  commission: Commission;
  quotes: readonly Quote[];
  shown: string;
  choose: (id: string) => void;
  changed: (id?: string) => void;
}

/** Every version that was written, newest first: what it came to, its letter, and what may become of it. */
export function Versions({ commission, quotes, shown, choose, changed }: Props) {
  const { say } = useWords();
  return (
    <section class="card" aria-labelledby="versions">
      <h2 id="versions">{say('price.versions')}</h2>
      {quotes.length === 0 && <p>{say('price.noVersion')}</p>}
      <ul class="plain-list">
        {quotes.map((quote) => (
          <Version
            key={quote.id}
            commission={commission}
            quote={quote}
            isShown={quote.id === shown}
            choose={choose}
            changed={changed}
          />
        ))}
      </ul>
    </section>
  );
}

function Version({
  commission,
  quote,
  isShown,
  choose,
  changed,
}: Pick<Props, 'commission' | 'choose' | 'changed'> & { quote: Quote; isShown: boolean }) {
  const { say, tell, named, money, date } = useWords();
  const session = useSession();
  const { id, number, state, gross, validUntil, stateReason, differenceFromAccepted, allowedMoves } = quote;
  const metal = useSending(async (confirming) => {
    const body = { commissionId: commission.id, from: id, metalOnly: true as const, overrides: {} };
    const headers = { 'idempotency-key': idempotencyKey(), ...confirming };
    changed((await bodyOf(api.POST('/api/v1/quotes', { body, headers }))).id);
  });
  const moved = differenceFromAccepted?.amountMinor ?? 0;
  return (
    <li class="line">
      <p>
        <strong>{say('price.version', { number })}</strong> <span class="word">{named('quote.state', state)}</span>{' '}
        <span class="figure">{money(gross.amountMinor, gross.currency)}</span>,{' '}
        {say('commission.quoteUntil', { date: date(validUntil) })}
        {moved !== 0 && `, ${say('price.fromAccepted', { by: `${moved > 0 ? '+' : ''}${money(moved, gross.currency)}` })}`}
        {stateReason && <span class="soft">: {tell(stateReason)}</span>}
      </p>
      <div class="row">
        <LetterLinks id={id} number={number} />
        <Button aria-pressed={isShown} aria-label={say('price.showNamed', { number })} onClick={() => choose(id)}>
          {say('price.show')}
        </Button>
        {may(session, 'owner') && (
          <Button busy={metal.busy} aria-label={say('price.metalOnlyNamed', { number })} onClick={() => void metal.send()}>
            {say('price.metalOnly')}
          </Button>
        )}
      </div>
      <ProblemNotice error={metal.error} sending={metal} />
      {/* Sending another version replaces this one: only what was accepted is replaced by hand. */}
      <Moves
        thing={{ ...quote, allowedMoves: allowedMoves.filter((to) => state !== 'sent' || to !== 'replaced') }}
        to="/api/v1/quotes/{id}/moves"
        words="quote.move"
        asks={ASKS}
        undoneBy={undoneBy}
        done={() => changed()}
      />
    </li>
  );
}
