import { api, bodyOf } from '../../api/client.ts';
import { useSession } from '../../session/session.ts';
import { showQuantity } from '../../units/shown-units.ts';
import type { Done } from '../../ui/take-back.tsx';
import { useWords } from '../../words/words.ts';
import { takeSolderBack } from './take-movement-back.ts';
import { WeighForm, type Weighing } from './weigh-form.tsx';

/** What the scale says of a lot of solder, and what it tells of the solder that plans count on. */
export function LotWeighing({ id, reload }: { id: string; reload: () => void }) {
  const words = useWords();
  const { say, number } = words;
  const { units } = useSession();
  const mass = (grams: number) => showQuantity(words, units, 'mass', grams, 3);
  const weigh = async ({ body, headers }: Weighing): Promise<Done> => {
    const sent = { params: { path: { id } }, body, headers };
    const { lot, movement, sinceLastCount, trim } = await bodyOf(api.POST('/api/v1/solder-lots/{id}/weighings', sent));
    if (movement === null) return { id: `${lot.id} ${lot.version}`, says: say('lot.agrees') };
    const { differenceG, toleranceG } = sinceLastCount;
    const followed = say('lot.followed', { difference: mass(differenceG), tolerance: mass(toleranceG) });
    return {
      id: movement.id,
      says: trim ? `${followed} ${say('lot.trim', { ratio: number(trim.ratio, 2) })}` : followed,
      takeBack: (back) => takeSolderBack(movement.id, back),
    };
  };
  return <WeighForm weigh={weigh} after={reload} />;
}
