import type { ComponentChildren } from 'preact';
import { predictedState } from '../../../../shared/thermal/predicted-state.ts';
import type { HeatNow } from '../../offline/heat-as-done.ts';
import { useSession } from '../../session/session.ts';
import { useWords } from '../../words/words.ts';
import {
  amountWords,
  cautionWords,
  flameWords,
  fluxWords,
  lotWords,
  marginWords,
  peakWords,
  protectionWords,
} from './heat-in-words.ts';
import { HeatPictures } from './heat-pictures.tsx';

/** All there is to know of one heat at the fire. */
export function HeatFacts({ heat }: { heat: HeatNow }) {
  const words = useWords();
  const { units } = useSession();
  const { say } = words;
  const earlier = heat.expected?.earlierJoints ?? [];
  const peak = peakWords(heat, words);
  const lot = heat.lot ?? heat.lots[0];
  const seconds = heat.expected?.timeToFlowS;
  return (
    <>
      <section class="card" aria-label={say('bench.inFire')}>
        <dl class="bench-facts">
          <Fact name={say('bench.inFire')}>{heat.partsInFire.join(', ')}</Fact>
          {heat.product && (
            <Fact name={say('bench.solder')}>
              {heat.product.name}
              {lot && `, ${lotWords(lot, words)}`}
              {amountWords(heat, words).map((one) => (
                <div key={one}>{one}</div>
              ))}
            </Fact>
          )}
          <Fact name={say('bench.flux')}>{fluxWords(heat, words)}</Fact>
          <Fact name={say('bench.flame')}>{flameWords(heat, words)}</Fact>
          {heat.protections.length > 0 && (
            <Fact name={say('plan.level.protections')}>
              {heat.protections.map((one) => (
                <div key={JSON.stringify(one)}>{protectionWords(one, words)}</div>
              ))}
            </Fact>
          )}
          {peak !== undefined && (
            <Fact name={say('bench.peak')}>
              {peak}
              {typeof seconds === 'number' && <div>{say('bench.flowsAfter', { seconds: Math.round(seconds) })}</div>}
            </Fact>
          )}
          <Fact name={say('bench.cool')}>{say(`bench.cool.${heat.danger.quench}`)}</Fact>
        </dl>
      </section>
      {heat.guessFirst.length === 0 && (
        <section class="card" aria-labelledby="bench-earlier">
          <h2 id="bench-earlier">{say('bench.earlier')}</h2>
          {earlier.length === 0 && <p>{say('bench.earlierNone')}</p>}
          <ul class="bench-margins plain-list">
            {earlier.map((one) => (
              <li key={one.joint}>
                <strong>{one.joint}</strong>{' '}
                <span class={`word word-${predictedState(one)}`}>{say(`plan.joint.${predictedState(one)}`)}</span>
                <div>{marginWords(one, words, units)}</div>
              </li>
            ))}
          </ul>
          <HeatPictures heat={heat} />
        </section>
      )}
      <details class="card">
        <summary>{say('bench.cautions')}</summary>
        {heat.cautions.map((caution) => (
          <p key={caution.id}>{cautionWords(caution, words)}</p>
        ))}
        <p class="soft">{say('bench.deferral')}</p>
      </details>
    </>
  );
}

function Fact({ name, children }: { name: string; children: ComponentChildren }) {
  return (
    <div>
      <dt>{name}</dt>
      <dd>{children}</dd>
    </div>
  );
}
