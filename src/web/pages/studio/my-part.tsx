import { useRef, useState } from 'preact/hooks';
import { api, bodyOf, withVersion } from '../../api/client.ts';
import type { ReplyOf } from '../../api/reply.ts';
import { useLoaded, type Loaded } from '../../api/use-loaded.ts';
import { useSending } from '../../api/use-sending.ts';
import { may, useSession } from '../../session/session.ts';
import { Button } from '../../ui/button.tsx';
import { Field, Select } from '../../ui/field.tsx';
import { chosenLight, LIGHTS, setLight } from '../../ui/light.ts';
import { ProblemNotice } from '../../ui/problem-notice.tsx';
import { Waiting } from '../../ui/waiting.tsx';
import { LANGUAGES, useWords } from '../../words/words.ts';
import { MySessions } from './my-sessions.tsx';

/** How I read the book, and how I get in. */
export function MyPart() {
  const { say } = useWords();
  const session = useSession();
  const loaded = useLoaded((signal) => withVersion(api.GET('/api/v1/preferences', { signal })), []);
  return (
    <>
      <section class="card" aria-labelledby="reading">
        <h2 id="reading">{say('mine.reading')}</h2>
        <Waiting of={loaded}>{({ version }) => <Reading key={version} loaded={loaded} />}</Waiting>
        <LightChoice />
      </section>
      {may(session, 'student') && <Pin />}
      <section class="card" aria-labelledby="password">
        <h2 id="password">{say('mine.password')}</h2>
        {may(session, 'owner') ? <a href="/studio/people">{say('mine.passwordOwner')}</a> : <p>{say('mine.passwordAsk')}</p>}
      </section>
      {session.tablet === null && <MySessions />}
      <p class="line">
        <a href="/docs/tablet" target="_self">
          {say('mine.tablet')}
        </a>
      </p>
    </>
  );
}

type Preferences = ReplyOf<'/api/v1/preferences'>;
const UNITS = { length: ['mm', 'in', 'gauge'], temperature: ['C', 'F'], mass: ['g', 'dwt', 'ozt'] } as const;

/** Language and units: taken at once, without a button. */
function Reading({ loaded: { value, reload, put } }: { loaded: Loaded<{ body: Preferences; version: string }> }) {
  const { body: preferences, version } = value!;
  const { say } = useWords();
  const session = useSession();
  const [own, setOwn] = useState(preferences.own);
  const wanted = useRef(own);
  const sending = useSending(async () => {
    let set = { body: preferences, version };
    // What was chosen while that before it was on its way goes after it: nobody's choice is locked meanwhile.
    for (let sent; sent !== wanted.current;) {
      sent = wanted.current;
      const params = { header: { 'If-Match': set.version } };
      set = await withVersion(api.PUT('/api/v1/preferences', { params, body: sent }));
    }
    session.reload();
    put(set);
  });
  const take = (change: Partial<Preferences['own']>) => {
    wanted.current = { ...own, ...change };
    setOwn(wanted.current);
    void sending.send();
  };
  const { studio } = preferences;
  const units = own.units ?? studio.units;
  return (
    <>
      <div class="columns">
        <Select
          label={say('firstStart.language')}
          value={own.language?.split('-')[0] ?? ''}
          onValue={(language) => take({ language: language === '' ? null : language })}
          choices={[
            { value: '', label: say('mine.asStudio') },
            ...LANGUAGES.map((value) => ({ value, label: say(`language.${value}`) })),
          ]}
        />
        {(['length', 'temperature', 'mass'] as const).map((quantity) => (
          <Select
            key={quantity}
            label={say(`firstStart.${quantity}`)}
            value={units[quantity]}
            onValue={(value) => take({ units: { ...units, [quantity]: value } })}
            choices={UNITS[quantity].map((value) => ({ value, label: say(`unit.${value}`) }))}
          />
        ))}
      </div>
      {own.units !== null && (
        <Button kind="quiet" busy={sending.busy} onClick={() => take({ units: null })}>
          {say('mine.unitsAsStudio')}
        </Button>
      )}
      <ProblemNotice error={sending.error} sending={sending} retry={reload} />
    </>
  );
}

function LightChoice() {
  const { say } = useWords();
  const [light, choose] = useState(chosenLight);
  return (
    <Select
      label={say('mine.light')}
      hint={say('mine.lightHint')}
      value={light}
      onValue={(value) => {
        const chosen = LIGHTS.find((one) => one === value) ?? 'auto';
        setLight(chosen);
        choose(chosen);
      }}
      choices={LIGHTS.map((value) => ({ value, label: say(`light.${value}`) }))}
    />
  );
}

function Pin() {
  const { say } = useWords();
  const { personId } = useSession();
  const [pin, setPin] = useState('');
  const [told, setTold] = useState<'set' | 'gone'>();
  const setting = useSending(async () => {
    setTold(undefined);
    await bodyOf(api.POST('/api/v1/pins', { body: { pin } }));
    setPin('');
    setTold('set');
  });
  const taking = useSending(async () => {
    setTold(undefined);
    await bodyOf(api.DELETE('/api/v1/pins/{id}', { params: { path: { id: personId } } }));
    setTold('gone');
  });
  return (
    <section class="card" aria-labelledby="pin">
      <h2 id="pin">{say('mine.pin')}</h2>
      <p>{say('mine.pinLead')}</p>
      <form
        class="row"
        onSubmit={(event) => {
          event.preventDefault();
          void setting.send();
        }}
      >
        <Field
          label={say('mine.pinNew')}
          hint={say('mine.pinHint')}
          type="password"
          inputMode="numeric"
          autoComplete="off"
          value={pin}
          onValue={setPin}
          error={setting.error}
          pointer="/pin"
          maxLength={8}
          required
        />
        <Button type="submit" kind="main" busy={setting.busy}>
          {say('mine.pinSet')}
        </Button>
        <Button busy={taking.busy} onClick={() => void taking.send()}>
          {say('mine.pinTake')}
        </Button>
      </form>
      {told && <p role="status">{say(told === 'set' ? 'mine.pinIsSet' : 'mine.pinIsGone')}</p>}
      <ProblemNotice error={setting.error ?? taking.error} />
    </section>
  );
}
