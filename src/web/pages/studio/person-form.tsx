import { useState } from 'preact/hooks';
import { api, bodyOf } from '../../api/client.ts';
import { ApiProblem } from '../../api/problem.ts';
import { useSending } from '../../api/use-sending.ts';
import { useSession, type RoleName } from '../../session/session.ts';
import { decimalOf } from '../../units/typed-number.ts';
import { Button } from '../../ui/button.tsx';
import { Field, Tick } from '../../ui/field.tsx';
import { ProblemNotice } from '../../ui/problem-notice.tsx';
import { useWords } from '../../words/words.ts';
import type { Person } from './person.ts';
import { sentSetting } from './setting-values.ts';

const ROLES: readonly RoleName[] = ['owner', 'bench', 'desk', 'student'];

/** Somebody new, or what is known of somebody. */
export function PersonForm({ person, done }: { person?: Person; done: () => void }) {
  const { say } = useWords();
  const session = useSession();
  const roles: RoleName[] = person?.roles ?? ['bench'];
  const [typed, setTyped] = useState({
    name: person?.name ?? '',
    roles,
    tutor: person?.tutor ?? false,
    ratePerHour: person?.ratePerHour ?? '',
    benchMinutesPerDay: person?.benchMinutesPerDay?.toString() ?? '',
    signInName: person?.signInName ?? '',
    password: '',
  });
  const take = (change: Partial<typeof typed>) => setTyped({ ...typed, ...change });
  const send = async (confirming: Record<string, string>, leaving: { active?: boolean } = {}) => {
    const { ratePerHour, benchMinutesPerDay, signInName, password, ...rest } = typed;
    const body = {
      ...rest,
      ratePerHour: ratePerHour.trim() === '' ? null : decimalOf(ratePerHour.trim()),
      // What is no number goes as it is: the server says so at its place.
      benchMinutesPerDay: benchMinutesPerDay.trim() === '' ? null : (sentSetting(benchMinutesPerDay, 'number') as number),
      signInName: signInName.trim() === '' ? null : signInName,
      ...(password !== '' && { password }),
      ...leaving,
    };
    if (person) {
      const params = { path: { id: person.id }, header: { 'If-Match': `"${person.version}"`, ...confirming } };
      await bodyOf(api.PATCH('/api/v1/people/{id}', { params, body }));
    } else await bodyOf(api.POST('/api/v1/people', { body, headers: confirming }));
    // A new password ends the sessions of the one it is for, one's own too.
    if (person?.id === session.personId) session.reload();
    done();
  };
  const saving = useSending(send);
  const leaving = useSending((confirming) => send(confirming, { active: person?.active !== true }));
  const error = saving.error ?? leaving.error;
  const isStale = error instanceof ApiProblem && error.slug === 'stale';
  return (
    <form
      class="card"
      onSubmit={(event) => {
        event.preventDefault();
        void saving.send();
      }}
    >
      <div class="columns">
        <Field
          label={say('people.name')}
          value={typed.name}
          onValue={(name) => take({ name })}
          error={error}
          pointer="/name"
          required
        />
        <Field
          label={say('people.rate', { currency: session.studio.currency })}
          hint={say('people.rateHint')}
          inputMode="decimal"
          value={typed.ratePerHour}
          onValue={(ratePerHour) => take({ ratePerHour })}
          error={error}
          pointer="/ratePerHour"
        />
        <Field
          label={say('people.minutes')}
          hint={say('people.minutesHint')}
          inputMode="numeric"
          value={typed.benchMinutesPerDay}
          onValue={(benchMinutesPerDay) => take({ benchMinutesPerDay })}
          error={error}
          pointer="/benchMinutesPerDay"
        />
      </div>
      <fieldset>
        <legend>{say('people.roles')}</legend>
        <div class="row">
          {ROLES.map((role) => (
            <Tick
              key={role}
              label={say(`role.${role}`)}
              checked={typed.roles.includes(role)}
              onChecked={(checked) =>
                take({ roles: ROLES.filter((one) => (one === role ? checked : typed.roles.includes(one))) })
              }
            />
          ))}
          <Tick label={say('people.isTutor')} checked={typed.tutor} onChecked={(tutor) => take({ tutor })} />
        </div>
      </fieldset>
      <div class="columns">
        <Field
          label={say('firstStart.signInName')}
          hint={say('people.signInHint')}
          value={typed.signInName}
          onValue={(signInName) => take({ signInName })}
          error={error}
          pointer="/signInName"
          autoComplete="off"
          autocapitalize="none"
        />
        <Field
          label={say(person ? 'people.newPassword' : 'firstStart.password')}
          hint={say(person ? 'people.newPasswordHint' : 'firstStart.passwordHint')}
          type="password"
          value={typed.password}
          onValue={(password) => take({ password })}
          error={error}
          pointer="/password"
          autoComplete="new-password"
        />
      </div>
      {isStale ? (
        <div class="notice notice-problem" role="alert">
          <p>{say('people.stale')}</p>
          <Button onClick={done}>{say('shell.again')}</Button>
        </div>
      ) : (
        <ProblemNotice error={error} sending={saving.error ? saving : leaving} />
      )}
      <div class="row">
        <Button type="submit" kind="main" busy={saving.busy}>
          {say('shell.save')}
        </Button>
        {person && (
          <Button kind={person.active ? 'danger' : 'plain'} busy={leaving.busy} onClick={() => void leaving.send()}>
            {say(person.active ? 'people.leave' : 'people.back')}
          </Button>
        )}
        <Button onClick={done}>{say('shell.cancel')}</Button>
      </div>
    </form>
  );
}
