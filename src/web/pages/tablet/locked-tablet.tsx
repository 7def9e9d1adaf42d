import { useLocation } from 'preact-iso';
import { useState } from 'preact/hooks';
import type { ReplyOf } from '../../api/reply.ts';
import { Button } from '../../ui/button.tsx';
import { useDimPage } from '../../ui/use-dim-page.ts';
import { useWords } from '../../words/words.ts';
import { NewPinByCode } from './new-pin-by-code.tsx';
import { PinPad } from './pin-pad.tsx';

type TabletNow = ReplyOf<'/api/v1/shared-tablets/current'>;

interface Props {
  tablet: string;
  people: TabletNow['people'];
  done: () => void;
  /** For what a PIN does not open. */
  byPassword: () => void;
}

/** A tablet of several people while nobody is at it: who is there, and then their PIN. */
export function LockedTablet({ tablet, people, done, byPassword }: Props) {
  const { say } = useWords();
  const [chosen, choose] = useState<string>();
  const [hasCode, setHasCode] = useState(false);
  useDimPage();
  const { path, route } = useLocation();
  const unlocked = () => {
    // A PIN is for the work at the bench.
    if (path !== '/bench') route('/bench');
    done();
  };
  const person = people.find(({ personId }) => personId === chosen);
  return (
    <main class="door tablet" id="page">
      <h1>{say('tablet.title', { tablet })}</h1>
      {person ? (
        <PinPad key={person.personId} person={person} done={unlocked} other={() => choose(undefined)} />
      ) : hasCode ? (
        <NewPinByCode done={done} back={() => setHasCode(false)} />
      ) : (
        <>
          <p>{say(people.length === 0 ? 'tablet.nobody' : 'tablet.who')}</p>
          <div class="tablet-people">
            {people.map(({ personId, name }) => (
              <Button key={personId} onClick={() => choose(personId)}>
                {name}
              </Button>
            ))}
          </div>
          <div class="row">
            <Button kind="quiet" onClick={() => setHasCode(true)}>
              {say('tablet.hasCode')}
            </Button>
            <Button kind="quiet" onClick={byPassword}>
              {say('tablet.byPassword')}
            </Button>
          </div>
        </>
      )}
    </main>
  );
}
