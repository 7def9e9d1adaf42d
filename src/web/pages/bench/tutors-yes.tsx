import { api, bodyOf } from '../../api/client.ts';
import { idempotencyKey } from '../../api/device.ts';
import { useLoaded } from '../../api/use-loaded.ts';
import { useSending } from '../../api/use-sending.ts';
import type { HeatNow } from '../../offline/heat-as-done.ts';
import { may, useSession } from '../../session/session.ts';
import { Button } from '../../ui/button.tsx';
import { ProblemNotice } from '../../ui/problem-notice.tsx';
import { Waiting } from '../../ui/waiting.tsx';
import { useWords } from '../../words/words.ts';

interface Student {
  id: string;
  name: string;
}

/** A tutor says yes to this heat, for each student who is known to have to do with it. */
export function TutorsYes({ heat, done }: { heat: HeatNow; done: () => void }) {
  const { say } = useWords();
  const isOwner = may(useSession(), 'owner');
  const book = useLoaded(
    async (signal) => {
      const { guesses } = await bodyOf(api.GET('/api/v1/plans/{id}/guesses', { params: { path: { id: heat.planId } }, signal }));
      const guessed = guesses.map(({ personId: id, name }): Student => ({ id, name }));
      // Only the owner may list the people of the studio.
      return isOwner ? [...guessed, ...(await studentsOf(signal))] : guessed;
    },
    [heat.planId, isOwner],
  );
  return (
    <details class="card">
      <summary>{say('bench.tutor')}</summary>
      <Waiting of={book}>
        {(found) => {
          const students = new Map(found.map((student) => [student.id, student]));
          if (students.size === 0) return <p>{say('bench.tutorNone')}</p>;
          return [...students.values()].map((student) => <OneYes key={student.id} heat={heat} student={student} done={done} />);
        }}
      </Waiting>
    </details>
  );
}

async function studentsOf(signal: AbortSignal): Promise<Student[]> {
  const { items } = await bodyOf(api.GET('/api/v1/people', { params: { query: { limit: 200 } }, signal }));
  return items.filter(({ roles, active }) => active && roles.includes('student'));
}

function OneYes({ heat, student: { id: studentId, name }, done }: { heat: HeatNow; student: Student; done: () => void }) {
  const { say } = useWords();
  const isGiven = heat.tutorsYes.some((one) => one.studentId === studentId);
  const sending = useSending(async (confirming) => {
    const headers = { 'idempotency-key': idempotencyKey(), ...confirming };
    const body = { studentId, yes: !isGiven };
    await bodyOf(api.POST('/api/v1/heats/{id}/tutors-yes', { params: { path: { id: heat.id } }, body, headers }));
    done();
  });
  return (
    <>
      <Button busy={sending.busy} onClick={() => void sending.send()}>
        {say(isGiven ? 'bench.tutorNo' : 'bench.tutorYes', { name })}
      </Button>
      <ProblemNotice error={sending.error} sending={sending} />
    </>
  );
}
