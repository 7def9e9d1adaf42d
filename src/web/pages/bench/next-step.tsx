import { useEffect, useState } from 'preact/hooks';
import type { HeatNow } from '../../offline/heat-as-done.ts';
import type { StepGiven } from '../../offline/step-queue.ts';
import { useSession } from '../../session/session.ts';
import { showQuantity } from '../../units/shown-units.ts';
import { Button } from '../../ui/button.tsx';
import { Field } from '../../ui/field.tsx';
import { useWords } from '../../words/words.ts';
import { ChooseBath } from './choose-bath.tsx';
import { asksOf, mainStep, moveHeat, nextOf, type Ask } from './heat-asks.ts';
import { blockedWords, lotWords } from './heat-in-words.ts';
import { MainButton } from './main-button.tsx';
import { useBath } from './use-bath.ts';

interface Props {
  heat: HeatNow;
  note: (given: StepGiven) => void;
}

/** One big button that does what comes next; before a step it goes through what has to be seen to, one press each. */
export function NextStep({ heat, note }: Props) {
  const words = useWords();
  const { units } = useSession();
  const { say } = words;
  const [ticked, setTicked] = useState<ReadonlySet<string>>(new Set());
  const [chosenLot, setLot] = useState<string>();
  const [tests, setTests] = useState('');
  const { baths, bath, choose } = useBath();
  const blocked = blockedWords(heat, words, units);
  const isBlocked = blocked.length > 0 && (heat.state === 'laid_out' || heat.state === 'primed');
  const lots = heat.state === 'laid_out' ? heat.lots : [];
  const lotId = (lots.find(({ id }) => id === chosenLot) ?? lots.find(({ isEnough }) => isEnough) ?? lots[0])?.id;
  const asks = asksOf(heat, lotId, words);
  const next = nextOf(heat);
  const open = asks.find(({ id }) => !ticked.has(id));
  const needsTests = heat.state === 'laid_out' && heat.danger.unknownSolder.length > 0 && tests.trim().length < 3;
  const tick = (id: string) =>
    setTicked((before) => (before.has(id) ? new Set([...before].filter((one) => one !== id)) : new Set([...before, id])));
  if (next === undefined) return null;
  if (isBlocked) return <Blocked reasons={blocked} />;
  if (heat.state === 'alight') return <Alight heat={heat} note={note} />;
  const press = () => {
    if (open) tick(open.id);
    else note(mainStep(heat, next, { ticked, lotId, tests: tests.trim(), bathId: bath?.id }, ''));
  };
  return (
    <section class="bench-next" aria-labelledby="bench-next">
      <h2 id="bench-next" class="bench-says">
        {open ? open.words : say(`bench.says.${next}`)}
      </h2>
      <MainButton disabled={needsTests && (open === undefined || open.id === 'clientsYes')} onPress={press}>
        {open ? say('bench.do.ask') : say(`bench.do.${next}`)}
      </MainButton>
      {needsTests && <Field label={say('bench.tests')} value={tests} maxLength={400} onValue={setTests} />}
      {lots.length > 1 && (
        <fieldset>
          <legend>{say('bench.lots')}</legend>
          <div class="bench-choices">
            {lots.map((lot) => (
              <Button key={lot.id} aria-pressed={lot.id === lotId} onClick={() => setLot(lot.id)}>
                {lotWords(lot, words)}
                {!lot.isEnough && `, ${say('bench.lotShort', { onHand: showQuantity(words, units, 'mass', lot.onHandG) })}`}
              </Button>
            ))}
          </div>
        </fieldset>
      )}
      {next === 'in_pickle' && <ChooseBath {...{ baths, bath, choose }} />}
      {asks.length > 0 && <Ticks asks={asks} ticked={ticked} tick={tick} />}
      <div class="bench-sparse">
        <Others heat={heat} note={note} />
      </div>
    </section>
  );
}

function Blocked({ reasons }: { reasons: readonly string[] }) {
  const { say } = useWords();
  return (
    <section class="notice notice-problem bench-blocked" aria-labelledby="bench-blocked">
      <h2 id="bench-blocked">{say('bench.blocked')}</h2>
      {reasons.map((reason) => (
        <p key={reason}>{reason}</p>
      ))}
    </section>
  );
}

function Ticks({ asks, ticked, tick }: { asks: readonly Ask[]; ticked: ReadonlySet<string>; tick: (id: string) => void }) {
  const { say } = useWords();
  return (
    <details>
      <summary>
        {say('bench.ticks')}: {asks.filter(({ id }) => ticked.has(id)).length}/{asks.length}
      </summary>
      <div class="bench-choices">
        {asks.map(({ id, words }) => (
          <Button key={id} aria-pressed={ticked.has(id)} onClick={() => tick(id)}>
            {ticked.has(id) ? '✓ ' : ''}
            {words}
          </Button>
        ))}
      </div>
    </details>
  );
}

/** The other ways on, which are seldom taken. */
function Others({ heat, note }: Props) {
  const { say } = useWords();
  if (heat.state === 'primed')
    return <Button onClick={() => note(moveHeat(heat, 'laid_out'))}>{say('bench.other.unprimed')}</Button>;
  if (heat.state === 'cooling')
    return <Button onClick={() => note(moveHeat(heat, 'looking'))}>{say('bench.other.noPickle')}</Button>;
  return null;
}

const SAW = ['flowed', 'part', 'balled', 'hot'] as const;

/** One tap when the flux clears, one when it flows, one for flame off. */
function Alight({ heat, note }: Props) {
  const { say } = useWords();
  const seconds = useSecondsSince(heat.alightAt);
  const see = (saw: 'flux_clear' | 'flow') => note({ do: 'see_in_heat', heatId: heat.id, saw });
  const off = (saw: (typeof SAW)[number] | 'annealed') => note(moveHeat(heat, 'cooling', { seen: say(`bench.saw.${saw}`) }));
  const isClear = heat.observed?.secondsToFluxClear !== undefined;
  const hasFlowed = heat.observed?.secondsToFlow !== undefined;
  const anneals = heat.purpose === 'anneal';
  const stage = hasFlowed || anneals ? 'off' : isClear ? 'flow' : 'fluxClear';
  return (
    <section class="bench-next" aria-labelledby="bench-next">
      <h2 id="bench-next" class="bench-says">
        {stage === 'off' ? say('bench.says.cooling') : say(`bench.ask.${stage}`)}
      </h2>
      <p class="bench-seconds figure">{say('bench.seconds', { seconds })}</p>
      <MainButton
        onPress={() => (stage === 'off' ? off(anneals ? 'annealed' : 'flowed') : see(stage === 'flow' ? 'flow' : 'flux_clear'))}
      >
        {stage === 'off' ? say('bench.do.cooling') : say(`bench.do.${stage}`)}
      </MainButton>
      <fieldset>
        <legend>{say('bench.other.offSaw')}</legend>
        <div class="bench-choices">
          {SAW.map((saw) => (
            <Button key={saw} onClick={() => off(saw)}>
              {say(`bench.saw.${saw}`)}
            </Button>
          ))}
        </div>
      </fieldset>
      <div class="bench-sparse">
        {stage === 'fluxClear' && <Button onClick={() => see('flow')}>{say('bench.do.flow')}</Button>}
        <Button onClick={() => note(moveHeat(heat, 'primed', { nothingFlowed: true }))}>{say('bench.other.falseStart')}</Button>
      </div>
    </section>
  );
}

function useSecondsSince(at: string | null): number {
  const [now, setNow] = useState(() => Date.now());
  useEffect(() => {
    const timer = setInterval(() => setNow(Date.now()), 1000);
    return () => clearInterval(timer);
  }, []);
  return at === null ? 0 : Math.max(0, (now - Date.parse(at)) / 1000);
}
