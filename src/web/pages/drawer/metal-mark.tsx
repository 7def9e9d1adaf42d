import { useSession } from '../../session/session.ts';
import { showQuantity } from '../../units/shown-units.ts';
import { useWords } from '../../words/words.ts';
import type { MetalLot } from './drawer-replies.ts';

/** How much of a lot of metal there is, whose it is and since when. */
export function MetalMark({ lot: { onHandG, lengthMm, owner, receivedOn, note } }: { lot: MetalLot }) {
  const words = useWords();
  const { say, date } = words;
  const { units } = useSession();
  return (
    <>
      <span class="figure">{showQuantity(words, units, 'mass', onHandG)}</span>
      {lengthMm !== null && (
        <span class="soft">{say('metal.length', { length: showQuantity(words, units, 'length', lengthMm, 0) })}</span>
      )}
      {owner === 'client' && <span class="word">{say('metal.clients')}</span>}
      <span class="soft">{date(receivedOn)}</span>
      {note !== null && <span class="soft">{note}</span>}
    </>
  );
}
