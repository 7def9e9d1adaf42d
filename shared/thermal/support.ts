import type { Support } from '../design/plan.ts';

/**
 * What the work lies on. Charcoal takes next to nothing, since the flame heats it too.
 *
 * hEff (constant loss) was set against six layers: within 10 % in time for small work, poor near the power limit, where the two
 * layers take its place.
 */
export interface Block {
  conductivityWPerMmK: number;
  heatCapacityJPerMm3K: number;
  gapWPerMm2K: number;
  /** Share of the flame that strikes the block under a cell. */
  flameFraction: number;
  lossWPerMm2K: number;
}

/** k W/mK, ρc J/m³K, hGap W/m²K, flame, hEff W/m²K. */
function block(k: number, rhoC: number, gap: number, flameFraction: number, loss: number): Block {
  return {
    conductivityWPerMmK: k / 1e3,
    heatCapacityJPerMm3K: rhoC / 1e9,
    gapWPerMm2K: gap / 1e6,
    flameFraction,
    lossWPerMm2K: loss / 1e6,
  };
}

/**
 * Judged until times looked right to bench practice; not measured.
 *
 * @source conductivities: general refractory tables at 25 °C (insulating brick 0.15–0.25, charcoal 0.1–0.2, fireclay 1.0 W/mK)
 */
export const BLOCKS: Readonly<Record<Exclude<Support, 'air'>, Block>> = {
  brick: block(0.25, 600_000, 110, 0.4, 20),
  charcoal: block(0.1, 300_000, 110, 0.5, 0),
  hard_brick: block(1, 1_900_000, 130, 0.3, 65),
};

/** Depths of the two layers under a cell, and the metal-free depth behind them to the room. */
export const LAYER_MM = [1.5, 4.5] as const;
export const BACKING_MM = 6;
