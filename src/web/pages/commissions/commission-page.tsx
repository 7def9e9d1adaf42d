import { useState } from 'preact/hooks';
import { api, bodyOf } from '../../api/client.ts';
import type { ReplyOf } from '../../api/reply.ts';
import { useLoaded } from '../../api/use-loaded.ts';
import { useSending } from '../../api/use-sending.ts';
import { may, useSession } from '../../session/session.ts';
import { Button } from '../../ui/button.tsx';
import { Field, Select } from '../../ui/field.tsx';
import { Moves, type MoveField } from '../../ui/moves.tsx';
import { ProblemNotice } from '../../ui/problem-notice.tsx';
import { Photos } from '../../ui/photos/photos.tsx';
import { Waiting } from '../../ui/waiting.tsx';
import { useWords } from '../../words/words.ts';
import { ChangeCommission } from './change-commission.tsx';
import { ClientTalk } from './client-talk.tsx';

const ASKS: Readonly<Record<string, readonly MoveField[]>> = {
  resting: [{ name: 'waitingFor', kind: 'choice', options: ['metal', 'solder', 'client', 'assay', 'stone', 'hands'] }],
};

type Commission = ReplyOf<'/api/v1/commissions/{id}'>;

/** One promise on one page: the wish, the pieces, the quotes, the money, the papers, and what may happen next. */
export function CommissionPage({ id }: { id: string }) {
  const { say, named, date } = useWords();
  const session = useSession();
  const loaded = useLoaded((signal) => bodyOf(api.GET('/api/v1/commissions/{id}', { params: { path: { id } }, signal })), [id]);
  return (
    <Waiting of={loaded}>
      {(commission) => {
        const { number, title, clientName, dueOn, state, waitingFor, stateReason, wish, kind, quantity, clientProperty } =
          commission;
        return (
          <>
            <h1>
              {number} {title}
            </h1>
            <p>
              <span class="word">{named('commission.state', state)}</span>{' '}
              {waitingFor && say('commission.waiting', { what: named('waiting', waitingFor) })} {stateReason}
            </p>
            <p class="soft">
              {[
                clientName,
                `${named('kind', kind)}${quantity > 1 ? ` × ${quantity}` : ''}`,
                dueOn && `${say('commissions.due')} ${date(dueOn)}`,
              ]
                .filter(Boolean)
                .join(' · ')}
            </p>
            <Moves
              thing={commission}
              to="/api/v1/commissions/{id}/moves"
              words="commission.move"
              asks={ASKS}
              mayOverride={may(session, 'owner')}
              done={loaded.reload}
            />
            {may(session, 'desk') && <ChangeCommission key={commission.version} commission={commission} done={loaded.reload} />}
            {wish && (
              <section class="card">
                <h2>{say('commission.wish')}</h2>
                <p class="as-typed">{wish}</p>
              </section>
            )}
            {clientProperty.length > 0 && (
              <section class="card">
                <h2>{say('commission.property')}</h2>
                <ul>
                  {clientProperty.map(({ what, weightG }) => (
                    <li key={what}>
                      {what}, {weightG} g
                    </li>
                  ))}
                </ul>
              </section>
            )}
            <Pieces commission={commission} reload={loaded.reload} />
            <Photos of={{ commissionId: id }} what={`${number} ${title}`} />
            {may(session, 'desk') && <QuotesAndMoney commission={commission} />}
            {may(session, 'desk') && commission.clientId !== null && <ClientTalk commissionId={id} />}
          </>
        );
      }}
    </Waiting>
  );
}

function Pieces({ commission, reload }: { commission: Commission; reload: () => void }) {
  const { say, named } = useWords();
  const session = useSession();
  return (
    <section class="card" aria-labelledby="pieces">
      <h2 id="pieces">{say('commission.pieces')}</h2>
      <ul class="plain-list">
        {commission.pieces.map(({ id, number, title, state }) => (
          <li key={id} class="line">
            <a href={`/pieces/${id}`}>
              <strong>{number}</strong> {title}
            </a>{' '}
            <span class="word">{named('piece.state', state)}</span>{' '}
            <a href={`/pieces/${id}/design`} aria-label={`${say('commission.design')} ${number}`}>
              {say('commission.design')}
            </a>{' '}
            <a href={`/pieces/${id}/plan`} aria-label={`${say('commission.heats')} ${number}`}>
              {say('commission.heats')}
            </a>
          </li>
        ))}
      </ul>
      {may(session, 'bench', 'desk') && <AddPiece commissionId={commission.id} title={commission.title} done={reload} />}
    </section>
  );
}

function AddPiece({ commissionId, title, done }: { commissionId: string; title: string; done: () => void }) {
  const { say, tell } = useWords();
  const [name, setName] = useState(title);
  const [metal, setMetal] = useState('sterling-925');
  const metals = useLoaded((signal) => bodyOf(api.GET('/api/v1/metals', { signal })), []);
  const sending = useSending(async (confirming) => {
    await bodyOf(api.POST('/api/v1/pieces', { body: { commissionId, title: name, metal }, headers: confirming }));
    done();
  });
  return (
    <>
      <div class="row">
        <Field
          label={say('commission.pieceTitle')}
          value={name}
          onValue={setName}
          error={sending.error}
          pointer="/title"
          maxLength={120}
        />
        <Select
          label={say('commission.pieceMetal')}
          value={metal}
          onValue={setMetal}
          choices={(metals.value?.items ?? []).map((one) => ({ value: one.id, label: tell(one.name) }))}
        />
        <Button busy={sending.busy} onClick={() => void sending.send()}>
          {say('commission.addPiece')}
        </Button>
      </div>
      <ProblemNotice error={sending.error} sending={sending} />
    </>
  );
}

const PAPERS = ['take-in-receipts', 'collection-notices', 'bills', 'balance-reminders'] as const;

/** Whether a paper has something to say by now. */
function isDue(paper: (typeof PAPERS)[number], { state, account }: Commission): boolean {
  switch (paper) {
    case 'take-in-receipts':
      return true;
    case 'collection-notices':
      return state === 'made';
    case 'bills':
      return account !== null && account.gross !== null && state !== 'called_off';
    case 'balance-reminders':
      return (account?.balance?.amountMinor ?? 0) > 0;
  }
}

function QuotesAndMoney({ commission }: { commission: Commission }) {
  const { id, quotes, account, spend } = commission;
  const { say, named, date, money } = useWords();
  const shown = (amount: { amountMinor: number; currency: string } | null) =>
    amount ? money(amount.amountMinor, amount.currency) : '–';
  return (
    <>
      <section class="card" aria-labelledby="quotes">
        <h2 id="quotes">{say('commission.quotes')}</h2>
        <ul class="plain-list">
          {quotes.map(({ id: quoteId, number, state, validUntil }) => (
            <li key={quoteId} class="line">
              <a href={`/commissions/${id}/price`}>
                {say('commission.quoteLine', { number, state: named('quote.state', state) })}
              </a>
              {validUntil && `, ${say('commission.quoteUntil', { date: date(validUntil) })}`}
            </li>
          ))}
        </ul>
        <a href={`/commissions/${id}/price`}>{say('commission.price')}</a>
      </section>
      <section class="card" aria-labelledby="account">
        <h2 id="account">{say('commission.account')}</h2>
        <dl class="pairs">
          {(['gross', 'deposit', 'received', 'balance'] as const).map((part) => (
            <div key={part}>
              <dt>{say(`commission.${part}`)}</dt>
              <dd class="figure">{shown(account?.[part] ?? null)}</dd>
            </div>
          ))}
          {spend && (
            <div>
              <dt>{say('commission.spend')}</dt>
              <dd class="figure">
                {shown(spend.total)}{' '}
                <span class="soft">{say('commission.spendMinutes', { minutes: Math.round(spend.minutes) })}</span>
              </dd>
            </div>
          )}
        </dl>
      </section>
      <section class="card" aria-labelledby="papers">
        <h2 id="papers">{say('commission.papers')}</h2>
        <ul class="plain-list">
          {PAPERS.map((paper) => (
            <li key={paper} class="line">
              {isDue(paper, commission) ? (
                <a href={`/api/v1/documents/${paper}/${id}`} target="_blank" rel="noopener">
                  {say(`commission.paper.${paper}`)}
                </a>
              ) : (
                <span class="soft">{say(`commission.paperLater.${paper as 'bills'}`)}</span>
              )}
            </li>
          ))}
        </ul>
      </section>
    </>
  );
}
