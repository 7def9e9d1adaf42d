import { useLocation } from 'preact-iso';
import { may, useSession, type RoleName } from '../../session/session.ts';
import { useWords, type MessageKey } from '../../words/words.ts';

const ROOMS: readonly { path: string; word: MessageKey; roles: readonly RoleName[] }[] = [
  { path: '/drawer', word: 'drawer.room.solder', roles: ['bench', 'desk', 'student'] },
  { path: '/drawer/orders', word: 'drawer.room.orders', roles: ['bench', 'desk'] },
  { path: '/drawer/stocktake', word: 'drawer.room.stocktake', roles: ['bench', 'desk'] },
  { path: '/drawer/metal', word: 'drawer.room.metal', roles: ['bench', 'desk'] },
  { path: '/drawer/supplies', word: 'drawer.room.supplies', roles: ['bench', 'desk', 'student'] },
  { path: '/drawer/baths', word: 'drawer.room.baths', roles: ['bench', 'desk', 'student'] },
];

/** The heading of a page of the drawer, and the way to its other pages. */
export function DrawerHead({ title }: { title: string }) {
  const { say } = useWords();
  const session = useSession();
  const { path } = useLocation();
  return (
    <>
      <h1>{title}</h1>
      <nav class="drawer-rooms" aria-label={say('drawer.rooms')}>
        {ROOMS.filter(({ roles }) => may(session, ...roles)).map((room) => (
          <a key={room.path} href={room.path} aria-current={path === room.path ? 'page' : undefined}>
            {say(room.word)}
          </a>
        ))}
      </nav>
    </>
  );
}
