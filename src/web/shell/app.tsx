import { LocationProvider } from 'preact-iso';
import { useEffect, useState } from 'preact/hooks';
import { api, bodyOf } from '../api/client.ts';
import { ApiProblem, Unreachable } from '../api/problem.ts';
import type { ReplyOf } from '../api/reply.ts';
import { useLoaded } from '../api/use-loaded.ts';
import { FirstStart } from '../pages/first-start/first-start.tsx';
import { LockedTablet } from '../pages/tablet/locked-tablet.tsx';
import { SignIn } from '../pages/sign-in/sign-in.tsx';
import { isSample } from '../offline/book.ts';
import { keepSession, keptSession, type KeptSession } from '../session/kept-session.ts';
import { SessionContext } from '../session/session.ts';
import { ProblemNotice } from '../ui/problem-notice.tsx';
import { messagesOf, tellingOf, wordsIn, WordsContext, type Words } from '../words/words.ts';
import { en } from '../words/en/index.ts';
import { useWindowTitle } from './arrival.ts';
import { Frame } from './frame.tsx';
import { SampleBanner } from './sample-banner.tsx';
import { RingingTimers } from './ringing-timers.tsx';

type TabletNow = ReplyOf<'/api/v1/shared-tablets/current'>;
type Door =
  | { door: 'first_start' }
  | { door: 'sign_in' }
  | { door: 'locked'; tablet: string; people: TabletNow['people'] }
  | { door: 'open'; session: KeptSession };

/** Who is at the door: nobody yet, somebody unknown, or a person of the studio with their language. */
export function App() {
  const { value, error, reload } = useLoaded(findDoor, []);
  const language = value?.door === 'open' ? value.session.language : deviceLanguage();
  const words = useWordsIn(language);
  useWindowTitle();
  if (!words) return null;
  return (
    <WordsContext.Provider value={words}>
      <RingingTimers />
      {isSample && <SampleBanner atDoor={value?.door === 'sign_in'} />}
      <LocationProvider>
        {value ? <Inside door={value} reload={reload} /> : <ProblemNotice error={error} retry={reload} />}
      </LocationProvider>
    </WordsContext.Provider>
  );
}

function Inside({ door, reload }: { door: Door; reload: () => void }) {
  const [byPassword, setByPassword] = useState(false);
  if (door.door === 'first_start') return <FirstStart done={reload} />;
  if (door.door === 'locked' && !byPassword)
    return <LockedTablet {...door} done={reload} byPassword={() => setByPassword(true)} />;
  if (door.door !== 'open') return <SignIn done={reload} />;
  const signOut = async () => {
    await bodyOf(api.DELETE('/api/v1/sessions/current'));
    setByPassword(false);
    reload();
  };
  return (
    <SessionContext.Provider value={{ ...door.session, reload, signOut }}>
      <Frame />
    </SessionContext.Provider>
  );
}

async function findDoor(signal: AbortSignal): Promise<Door> {
  try {
    const [who, preferences, shared] = await Promise.all([
      bodyOf(api.GET('/api/v1/sessions/current', { signal })),
      bodyOf(api.GET('/api/v1/preferences', { signal })),
      bodyOf(api.GET('/api/v1/shared-tablets/current', { signal })),
    ]);
    const { language, units, studio } = preferences;
    // By a password one is oneself on a shared tablet too.
    const tablet = shared.unlockedBy === null ? null : shared.tablet;
    const session = { ...who, language, units, studio, tablet };
    keepSession(session);
    return { door: 'open', session };
  } catch (error) {
    const kept = keptSession();
    if (error instanceof Unreachable && kept) return { door: 'open', session: kept };
    if (!(error instanceof ApiProblem && error.body.status === 401)) throw error;
    keepSession(undefined);
    const { tablet, people } = await bodyOf(api.GET('/api/v1/shared-tablets/current', { signal }));
    if (tablet) return { door: 'locked', tablet: tablet.name, people };
    const { ownerMissing } = await bodyOf(api.GET('/api/v1/health', { signal }));
    return { door: ownerMissing ? 'first_start' : 'sign_in' };
  }
}

/** Of the device; English where it names none that the browser itself takes, such as "en-US@posix". */
function deviceLanguage(): string {
  try {
    return Intl.getCanonicalLocales(navigator.language)[0] ?? 'en';
  } catch {
    return 'en';
  }
}

function useWordsIn(language: string): Words | undefined {
  const [words, setWords] = useState<Words>();
  useEffect(() => {
    let current = true;
    const take = (messages: Awaited<ReturnType<typeof messagesOf>>, told?: Awaited<ReturnType<typeof tellingOf>>) => {
      if (!current) return;
      document.documentElement.lang = messages === en ? 'en' : language;
      setWords(wordsIn(language, messages, told));
    };
    void Promise.all([messagesOf(language), tellingOf(language)]).then(
      ([messages, told]) => take(messages, told),
      () => take(en),
    );
    return () => void (current = false);
  }, [language]);
  return words;
}
