import type { Design } from '../../../../shared/design/design.ts';
import { boxLid, earring, grainRing, pendant } from '../../../../shared/design/examples.ts';
import { Button } from '../../ui/button.tsx';
import { useWords } from '../../words/words.ts';
import { useDesign } from './design-context.ts';
import type { Draft } from './draft.ts';

const EXAMPLES = { pendant, grainRing, earring, boxLid };

/** Pieces drawn already, to begin from; what was drawn here is one step back. */
export function Examples() {
  const { say, named } = useWords();
  const { draft, edit, solders } = useDesign();
  const known = new Set(solders.map(({ code }) => code));
  return (
    <details class="card" open={draft.parts.length === 0}>
      <summary>{say('design.begin')}</summary>
      <div class="row">
        {Object.entries(EXAMPLES).map(([name, design]) => (
          <Button key={name} onClick={() => edit(() => asDraft(design, known))}>
            {named('design.example', name)}
          </Button>
        ))}
      </div>
      <p class="soft">{say('design.begin.hint')}</p>
    </details>
  );
}

/** Without solders that this studio has not got. */
function asDraft(design: Design, known: ReadonlySet<string>): Draft {
  const joints = design.joints.map(({ solder, ...joint }) =>
    solder !== undefined && known.has(solder) ? { ...joint, solder } : joint,
  );
  return { ...design, joints, entered: {} } as Draft;
}
