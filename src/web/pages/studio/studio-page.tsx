import { useRoute } from 'preact-iso';
import { may, useSession } from '../../session/session.ts';
import { useWords } from '../../words/words.ts';
import { ClientsPart } from './clients-part.tsx';
import { CopyPart } from './copy-part.tsx';
import { KeysPart } from './keys-part.tsx';
import { MyPart } from './my-part.tsx';
import { PeoplePart } from './people-part.tsx';
import { SettingsPart } from './settings-part.tsx';

const PARTS = {
  mine: MyPart,
  settings: SettingsPart,
  people: PeoplePart,
  clients: ClientsPart,
  keys: KeysPart,
  copy: CopyPart,
} as const;
type Part = keyof typeof PARTS;
const FOR_ALL: readonly Part[] = ['mine'];

/** What holds for one person here, and, for the owner, for the whole studio. */
export function StudioPage() {
  const { say } = useWords();
  const session = useSession();
  const { params } = useRoute();
  const open = may(session, 'owner') ? (Object.keys(PARTS) as Part[]) : FOR_ALL;
  const part = open.find((one) => one === params['part']) ?? 'mine';
  const Shown = PARTS[part];
  return (
    <>
      <h1>{say('studio.titleOf', { part: say(`studio.part.${part}`) })}</h1>
      {open.length > 1 && (
        <nav class="parts" aria-label={say('nav.studio')}>
          {open.map((one) => (
            <a key={one} href={`/studio/${one}`} aria-current={one === part ? 'page' : undefined}>
              {say(`studio.part.${one}`)}
            </a>
          ))}
        </nav>
      )}
      <Shown />
    </>
  );
}
