import { Button } from '../../ui/button.tsx';
import { useWords } from '../../words/words.ts';
import type { Bath } from './use-bath.ts';

/** Which bath the heat goes into, where there are several; which it is, where there is one. */
export function ChooseBath({
  baths,
  bath,
  choose,
}: {
  baths: readonly Bath[];
  bath: Bath | undefined;
  choose: (id: string) => void;
}) {
  const { say, named } = useWords();
  const words = ({ number, acid, state }: Bath) =>
    say('bench.bath', { number, acid: named('bath.acid', acid), state: named('bath.state', state) });
  if (bath === undefined) return <p class="soft">{say('bench.bathNone')}</p>;
  if (baths.length === 1) return <p>{words(bath)}</p>;
  return (
    <fieldset>
      <legend>{say('bench.baths')}</legend>
      <div class="bench-choices">
        {baths.map((one) => (
          <Button key={one.id} aria-pressed={one.id === bath.id} onClick={() => choose(one.id)}>
            {one.id === bath.id ? '✓ ' : ''}
            {words(one)}
          </Button>
        ))}
      </div>
    </fieldset>
  );
}
