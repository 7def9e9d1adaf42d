import type { Design } from '../../shared/design/design.ts';
import type { ObservedHeat, ObservedStrip, ObservedTimes } from '../../shared/thermal/calibration/observation.ts';
import { chipGapS, heatTimes, type Factors } from '../../shared/thermal/calibration/predicted-times.ts';

type Timed = keyof ObservedTimes;

const RING: Design = {
  parts: [{ id: 'ring', metal: 'sterling-925', form: { kind: 'band', insideDiameterMm: 17, heightMm: 4, thicknessMm: 1.6 } }],
  joints: [{ id: 'seam', kind: 'seam', closes: 'ring', lengthMm: 4, thicknessMm: 1.6, gapMm: 0.05 }],
};

const DISC: Design = {
  parts: [
    { id: 'disc', metal: 'sterling-925', form: { kind: 'disc', diameterMm: 25, thicknessMm: 0.8 } },
    { id: 'pin', metal: 'sterling-925', form: { kind: 'round_wire', lengthMm: 10, diameterMm: 0.9 } },
  ],
  joints: [
    {
      id: 'pin-on',
      kind: 'post',
      between: [
        { part: 'disc', xMm: 0, yMm: 0 },
        { part: 'pin', alongMm: 0 },
      ],
      diameterMm: 0.9,
      gapMm: 0.05,
    },
  ],
};

const BARS: Design = {
  parts: [
    { id: 'long', metal: 'sterling-925', form: { kind: 'bar', lengthMm: 50, widthMm: 5, thicknessMm: 2 } },
    { id: 'short', metal: 'sterling-925', form: { kind: 'bar', lengthMm: 20, widthMm: 5, thicknessMm: 2 } },
  ],
  joints: [
    {
      id: 'cross',
      kind: 'tee',
      between: [
        { part: 'long', alongMm: 25 },
        { part: 'short', alongMm: 0 },
      ],
      lengthMm: 5,
      thicknessMm: 2,
      gapMm: 0.05,
    },
  ],
};

/** One heat each, with solders of the table. */
export const HEATS = {
  ring: { design: RING, plan: { heats: [{ joints: ['seam'], solder: 'hard' }] }, heat: 1 },
  disc: { design: DISC, plan: { heats: [{ joints: ['pin-on'], solder: 'easy' }] }, heat: 1 },
  bars: { design: BARS, plan: { heats: [{ joints: ['cross'], solder: 'medium' }] }, heat: 1 },
} as const satisfies Record<string, ObservedHeat>;

export const STRIP = { lengthMm: 40, widthMm: 6, thicknessMm: 1, liquidusC: 718 } as const;

/** Standard normal numbers from a seed (mulberry32, then Box and Muller). */
export function normals(seed: number): () => number {
  let state = seed;
  const uniform = () => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 2 ** 32;
  };
  return () => Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform());
}

/** What a medium torch whose truth is known would show: times that a noisy hand would note. */
export function makeObserved(
  truth: Factors,
  asked: readonly (readonly [keyof typeof HEATS, ...Timed[]])[],
  strips = 0,
): (normal: () => number) => { observations: ObservedHeat[]; strips: ObservedStrip[] } {
  const anyTimes = { secondsToFlow: 1, secondsToEndOfGlow: 1 };
  const exact = asked.map(([name]) => {
    const { fluxClearS, flowS, endOfGlowS } = heatTimes('medium', { ...HEATS[name], ...anyTimes })(truth);
    return { secondsToFluxClear: fluxClearS, secondsToFlow: flowS, secondsToEndOfGlow: endOfGlowS };
  });
  const gapS = strips > 0 ? chipGapS('medium', { ...STRIP, secondsBetweenChips: 1 })(truth) : 0;
  return (normal) => ({
    observations: asked.map(([name, ...timed], i) => ({
      ...HEATS[name],
      ...Object.fromEntries(
        timed.map((time) => [time, exact[i]![time] * Math.exp((time === 'secondsToEndOfGlow' ? 0.15 : 0.12) * normal())]),
      ),
    })),
    strips: Array.from({ length: strips }, () => ({ ...STRIP, secondsBetweenChips: gapS * Math.exp(0.2 * normal()) })),
  });
}
