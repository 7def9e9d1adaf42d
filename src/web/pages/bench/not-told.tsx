import { ApiProblem } from '../../api/problem.ts';
import type { Note, StepQueue } from '../../offline/step-queue.ts';
import { useSession } from '../../session/session.ts';
import { Button } from '../../ui/button.tsx';
import { useWords, type Words } from '../../words/words.ts';

/** What a step was, in words: "H2: lit". */
export function stepWords({ step, of }: Note, { say, named }: Words): string {
  const what = step.do === 'move_heat' ? String(step['to']) : step.do === 'see_in_heat' ? String(step['saw']) : step.do;
  return say('bench.step', { heat: of, step: named('bench.step', what) });
}

/** What the book has not heard of yet, and what it would not take: nothing is lost in silence. */
export function NotTold({ queue, error }: { queue: StepQueue; error: Error | undefined }) {
  const { say } = useWords();
  const notes = queue.notes();
  const waiting = notes.filter(({ answeredAtMs }) => answeredAtMs === null).length;
  const state = queue.state();
  const isSignedOut = wantsSignIn(state) || wantsSignIn(error);
  return (
    <>
      {waiting > 0 && (
        <div class="notice notice-caution" role="status">
          <p>{say('bench.waiting', { count: waiting })}</p>
          {state instanceof ApiProblem && !isSignedOut ? (
            <Refused problem={state} queue={queue} />
          ) : (
            state === 'unreachable' && <Button onClick={() => void queue.send()}>{say('bench.sendNow')}</Button>
          )}
        </div>
      )}
      {isSignedOut && <SignedOut />}
      {queue.othersWait() && <p class="notice">{say('bench.othersWaiting')}</p>}
      {notes
        .filter(({ problem }) => problem !== null)
        .map((note) => (
          <NotTaken key={note.step.key} note={note} queue={queue} />
        ))}
    </>
  );
}

function wantsSignIn(problem: unknown): boolean {
  return problem instanceof ApiProblem && problem.body.status === 401;
}

/** A tablet that several share locks itself: what was done meanwhile is kept, and told after. */
function SignedOut() {
  const { say } = useWords();
  const { reload } = useSession();
  return (
    <div class="notice notice-caution" role="alert">
      <p>{say('bench.signedOut')}</p>
      <Button onClick={reload}>{say('signIn.go')}</Button>
    </div>
  );
}

function Refused({ problem, queue }: { problem: ApiProblem; queue: StepQueue }) {
  const { say, tell } = useWords();
  const isClock = problem.errors.some(({ pointer }) => pointer === '/sentAt');
  if (isClock)
    return (
      <>
        <p>{say('bench.clock')}</p>
        <div class="bench-choices">
          <Button onClick={() => void queue.send({ mendClock: true })}>{say('bench.clockMend')}</Button>
          <Button
            onClick={() => void queue.send({ headers: { confirm: '/sentAt', 'confirm-reason': say('bench.clockReason') } })}
          >
            {say('bench.clockKeep')}
          </Button>
        </div>
      </>
    );
  return (
    <>
      <p>{tell(problem.message)}</p>
      <Button onClick={() => void queue.send()}>{say('bench.sendNow')}</Button>
    </>
  );
}

interface NowIn {
  heatId: string;
  number: string;
  joints: string[];
  sameSolder: boolean;
}

function NotTaken({ note, queue }: { note: Note; queue: StepQueue }) {
  const words = useWords();
  const { say, tell, named } = words;
  const problem = note.problem!;
  const holds = typeof problem['state'] === 'string' ? problem['state'] : undefined;
  const nowIn = (problem['nowIn'] as NowIn[] | undefined) ?? [];
  /** The same at the time it was done, with something said of it besides. */
  const noteAgain = (of: string, more: Record<string, unknown>) => {
    const { do: what, key: _key, deviceId: _device, deviceSeq: _seq, occurredAt, ...given } = note.step;
    queue.dismiss(note.step.key);
    queue.note(of, { do: what, ...given, ...more }, occurredAt);
  };
  const errors = problem.errors ?? [];
  const isUnusualOnly = errors.length > 0 && errors.every(({ confirmable }) => confirmable === true);
  return (
    <div class="notice notice-problem" role="alert">
      <p>
        <strong>{say('bench.notTaken')}</strong>: {stepWords(note, words)}
      </p>
      {holds !== undefined && <p>{say('bench.notTaken.movedOn', { state: named('bench.state', holds) })}</p>}
      {holds === undefined && errors.length === 0 && <p>{tell(problem.detail ?? problem.title)}</p>}
      {errors.map(({ pointer, detail }) => (
        <p key={pointer}>{tell(detail)}</p>
      ))}
      {nowIn.map((one) => (
        <p key={one.heatId}>
          {say('bench.notTaken.nowIn', { joints: one.joints.join(', '), heat: one.number })}{' '}
          {one.sameSolder ? (
            <Button onClick={() => noteAgain(one.number, { heatId: one.heatId })}>{say('bench.notTaken.noteThere')}</Button>
          ) : (
            say('bench.notTaken.otherSolder')
          )}
        </p>
      ))}
      {isUnusualOnly && (
        <Button
          onClick={() => {
            const pointers = problem.errors!.map(({ pointer }) => pointer);
            noteAgain(note.of, { confirm: { pointers, reason: say('bench.confirmReason') } });
          }}
        >
          {say('bench.confirm')}
        </Button>
      )}
      <Button onClick={() => queue.dismiss(note.step.key)}>{say('bench.dismiss')}</Button>
    </div>
  );
}
