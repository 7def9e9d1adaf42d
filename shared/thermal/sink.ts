import type { SinkKind } from '../design/plan.ts';
import type { NetworkBuilder } from './thermal-network.ts';

/** Cross-lock tweezers: two steel jaws as one fin, sizes and properties rounded by judgement. Contact is assumed, without a source. */
const TWEEZERS = {
  contactWPerK: 0.03,
  conductivityWPerMmK: 0.02,
  heatCapacityJPerMm3K: 7900e-9 * 530,
  sectionMm2: 6,
  perimeterMm: 16,
  lossWPerMm2K: 35e-6,
  cellsMm: [2, 3, 5, 8, 14, 24],
};
/** 150 g at 0.38 J/gK, as copper or brass has it (steel holds a sixth more): like contact and loss, assumed without a source. */
const HEAVY_CLAMP = { contactWPerK: 0.15, capacityJPerK: 57, lossWPerK: 0.05 };
/**
 * A pad of wet cotton: 10 g of water and its contact, both assumed; the water takes its latent heat, 2257 J/g, as it boils away at 100 °C.
 *
 * @source latent heat: Incropera et al., Fundamentals of Heat and Mass Transfer, 7th ed., table A.6, 373.15 K
 */
const WET_PACK = { contactWPerK: 0.25, waterJ: 10 * 2257 };

/**
 * Puts a sink on a network, its contact shared over cells by weights that sum to 1.
 *
 * Tweezers are a fin of six cells, the tip insulated, the contact in series with half the first; a heavy clamp is one mass that loses
 * 0.05 W/K to the room; a wet pack takes 0.25 W/K above 100 °C while its 10 g of water last, and nothing after.
 *
 * At any moment of the same flame no cell is hotter for a sink. Up to flow it makes the heat longer, so that other joints may come out
 * hotter; the joint it sits on does not, if that is a single point 3 mm or more from the target and the heat still flows.
 */
export function addSink(builder: NetworkBuilder, kind: SinkKind, at: readonly { cell: number; weight: number }[]): void {
  switch (kind) {
    case 'tweezers': {
      const { conductivityWPerMmK, heatCapacityJPerMm3K, sectionMm2, perimeterMm, lossWPerMm2K, cellsMm, contactWPerK } =
        TWEEZERS;
      const cells = cellsMm.map((lengthMm) =>
        builder.addCell({
          capacityJPerK: heatCapacityJPerMm3K * sectionMm2 * lengthMm,
          fixedLossWPerK: lossWPerMm2K * perimeterMm * lengthMm,
        }),
      );
      const halfKPerW = (lengthMm: number) => lengthMm / 2 / (conductivityWPerMmK * sectionMm2);
      const intoWPerK = 1 / (1 / contactWPerK + halfKPerW(cellsMm[0]!));
      for (const { cell, weight } of at) builder.addConductance(cell, cells[0]!, intoWPerK * weight);
      for (let i = 0; i + 1 < cells.length; i++) {
        builder.addConductance(cells[i]!, cells[i + 1]!, 1 / (halfKPerW(cellsMm[i]!) + halfKPerW(cellsMm[i + 1]!)));
      }
      return;
    }
    case 'heavy_clamp': {
      const clamp = builder.addCell({ capacityJPerK: HEAVY_CLAMP.capacityJPerK, fixedLossWPerK: HEAVY_CLAMP.lossWPerK });
      for (const { cell, weight } of at) builder.addConductance(cell, clamp, HEAVY_CLAMP.contactWPerK * weight);
      return;
    }
    case 'wet_pack':
      builder.addWetPack({
        cells: Int32Array.from(at, ({ cell }) => cell),
        conductancesWPerK: Float64Array.from(at, ({ weight }) => WET_PACK.contactWPerK * weight),
        waterJ: WET_PACK.waterJ,
      });
  }
}
