import { useState } from 'preact/hooks';
import { api, bodyOf } from '../../api/client.ts';
import type { HeatNow } from '../../offline/heat-as-done.ts';
import type { Note, StepQueue } from '../../offline/step-queue.ts';
import { useKeptList } from '../../offline/use-kept-list.ts';
import { useSession } from '../../session/session.ts';
import { showQuantity } from '../../units/shown-units.ts';
import { Button } from '../../ui/button.tsx';
import { Field, Select } from '../../ui/field.tsx';
import { QuantityField } from '../../ui/quantity-field.tsx';
import { useWords } from '../../words/words.ts';
import { lotWords } from './heat-in-words.ts';

interface Lot {
  id: string;
  number: string;
  markOnMetal: string | null;
  name: string;
  onHandG: number;
}

/** A lot is laid on the scale, and the book follows it: at once, or when it hears of it, as of when it was weighed. */
export function WeighLot({ heat, queue }: { heat: HeatNow | null; queue: StepQueue }) {
  const words = useWords();
  const { units } = useSession();
  const { say } = words;
  const [chosen, setChosen] = useState<string>();
  const [weighedG, setWeighed] = useState<number>();
  const [reason, setReason] = useState(() => say('bench.weighReasonUsual'));
  const [noted, setNoted] = useState<Note['step']>();
  const open = useKeptList('bench-lots', openLots);
  const lots = lotsToWeigh(heat, open);
  const lot = lots.find(({ id }) => id === chosen) ?? lots[0];
  const told = noted && queue.notes().find(({ step }) => step.key === noted.key);
  if (lot === undefined) return null;
  return (
    <details class="card">
      <summary>{say('bench.weigh')}</summary>
      <Select
        label={say('bench.lots')}
        value={lot.id}
        onValue={setChosen}
        choices={lots.map((one) => ({
          value: one.id,
          label: `${one.name}, ${lotWords(one, words)}: ${showQuantity(words, units, 'mass', one.onHandG)}`,
        }))}
      />
      <QuantityField key={noted?.key} label={say('bench.weighed')} quantity="mass" value={weighedG} onValue={setWeighed} />
      <Field label={say('bench.weighReason')} value={reason} maxLength={200} onValue={setReason} />
      {told?.problem === null && (
        <p role="status">
          {say(told.answeredAtMs === null ? 'bench.weighKept' : 'bench.weighDone', {
            mass: showQuantity(words, units, 'mass', Number(told.step['weighedG'])),
          })}
        </p>
      )}
      <Button
        disabled={weighedG === undefined || reason.trim().length < 3}
        onClick={() => {
          setNoted(queue.note(lot.number, { do: 'weigh_lot', lotId: lot.id, weighedG, reason: reason.trim() }));
          setWeighed(undefined);
        }}
      >
        {say('bench.weighGo')}
      </Button>
    </details>
  );
}

/** First those of the heat, then whatever else lies open. */
function lotsToWeigh(heat: HeatNow | null, open: readonly Lot[]): Lot[] {
  const ofHeat = (heat?.lots ?? []).map((lot): Lot => ({ ...lot, name: heat!.product?.name ?? '' }));
  const known = new Set(ofHeat.map(({ id }) => id));
  return [...ofHeat, ...open.filter(({ id }) => !known.has(id))];
}

async function openLots(): Promise<Lot[]> {
  const lots = await Promise.all(
    (['open', 'sealed'] as const).map((state) =>
      bodyOf(api.GET('/api/v1/solder-lots', { params: { query: { state, limit: 200 } } })),
    ),
  );
  return lots
    .flatMap(({ items }) => items)
    .map(({ id, number, markOnMetal, productName, onHandG }) => ({ id, number, markOnMetal, name: productName, onHandG }));
}
