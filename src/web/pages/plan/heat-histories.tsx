import { historyChart } from '../../../../shared/drawing/history-chart.ts';
import type { HeatHistory } from '../../../../shared/sequencing/plan-check-answer.ts';
import { useSession } from '../../session/session.ts';
import { showQuantity } from '../../units/shown-units.ts';
import { Picture } from '../../ui/picture.tsx';
import { useWords } from '../../words/words.ts';

/** How the target, the earlier joints and the parts warm and cool in a heat. */
export function HeatHistories({ histories, flowC }: { histories: readonly HeatHistory[]; flowC: number | null }) {
  const words = useWords();
  const { units } = useSession();
  const { say } = words;
  const lines = histories
    .filter(({ of }) => of !== 'part')
    .map(({ of, id, timesS, temperaturesC }) => ({
      name: of === 'target' ? `${id} (${say('plan.historyOf.target')})` : id,
      timesS,
      temperaturesC,
    }));
  const svg = historyChart({
    lines,
    flowC,
    words: {
      title: say('plan.histories'),
      description: lines.map(({ name }) => name).join(', '),
      seconds: say('plan.seconds'),
      temperature: (celsius) => showQuantity(words, units, 'temperature', celsius),
    },
  });
  return <Picture svg={svg} />;
}
