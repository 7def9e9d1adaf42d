import { useEffect } from 'preact/hooks';
import { api, bodyOf } from '../api/client.ts';
import type { ReplyOf } from '../api/reply.ts';
import { useLoaded } from '../api/use-loaded.ts';
import { useSending } from '../api/use-sending.ts';
import { isSample } from '../offline/book.ts';
import { useWords } from '../words/words.ts';
import { Button } from './button.tsx';
import { ProblemNotice } from './problem-notice.tsx';

type Sample = ReplyOf<'/api/v1/samples/current'>;

/** So often it is asked how far the making is. */
const ASK_AGAIN_MS = 500;

/**
 * A way to the sample studio, for who may open it; in the sample itself there is none.
 *
 * @param code the one-time code as far as it is typed, before there is an owner
 */
export function SampleOffer({ code }: { code?: string }) {
  return isSample ? null : <Offer {...(code !== undefined && { code })} />;
}

function Offer({ code = '' }: { code?: string }) {
  const { say } = useWords();
  const loaded = useLoaded((signal) => bodyOf(api.GET('/api/v1/samples/current', { signal })), []);
  const { value: sample, put, reload } = loaded;
  const opening = useSending(async () => {
    const body = code === '' ? {} : { code };
    put(await bodyOf(sample?.start === 'owner' ? api.POST('/api/v1/samples') : api.POST('/api/v1/samples/first-look', { body })));
  });
  const cancelling = useSending(async () => {
    await bodyOf(api.DELETE('/api/v1/samples/current'));
    reload();
  });
  useEffect(() => {
    if (sample?.state === 'ready') location.assign('/');
    if (sample?.state !== 'making') return undefined;
    const timer = setTimeout(reload, ASK_AGAIN_MS);
    return () => clearTimeout(timer);
  }, [sample]);
  if (!sample || sample.start === 'none') return null;
  const waits = sample.start === 'code' && code === '';
  return (
    <section class="card sample-offer" aria-labelledby="sample-offer">
      <h2 id="sample-offer">{say('sample.title')}</h2>
      <p>{say('sample.lead')}</p>
      {sample.state === 'making' || sample.state === 'ready' ? (
        <Making sample={sample} cancel={() => void cancelling.send()} />
      ) : (
        <>
          {sample.state === 'failed' && (
            <p class="notice notice-problem" role="alert">
              {say('sample.failed')}
            </p>
          )}
          {waits && <p class="soft">{say('sample.needsCode')}</p>}
          <ProblemNotice error={opening.error ?? cancelling.error} />
          <Button busy={opening.busy} disabled={waits} onClick={() => void opening.send()}>
            {say('sample.open')}
          </Button>
        </>
      )}
    </section>
  );
}

function Making({ sample: { step }, cancel }: { sample: Sample; cancel: () => void }) {
  const { say } = useWords();
  const isLast = step !== null && step.begun === step.of;
  return (
    <>
      <progress aria-label={say('sample.making')} max={step?.of ?? 1} value={step?.begun ?? 0} />
      <p class="figure" role="status">
        {step === null ? say('sample.beginning') : isLast ? say('sample.almost') : say('sample.step', step)}
      </p>
      <Button onClick={cancel}>{say('shell.cancel')}</Button>
    </>
  );
}
