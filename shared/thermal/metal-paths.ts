import { cellCountOf } from './form-grid.ts';
import { distanceInPartMm, distanceToCellMm } from './grid-points.ts';
import type { FormGrid } from './form-grid.ts';
import type { ContactPoints, JointPoints, PartPoint } from './joint-points.ts';

const ACROSS_JOINT_MM = 0.2;

/** Distances along the metal from a set of points. */
export interface PathsFrom {
  /** To every cell, part by part in their order. */
  toCellsMm(): Float64Array;
  toMm(point: PartPoint): number;
}

export interface MetalPaths {
  from(sources: readonly PartPoint[]): PathsFrom;
}

/**
 * Shortest ways along the metal: within a part by its own geometry, from part to part through the points of its joints, 0.2 mm each
 * (Dijkstra over both sides of every joint). A loose contact is crossed like a joint.
 *
 * A seam that closes a ring adds no way: chords already run across it.
 */
export function createMetalPaths(
  grids: readonly FormGrid[],
  joints: readonly JointPoints[],
  contacts: readonly ContactPoints[],
): MetalPaths {
  const nodes: PartPoint[] = [];
  const partners: number[] = [];
  const crossings = joints.flatMap(({ pairs, closes }) => (closes === null ? pairs : []));
  for (const [a, b] of [...crossings, ...contacts.map(({ between }) => between)]) {
    partners.push(nodes.length + 1, nodes.length);
    nodes.push(a, b);
  }
  const byPart: number[][] = grids.map(() => []);
  nodes.forEach(({ part }, node) => byPart[part]!.push(node));
  const within = (a: PartPoint, b: PartPoint) => distanceInPartMm(grids[a.part]!, a.position, b.position);

  function fromSources(sources: readonly PartPoint[]): Float64Array {
    const distances = new Float64Array(nodes.length).fill(Infinity);
    const settled = new Uint8Array(nodes.length);
    for (const source of sources) {
      for (const node of byPart[source.part]!) distances[node] = Math.min(distances[node]!, within(source, nodes[node]!));
    }
    for (;;) {
      let nearest = -1;
      let least = Infinity;
      for (let i = 0; i < nodes.length; i++) {
        if (!settled[i] && distances[i]! < least) {
          least = distances[i]!;
          nearest = i;
        }
      }
      if (nearest < 0) return distances;
      settled[nearest] = 1;
      const partner = partners[nearest]!;
      distances[partner] = Math.min(distances[partner]!, least + ACROSS_JOINT_MM);
      for (const node of byPart[nodes[nearest]!.part]!) {
        if (!settled[node]) distances[node] = Math.min(distances[node]!, least + within(nodes[nearest]!, nodes[node]!));
      }
    }
  }

  return {
    from(sources) {
      const distances = fromSources(sources);
      const startsOn: (readonly [PartPoint, number])[][] = grids.map((_, part) => [
        ...sources.filter((source) => source.part === part).map((source) => [source, 0] as const),
        ...byPart[part]!.map((node) => [nodes[node]!, distances[node]!] as const),
      ]);
      return {
        toCellsMm() {
          const all = grids.map((grid, part) =>
            Float64Array.from({ length: cellCountOf(grid) }, (_, cell) => {
              let least = Infinity;
              for (const [start, before] of startsOn[part]!) {
                if (before < least) least = Math.min(least, before + distanceToCellMm(grid, start.position, cell));
              }
              return least;
            }),
          );
          const flat = new Float64Array(all.reduce((count, some) => count + some.length, 0));
          let at = 0;
          for (const some of all) {
            flat.set(some, at);
            at += some.length;
          }
          return flat;
        },
        toMm: (point) => Math.min(...startsOn[point.part]!.map(([start, before]) => before + within(start, point))),
      };
    },
  };
}
