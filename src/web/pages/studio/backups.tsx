import { useEffect } from 'preact/hooks';
import { api, bodyOf } from '../../api/client.ts';
import type { ReplyOf } from '../../api/reply.ts';
import { useLoaded } from '../../api/use-loaded.ts';
import { useSending } from '../../api/use-sending.ts';
import { Button } from '../../ui/button.tsx';
import { ProblemNotice } from '../../ui/problem-notice.tsx';
import { Waiting } from '../../ui/waiting.tsx';
import { useWords } from '../../words/words.ts';

type Backup = ReplyOf<'/api/v1/backups'>['items'][number];

const LOOK_AGAIN_MS = 1000;

/** Encrypted copies on another disk: whether they are as they should be, one now, one looked through, the key on paper. */
export function Backups() {
  const { say, moment, tell } = useWords();
  const standing = useLoaded((signal) => bodyOf(api.GET('/api/v1/backups/standing', { signal })), []);
  const backups = useLoaded((signal) => bodyOf(api.GET('/api/v1/backups', { params: { query: { limit: 10 } }, signal })), []);
  const reload = () => {
    standing.reload();
    backups.reload();
  };
  const making = useSending(async () => {
    await bodyOf(api.POST('/api/v1/backups'));
    reload();
  });
  const isWorking = standing.value?.working ?? false;
  useEffect(() => {
    if (!isWorking || standing.loading) return;
    const again = setTimeout(reload, LOOK_AGAIN_MS);
    return () => clearTimeout(again);
  }, [isWorking, standing.loading]);
  return (
    <section class="card" aria-labelledby="backups">
      <h2 id="backups">{say('backups.title')}</h2>
      <p>{say('backups.lead')}</p>
      <Waiting of={standing}>
        {({ folder, nextAt, warnings, working }) => (
          <>
            {warnings.map((warning) => (
              <p key={warning} class="notice">
                {tell(warning)}
              </p>
            ))}
            {folder === '' ? (
              <p>
                <a href="/studio/settings">{say('backups.name_folder')}</a>
              </p>
            ) : (
              <p>{say('backups.next', { folder, at: nextAt === null ? '' : moment(nextAt) })}</p>
            )}
            <p class="row">
              {folder !== '' && (
                <Button kind="main" busy={making.busy || working} onClick={() => void making.send()}>
                  {say(working ? 'backups.working' : 'backups.make')}
                </Button>
              )}
              <a class="button" href="/api/v1/documents/recovery-form?format=pdf" target="_blank" rel="noopener">
                {say('backups.key')}
              </a>
            </p>
          </>
        )}
      </Waiting>
      <ProblemNotice error={making.error} />
      <Waiting of={backups}>
        {({ items }) => (
          <ul class="plain-list" aria-live="polite">
            {items.map((backup) => (
              <Line key={backup.id} backup={backup} busy={isWorking} done={reload} />
            ))}
          </ul>
        )}
      </Waiting>
    </section>
  );
}

function Line({ backup, busy, done }: { backup: Backup; busy: boolean; done: () => void }) {
  const { say, moment, number, tell } = useWords();
  const { id, state, begunAt, fileName, bytes, failure, checkedAt, checkFailure } = backup;
  const checking = useSending(async () => {
    await bodyOf(api.POST('/api/v1/backups/{id}/checks', { params: { path: { id } } }));
    done();
  });
  return (
    <li class="line row">
      <span>
        <strong>{moment(begunAt)}</strong> {say(`backups.state.${state}`)}
        <br />
        <span class="soft">
          {failure === null ? fileName : tell(failure)}
          {bytes !== null && ` · ${say('backups.size', { mb: number(bytes / 1e6, 1) })}`}
          {checkedAt !== null && checkFailure === null && ` · ${say('backups.sound', { at: moment(checkedAt) })}`}
        </span>
        {checkFailure !== null && <p class="notice">{tell(checkFailure)}</p>}
        <ProblemNotice error={checking.error} />
      </span>
      {state === 'kept' && (
        <Button busy={busy || checking.busy} onClick={() => void checking.send()}>
          {say('backups.check')}
        </Button>
      )}
    </li>
  );
}
