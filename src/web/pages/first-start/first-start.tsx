import { useState } from 'preact/hooks';
import { api, bodyOf, withVersion } from '../../api/client.ts';
import { useSending } from '../../api/use-sending.ts';
import type { ShownUnits } from '../../units/shown-units.ts';
import { Button } from '../../ui/button.tsx';
import { Field, Select } from '../../ui/field.tsx';
import { ProblemNotice } from '../../ui/problem-notice.tsx';
import { SampleOffer } from '../../ui/sample-offer.tsx';
import { LANGUAGES, useWords } from '../../words/words.ts';

/** The first page of a new book: who owns it, and how the studio reads and reckons. */
export function FirstStart({ done }: { done: () => void }) {
  const { say, locale } = useWords();
  const [owner, setOwner] = useState({ code: '', name: '', signInName: '', password: '' });
  const [studio, setStudio] = useState({
    studioName: '',
    language: locale.split('-')[0] === 'de' ? 'de' : 'en',
    currency: 'EUR',
    timeZone: Intl.DateTimeFormat().resolvedOptions().timeZone,
  });
  const [units, setUnits] = useState<ShownUnits>({ length: 'mm', temperature: 'C', mass: 'g' });
  const [made, setMade] = useState(false);
  const sending = useSending(async () => {
    // The owner stays made when the second half is refused, so that only what was wrong is sent again.
    if (!made) {
      await bodyOf(api.POST('/api/v1/people/first-owner', { body: owner }));
      setMade(true);
    }
    const { signInName, password } = owner;
    await bodyOf(api.POST('/api/v1/sessions', { body: { signInName, password } }));
    const { version } = await withVersion(api.GET('/api/v1/settings'));
    await bodyOf(api.PATCH('/api/v1/settings', { params: { header: { 'If-Match': version } }, body: { ...studio, units } }));
    done();
  });
  const { error } = sending;
  const submit = (event: Event) => {
    event.preventDefault();
    void sending.send();
  };
  return (
    <main class="door">
      <SampleOffer code={owner.code} />
      <form class="card" onSubmit={submit}>
        <h1>{say('firstStart.title')}</h1>
        <p>{say('firstStart.lead')}</p>
        <fieldset disabled={made}>
          <Field
            label={say('firstStart.code')}
            value={owner.code}
            onValue={(code) => setOwner({ ...owner, code })}
            error={error}
            pointer="/code"
            autoComplete="one-time-code"
            required
          />
          <Field
            label={say('firstStart.yourName')}
            value={owner.name}
            onValue={(name) => setOwner({ ...owner, name })}
            error={error}
            pointer="/name"
            autoComplete="name"
            required
          />
          <Field
            label={say('firstStart.signInName')}
            hint={say('firstStart.signInHint')}
            value={owner.signInName}
            onValue={(signInName) => setOwner({ ...owner, signInName })}
            error={error}
            pointer="/signInName"
            autoComplete="username"
            autocapitalize="none"
            required
          />
          <Field
            label={say('firstStart.password')}
            hint={say('firstStart.passwordHint')}
            type="password"
            value={owner.password}
            onValue={(password) => setOwner({ ...owner, password })}
            error={error}
            pointer="/password"
            autoComplete="new-password"
            required
          />
        </fieldset>
        <fieldset>
          <Field
            label={say('firstStart.studioName')}
            value={studio.studioName}
            onValue={(studioName) => setStudio({ ...studio, studioName })}
            error={error}
            pointer="/studioName"
            autoComplete="organization"
            required
          />
          <div class="columns">
            <Select
              label={say('firstStart.language')}
              value={studio.language}
              onValue={(language) => setStudio({ ...studio, language })}
              choices={LANGUAGES.map((value) => ({ value, label: say(`language.${value}`) }))}
            />
            <Field
              label={say('firstStart.currency')}
              hint={say('firstStart.currencyHint')}
              value={studio.currency}
              onValue={(currency) => setStudio({ ...studio, currency: currency.toUpperCase() })}
              error={error}
              pointer="/currency"
              maxLength={3}
              required
            />
            <Field
              label={say('firstStart.timeZone')}
              value={studio.timeZone}
              onValue={(timeZone) => setStudio({ ...studio, timeZone })}
              error={error}
              pointer="/timeZone"
              required
            />
          </div>
          <UnitChoices units={units} onUnits={setUnits} />
        </fieldset>
        <ProblemNotice error={error} sending={sending} />
        <Button type="submit" kind="main" busy={sending.busy}>
          {say('firstStart.go')}
        </Button>
      </form>
    </main>
  );
}

const UNIT_CHOICES = { length: ['mm', 'in', 'gauge'], temperature: ['C', 'F'], mass: ['g', 'dwt', 'ozt'] } as const;

/** How lengths, temperatures and weights are read and typed. */
export function UnitChoices({ units, onUnits }: { units: ShownUnits; onUnits: (units: ShownUnits) => void }) {
  const { say } = useWords();
  return (
    <div class="columns">
      {(['length', 'temperature', 'mass'] as const).map((quantity) => (
        <Select
          key={quantity}
          label={say(`firstStart.${quantity}`)}
          value={units[quantity]}
          onValue={(value) => onUnits({ ...units, [quantity]: value })}
          choices={UNIT_CHOICES[quantity].map((value) => ({ value, label: say(`unit.${value}`) }))}
        />
      ))}
    </div>
  );
}
