import { useRef, useState } from 'preact/hooks';
import { api, bodyOf, withVersion } from '../../api/client.ts';
import { idempotencyKey } from '../../api/device.ts';
import { useLoaded } from '../../api/use-loaded.ts';
import { useSending } from '../../api/use-sending.ts';
import { may, useSession } from '../../session/session.ts';
import { Button } from '../../ui/button.tsx';
import { Moves } from '../../ui/moves.tsx';
import { ProblemNotice } from '../../ui/problem-notice.tsx';
import { Waiting } from '../../ui/waiting.tsx';
import { useWords } from '../../words/words.ts';

/** The client's own page: made, copied once, cut off; or how to turn such pages on. */
export function PrivateLink({ commissionId }: { commissionId: string }) {
  const { say, named, date, moment } = useWords();
  const session = useSession();
  const isOwner = may(session, 'owner');
  // Only the owner reads the settings; another is told by the server.
  const settings = useLoaded(
    async (signal) => (isOwner ? withVersion(api.GET('/api/v1/settings', { signal })) : undefined),
    [isOwner],
  );
  const links = useLoaded(
    (signal) => bodyOf(api.GET('/api/v1/private-links', { params: { query: { commissionId } }, signal })),
    [commissionId],
  );
  const [made, setMade] = useState<string>();
  const making = useSending(async (confirming) => {
    const headers = { 'idempotency-key': idempotencyKey(), ...confirming };
    const link = await bodyOf(api.POST('/api/v1/private-links', { body: { commissionId }, headers }));
    setMade(location.origin + link.path);
    links.reload();
  });
  const turning = useSending(async (confirming) => {
    await bodyOf(
      api.PATCH('/api/v1/settings', {
        params: { header: { 'If-Match': settings.value!.version } },
        body: { privateLinks: { on: true } },
        headers: confirming,
      }),
    );
    settings.reload();
  });
  const isOff = settings.value?.body.settings.privateLinks.on === false;
  return (
    <section class="card" aria-labelledby="link">
      <h2 id="link">{say('link.title')}</h2>
      <p class="soft">{say('link.lead')}</p>
      {isOff ? (
        <>
          <p>{say('link.off')}</p>
          <Button busy={turning.busy} onClick={() => void turning.send()}>
            {say('link.turnOn')}
          </Button>
          <ProblemNotice error={turning.error} sending={turning} />
        </>
      ) : (
        <>
          {!isOwner && <p class="soft">{say('link.offForDesk')}</p>}
          <Button busy={making.busy} onClick={() => void making.send()}>
            {say('link.make')}
          </Button>
          <ProblemNotice error={making.error} sending={making} />
        </>
      )}
      {made && <Copy address={made} />}
      <Waiting of={links}>
        {({ items }) => (
          <ul class="plain-list">
            {items.map((link) => (
              <li key={link.id} class="line">
                <p>
                  <span class="word">{named('link.state', link.state)}</span>{' '}
                  {say('link.madeAt', { at: moment(link.createdAt, session.studio.timeZone) })},{' '}
                  {say('link.visits', { visits: link.visits })}
                  {link.endsOn && `, ${say('link.endsOn', { date: date(link.endsOn) })}`}
                </p>
                <Moves
                  thing={link}
                  to="/api/v1/private-links/{id}/moves"
                  words="link.move"
                  done={() => {
                    setMade(undefined);
                    links.reload();
                  }}
                />
              </li>
            ))}
          </ul>
        )}
      </Waiting>
    </section>
  );
}

/** An address with its secret: the server shows it this once. */
function Copy({ address }: { address: string }) {
  const { say } = useWords();
  const field = useRef<HTMLInputElement>(null);
  const [isCopied, setCopied] = useState(false);
  const copy = async () => {
    field.current?.select();
    // Over plain http a browser has no clipboard: then the address is left selected, to copy by hand.
    await navigator.clipboard?.writeText(address).then(
      () => setCopied(true),
      () => undefined,
    );
  };
  return (
    <div class="notice">
      <label class="field">
        <span>{say('link.once')}</span>
        <input ref={field} readOnly value={address} />
      </label>
      <Button onClick={() => void copy()}>{say('link.copy')}</Button> <span role="status">{isCopied && say('link.copied')}</span>
    </div>
  );
}
