/** A point of the drawing in mm: x to the right, y up. */
export interface Point {
  xMm: number;
  yMm: number;
}

/** A line or a closed outline, or a circle. Broken lines: behind something, or a shape that nobody gave. */
export type Stroke = { broken?: boolean } & (
  { kind: 'line'; points: readonly Point[]; closed: boolean } | { kind: 'circle'; centre: Point; radiusMm: number }
);

/** Where a part lies in the drawing: turned about its own origin, then shifted. */
export interface Pose extends Point {
  turnRad: number;
}

export interface Bounds {
  leftMm: number;
  rightMm: number;
  bottomMm: number;
  topMm: number;
}

export const ORIGIN: Point = { xMm: 0, yMm: 0 };

export function turned({ xMm, yMm }: Point, turnRad: number): Point {
  const [cos, sin] = [Math.cos(turnRad), Math.sin(turnRad)];
  return { xMm: xMm * cos - yMm * sin, yMm: xMm * sin + yMm * cos };
}

/** A point of a part, in the drawing. */
export function posed(point: Point, pose: Pose): Point {
  const { xMm, yMm } = turned(point, pose.turnRad);
  return { xMm: xMm + pose.xMm, yMm: yMm + pose.yMm };
}

export function posedStroke(stroke: Stroke, pose: Pose): Stroke {
  return stroke.kind === 'circle'
    ? { ...stroke, centre: posed(stroke.centre, pose) }
    : { ...stroke, points: stroke.points.map((point) => posed(point, pose)) };
}

/** The least rectangle round strokes and points; at least one of either. */
export function boundsOf(strokes: readonly Stroke[], points: readonly Point[] = []): Bounds {
  const corners = [
    ...points,
    ...strokes.flatMap((stroke) =>
      stroke.kind === 'line'
        ? stroke.points
        : [-1, 1].map((side) => ({
            xMm: stroke.centre.xMm + side * stroke.radiusMm,
            yMm: stroke.centre.yMm + side * stroke.radiusMm,
          })),
    ),
  ];
  const [xs, ys] = [corners.map(({ xMm }) => xMm), corners.map(({ yMm }) => yMm)];
  return { leftMm: Math.min(...xs), rightMm: Math.max(...xs), bottomMm: Math.min(...ys), topMm: Math.max(...ys) };
}

export function rectangle(widthMm: number, heightMm: number): Point[] {
  const [x, y] = [widthMm / 2, heightMm / 2];
  return [
    { xMm: -x, yMm: -y },
    { xMm: x, yMm: -y },
    { xMm: x, yMm: y },
    { xMm: -x, yMm: y },
  ];
}
