import type { ComponentChildren } from 'preact';
import { api, bodyOf, withVersion } from '../../api/client.ts';
import type { ReplyOf } from '../../api/reply.ts';
import { useLoaded, type Loaded } from '../../api/use-loaded.ts';
import { useSending } from '../../api/use-sending.ts';
import { Button } from '../../ui/button.tsx';
import { ProblemNotice } from '../../ui/problem-notice.tsx';
import { SampleOffer } from '../../ui/sample-offer.tsx';
import { useWords } from '../../words/words.ts';

/** Where each is done. */
const PLACES = {
  solder: '/drawer',
  prices: '/studio/settings',
  bench: '/dates',
  commission: '/commissions/new',
  person: '/studio/people',
  tablet: '/studio/keys',
} as const;

/**
 * What a new studio does first, ticked as it is done; it goes when all is, or when the owner says so.
 *
 * @param children what comes below, out of sight until it is known where
 */
export function FirstSteps({ children }: { children: ComponentChildren }) {
  const loaded = useLoaded((signal) => bodyOf(api.GET('/api/v1/first-steps', { signal })), []);
  const isKnown = loaded.value !== undefined || loaded.error !== undefined;
  return (
    <>
      <Steps loaded={loaded} />
      <div hidden={!isKnown}>{children}</div>
    </>
  );
}

function Steps({ loaded }: { loaded: Loaded<ReplyOf<'/api/v1/first-steps'>> }) {
  const { say } = useWords();
  const hiding = useSending(async () => {
    const { version } = await withVersion(api.GET('/api/v1/settings'));
    const body = { firstSteps: { shown: false } };
    await bodyOf(api.PATCH('/api/v1/settings', { params: { header: { 'If-Match': version } }, body }));
    loaded.reload();
  });
  const { value } = loaded;
  if (!value?.shown) return null;
  const done = value.steps.filter((one) => one.done).length;
  const of = value.steps.length;
  if (done === of) return null;
  return (
    <>
      <section class="card" aria-labelledby="first-steps">
        <h2 id="first-steps">{say('firstSteps.title')}</h2>
        <p class="soft">{say('firstSteps.count', { done, of })}</p>
        <ol class="first-steps">
          {value.steps.map((one) => (
            <li key={one.step} class={one.done ? 'is-done' : undefined}>
              <a href={PLACES[one.step]}>{say(`firstSteps.${one.step}`)}</a>
              {one.done && <span class="first-step-done">{say('firstSteps.done')}</span>}
            </li>
          ))}
        </ol>
        <ProblemNotice error={hiding.error} />
        <Button kind="quiet" busy={hiding.busy} onClick={() => void hiding.send()}>
          {say('firstSteps.hide')}
        </Button>{' '}
        <span class="soft">{say('firstSteps.hideHint')}</span>
      </section>
      {done === 0 && <SampleOffer />}
    </>
  );
}
