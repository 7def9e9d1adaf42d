import { ApiProblem } from '../../api/problem.ts';
import type { PictureOf } from '../../offline/kept-pictures.ts';
import type { PictureQueue, WaitingPicture } from '../../offline/picture-queue.ts';
import { useSession } from '../../session/session.ts';
import { useWords, type Words } from '../../words/words.ts';
import { Button } from '../button.tsx';
import { usePictures } from './use-pictures.ts';

/** Pictures on their way to the book, or kept here until there is one. */
export function WaitingPictures({ of = {} }: { of?: PictureOf }) {
  const queue = usePictures();
  const { say } = useWords();
  const isOf = (picture: WaitingPicture) =>
    (Object.keys(of) as (keyof PictureOf)[]).every((name) => picture.of[name] === of[name]);
  const waiting = queue.pictures().filter(isOf);
  if (waiting.length === 0) return null;
  return (
    <ul class="plain-list photos" aria-label={say('photos.waitingList')}>
      {waiting.map((picture) => (
        <li key={picture.key} class="photo">
          <Waiting picture={picture} queue={queue} />
        </li>
      ))}
    </ul>
  );
}

function Waiting({ picture, queue }: { picture: WaitingPicture; queue: PictureQueue }) {
  const words = useWords();
  const { say, moment, percent } = words;
  const { studio } = useSession();
  const { key, url, standing, sent, takenAt } = picture;
  return (
    <>
      <img src={url} alt={say('photos.altWaiting', { at: moment(takenAt, studio.timeZone) })} />
      {standing === 'sending' && (
        <progress value={sent} aria-label={say('photos.sending', { percent: percent(sent) })}>
          {percent(sent)}
        </progress>
      )}
      <p role="status">{standingWords(picture, words)}</p>
      <div class="row">
        {standing === 'unreachable' && <Button onClick={() => void queue.send()}>{say('bench.sendNow')}</Button>}
        {standing === 'step_refused' && <Button onClick={() => void queue.withHeat(key)}>{say('photos.withHeat')}</Button>}
        {standing instanceof ApiProblem && standing.confirmable && (
          <Button onClick={() => void queue.confirm(key, say('photos.sendAsIsReason'))}>{say('photos.sendAsIs')}</Button>
        )}
        <Button onClick={() => void queue.cancel(key)}>{say('photos.cancel')}</Button>
      </div>
    </>
  );
}

function standingWords({ standing, sent }: WaitingPicture, { say, tell, percent }: Words): string {
  if (standing === 'sending') return say('photos.sending', { percent: percent(sent) });
  if (standing === 'unreachable') return say('photos.unreachable');
  if (standing === 'waits_for_step') return say('photos.waitsForStep');
  if (standing === 'step_refused') return say('photos.stepRefused');
  if (standing.body.status === 401) return say('photos.signedOut');
  return standing.errors.length > 0 ? standing.errors.map(({ detail }) => tell(detail)).join(' ') : tell(standing.message);
}
