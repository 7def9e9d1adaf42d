import { useLocation } from 'preact-iso';
import { useRef } from 'preact/hooks';
import { may, useSession, type RoleName } from '../session/session.ts';
import { Button } from '../ui/button.tsx';
import { useWords, type MessageKey } from '../words/words.ts';
import { SearchBox } from './search-box.tsx';

interface Room {
  path: string;
  word: MessageKey;
  roles: readonly RoleName[];
  /** Other addresses that lie in it. */
  also?: readonly string[];
}

const ROOMS: readonly Room[] = [
  { path: '/', word: 'nav.today', roles: ['owner', 'bench', 'desk', 'student'] },
  { path: '/bench', word: 'nav.bench', roles: ['owner', 'bench', 'student'] },
  { path: '/commissions', word: 'nav.commissions', roles: ['bench', 'desk'] },
  { path: '/pieces', word: 'nav.pieces', roles: ['owner', 'bench', 'desk', 'student'] },
  { path: '/dates', word: 'nav.dates', roles: ['bench', 'desk'] },
  { path: '/drawer', word: 'nav.drawer', roles: ['owner', 'desk', 'bench'], also: ['/lots', '/baths'] },
  { path: '/reports', word: 'nav.reports', roles: ['bench', 'desk'] },
  { path: '/studio', word: 'nav.studio', roles: ['owner', 'bench', 'desk', 'student'] },
];

/**
 * The way about the book: in one line where there is room for it. On a phone or a tablet it lies under the thumb, and its list of rooms
 * opens above the name of the one that is open.
 */
export function RoomsBar() {
  const { say } = useWords();
  const session = useSession();
  const { path } = useLocation();
  const list = useRef<HTMLDivElement>(null);
  const open = ROOMS.filter(({ roles }) => may(session, ...roles));
  const here = open.find((room) => isIn(path, room));
  return (
    <header class="bar">
      <span class="studio">{session.studio.name}</span>
      <button type="button" class="bar-here" popovertarget="rooms">
        {say(here?.word ?? 'nav.label')} <span class="visually-hidden">{say('nav.open')}</span>
      </button>
      <div id="rooms" class="rooms" popover="auto" ref={list}>
        <nav aria-label={say('nav.label')}>
          {open.map((room) => (
            <a
              key={room.path}
              href={room.path}
              aria-current={room === here ? 'page' : undefined}
              onClick={() => list.current?.hidePopover()}
            >
              {say(room.word)}
            </a>
          ))}
        </nav>
        <p class="who">
          <span>{session.name}</span>
          {session.tablet === null && (
            <Button kind="quiet" onClick={() => void session.signOut()}>
              {say('shell.signOut')}
            </Button>
          )}
        </p>
      </div>
      <SearchBox />
      {session.tablet !== null && (
        <button type="button" class="button lock" onClick={() => void session.signOut()}>
          {say('tablet.lock')}
        </button>
      )}
    </header>
  );
}

function isIn(path: string, { path: room, also = [] }: Room): boolean {
  return room === '/' ? path === '/' : [room, ...also].some((one) => path === one || path.startsWith(`${one}/`));
}
