import { useEffect, useMemo, useRef, useState } from 'preact/hooks';
import type { Part } from '../../../../shared/design/design.ts';
import { boundsOf, type Bounds, type Point, type Stroke } from '../../../../shared/drawing/geometry.ts';
import { layOutParts } from '../../../../shared/drawing/lay-out-parts.ts';
import { partUnder } from '../../../../shared/drawing/part-under.ts';
import { placeAt, showsPlaces } from '../../../../shared/drawing/place-at.ts';
import { Button } from '../../ui/button.tsx';
import { useWords } from '../../words/words.ts';
import { useDesign, type Picking } from './design-context.ts';
import { withPlace } from './design-edits.ts';
import type { Draft } from './draft.ts';
import { layOutDraft } from './drawable.ts';
import { useZoomedPane, ZoomButtons, zoomByKey } from './zoom.tsx';

/** A finger covers about this much; what is nearer to a middle, an end or a rim is meant to be on it. */
const NEAR_PX = 10;
const EXTENT = 500;

/** The piece to scale; while a place is asked for, a part of it is tapped and then the place on it. */
export function DrawingBoard() {
  const { say } = useWords();
  const { draft, edit, picking, pick, opened } = useDesign();
  const drawn = useMemo(() => layOutDraft(draft), [draft.parts, draft.joints, draft.contacts]);
  const [chosen, choose] = useState<string>();
  const board = useRef<HTMLElement>(null);
  const drawing = useRef<SVGSVGElement>(null);
  const picked = picking && pickedIn(draft, picking);
  const [zoom, setZoom] = useState(1);
  const pane = useZoomedPane(zoom);
  const [cross, setCross] = useState<{ x: number; y: number }>();
  useEffect(() => {
    const now = picking && picked?.between?.[picking.side]?.part;
    setCross(undefined);
    choose(drawn?.parts.find(({ part }) => part.id === now)?.part.id);
    if (!picking) return;
    board.current?.scrollIntoView({ block: 'nearest' });
    drawing.current?.focus({ preventScroll: true });
  }, [picking]);
  if (!drawn)
    return (
      <section class="card" aria-label={say('design.drawing')}>
        <p class="soft">{say('design.drawing.none')}</p>
      </section>
    );
  const inWhole = picking && drawn.parts.find(({ part }) => part.id === chosen);
  // What stands on end or on edge is laid flat, so that every place on it can be tapped.
  const flat = inWhole && !showsPlaces(inWhole.part.form, inWhole.view) ? alone(inWhole.part) : undefined;
  const parts = flat ?? drawn.parts;
  const shown = flat?.[0] ?? inWhole;
  const bounds = boundsOf((shown ? [shown] : parts).flatMap(({ strokes }) => strokes));
  /** What lies at a spot of the drawing is meant: first a part, then the place on it. */
  const take = ({ x, y }: { x: number; y: number }, svg: SVGSVGElement) => {
    const matrix = svg.getScreenCTM();
    if (!picking || !picked || !matrix) return;
    const scale = scaleOf(bounds);
    const spot = { xMm: x / scale, yMm: -y / scale };
    const nearMm = NEAR_PX / matrix.a / scale;
    setCross(undefined);
    if (!shown) return choose(partUnder(parts, spot, nearMm)?.part.id);
    const place = placeAt(shown, spot, { kind: picked.kind, snapMm: nearMm });
    edit((before) => withPlace(before, picking, place));
    pick(undefined);
  };
  const tap = (event: MouseEvent & { currentTarget: SVGSVGElement }) => {
    const matrix = event.currentTarget.getScreenCTM();
    if (matrix) take(new DOMPoint(event.clientX, event.clientY).matrixTransform(matrix.inverse()), event.currentTarget);
  };
  const press = (event: KeyboardEvent & { currentTarget: SVGSVGElement }) => {
    if (!picking) return;
    const { x, y, width, height } = boxOf(bounds);
    const now = cross ?? { x: x + width / 2, y: y + height / 2 };
    const step = event.shiftKey ? 2 : 12;
    const by = { ArrowLeft: [-step, 0], ArrowRight: [step, 0], ArrowUp: [0, -step], ArrowDown: [0, step] }[event.key];
    if (by) setCross({ x: now.x + by[0]!, y: now.y + by[1]! });
    else if (event.key === 'Enter' || event.key === ' ') take(now, event.currentTarget);
    else if (event.key === 'Escape') pick(undefined);
    else return;
    event.preventDefault();
  };
  const undrawn = draft.parts.length - drawn.parts.length;
  const joints = flat ? [] : drawn.joints.map(({ at }, index) => ({ at, number: drawn.indexes[index]! + 1 }));
  return (
    <section class="card design-drawing" aria-labelledby="drawing" ref={board}>
      <h2 id="drawing">{say('design.drawing')}</h2>
      {picking && picked && (
        <div class="notice" role="status">
          <p>
            {shown
              ? say('design.pick.place', { joint: picked.of, part: shown.part.name ?? shown.part.id })
              : say('design.pick.part', { joint: picked.of })}
          </p>
          <p class="soft">{say('design.pick.keys')}</p>
          <div class="row">
            {shown && <Button onClick={() => choose(undefined)}>{say('design.pick.other')}</Button>}
            <Button onClick={() => pick(undefined)}>{say('design.pick.stop')}</Button>
          </div>
        </div>
      )}
      <ZoomButtons zoom={zoom} setZoom={setZoom} />
      <p class="soft" id="zoom-keys">
        {say('design.zoom.keys')}
      </p>
      <div
        class="design-pane"
        ref={pane}
        tabIndex={picking ? undefined : 0}
        role="group"
        aria-label={say(zoom > 1 ? 'design.zoom.pane' : 'design.zoom.paneWhole')}
        aria-describedby="zoom-keys"
        onKeyDown={(event) => zoomByKey(event, { zoom, setZoom })}
      >
        <svg
          style={{ '--zoom': String(zoom) }}
          viewBox={viewBoxOf(bounds)}
          role={picking ? 'application' : 'img'}
          // Names of attributes are taken as they are written within SVG.
          tabindex={picking ? 0 : undefined}
          ref={drawing}
          onKeyDown={press}
          aria-label={say('design.drawing.desc', { parts: drawn.parts.length, joints: drawn.joints.length })}
          data-picking={picking ? true : undefined}
          onClick={tap}
          fill="none"
          stroke="currentColor"
          stroke-width="1.6"
          stroke-linejoin="round"
        >
          {/* So that a tap beside the lines is a tap on the drawing. */}
          <rect {...boxOf(bounds)} stroke="none" fill="transparent" />
          {parts.map(({ part, strokes }) => (
            <g key={part.id} class={shown ? (part.id === shown.part.id ? 'design-picked' : 'design-faint') : undefined}>
              {strokes.map((stroke, index) => (
                <Line key={index} stroke={stroke} scale={scaleOf(bounds)} />
              ))}
            </g>
          ))}
          {joints.map(({ at, number }) => (
            <Mark
              key={number}
              at={at}
              number={number}
              scale={scaleOf(bounds)}
              isOpen={opened !== undefined && draft.joints[number - 1]?.id === opened}
            />
          ))}
          <ScaleBar bounds={bounds} />
          {picking && cross && <Cross {...cross} />}
        </svg>
      </div>
      {undrawn > 0 && <p class="soft">{say('design.drawing.undrawn', { count: undrawn })}</p>}
    </section>
  );
}

/** What asks for a place: a joint by its name, a contact by what touches. */
function pickedIn({ joints, contacts }: Draft, { list, index }: Picking) {
  if (list === 'joints') {
    const joint = joints[index];
    return joint && { of: joint.id, kind: joint.kind, between: joint.between };
  }
  const contact = contacts?.[index];
  return contact && { of: contact.between.map(({ part }) => part || '…').join(' – '), ...contact };
}

function alone(part: Part) {
  return layOutParts({ parts: [part], joints: [] }).parts;
}

/** Units of the drawing for a millimetre. */
function scaleOf({ leftMm, rightMm, bottomMm, topMm }: Bounds): number {
  return EXTENT / Math.max(rightMm - leftMm, topMm - bottomMm);
}

function boxOf(bounds: Bounds): { x: number; y: number; width: number; height: number } {
  const scale = scaleOf(bounds);
  const margin = EXTENT * 0.08;
  return {
    x: bounds.leftMm * scale - margin,
    y: -bounds.topMm * scale - margin,
    width: (bounds.rightMm - bounds.leftMm) * scale + 2 * margin,
    height: (bounds.topMm - bounds.bottomMm) * scale + 2 * margin,
  };
}

function viewBoxOf(bounds: Bounds): string {
  const { x, y, width, height } = boxOf(bounds);
  return `${x} ${y} ${width} ${height}`;
}

function Line({ stroke, scale }: { stroke: Stroke; scale: number }) {
  const broken = stroke.broken ? '5 4' : undefined;
  if (stroke.kind === 'circle') {
    const { centre, radiusMm } = stroke;
    return <circle cx={centre.xMm * scale} cy={-centre.yMm * scale} r={radiusMm * scale} stroke-dasharray={broken} />;
  }
  const points = stroke.points.map(({ xMm, yMm }) => `${xMm * scale},${-yMm * scale}`).join(' ');
  return stroke.closed ? (
    <polygon points={points} stroke-dasharray={broken} />
  ) : (
    <polyline points={points} stroke-dasharray={broken} />
  );
}

/** Under the drawing, as long as a round number of millimetres, at most a third of it. */
function ScaleBar({ bounds }: { bounds: Bounds }) {
  const { number } = useWords();
  const scale = scaleOf(bounds);
  const mostMm = EXTENT / 3 / scale;
  const power = 10 ** Math.floor(Math.log10(mostMm));
  const lengthMm = Number((([5, 2].find((step) => step * power <= mostMm) ?? 1) * power).toPrecision(1));
  const { x, y, height } = boxOf(bounds);
  const [left, low] = [x + 8, y + height - 10];
  return (
    <g>
      <path d={`M${left} ${low - 5}v10m0 -5h${lengthMm * scale}m0 -5v10`} />
      <text x={left + lengthMm * scale + 8} y={low + 6} font-size="18" fill="currentColor" stroke="none">
        {number(lengthMm, lengthMm < 1 ? 1 : 0)} mm
      </text>
    </g>
  );
}

/** The number of a joint, beside the spot where it lies. */
function Mark({ at, number, scale, isOpen }: { at: Point; number: number; scale: number; isOpen: boolean }) {
  const [x, y] = [at.xMm * scale, -at.yMm * scale];
  return (
    <g fill="currentColor" stroke="none" class={isOpen ? 'design-opened' : undefined}>
      <circle cx={x} cy={y} r={isOpen ? 7 : 3.5} />
      <text x={x + 6} y={y - 6} font-size="22" font-weight="bold">
        {number}
      </text>
    </g>
  );
}

/** Where the keys have led to. */
function Cross({ x, y }: { x: number; y: number }) {
  return (
    <g class="design-picked design-cross" stroke-width="2.5">
      <circle cx={x} cy={y} r="10" />
      <path d={`M${x - 18} ${y}h36M${x} ${y - 18}v36`} />
    </g>
  );
}
