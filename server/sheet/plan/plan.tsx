// The room in plan, to scale, front wall at the top: walls, fixtures, what stands where, distances and angles.

import type { VNode } from 'preact';
import { useContext } from 'preact/hooks';
import type { FieldMap } from '../../../core/fieldFigures.ts';
import type { Setup } from '../../../core/setup.ts';
import type { Space } from '../../../schema/model/room.ts';
import { LiveContext } from '../live.ts';
import { placeOf } from '../source.tsx';
import type { View } from '../view.ts';
import { CandidateMarks } from './candidateMarks.tsx';
import { Dimension, ScaleBar } from './dimension.tsx';
import { FixtureMark } from './fixtures.tsx';
import { extentWith, type Frame, frameFor, pointsText, round } from './frame.ts';
import { Labels } from './labelMarks.tsx';
import { extentOf, type Wall, wallsOf } from './outline.ts';
import { planLabels } from './planLabels.ts';
import type { PlanProps } from './planProps.ts';
import { PressureMap } from './pressureMap.tsx';
import { edgeBoxes, wallBoxes } from './takenBoxes.ts';
import { ThingMark } from './thingMark.tsx';
import { type Thing, thingsOf } from './things.ts';
import { arcBoxes, WantedArcs } from './wantedArcs.tsx';

const PAPER_WIDTH = 440;
const HEIGHT_LIMIT = 580;
const MARGINS = { left: 34, right: 14, top: 38, bottom: 32 };

/** Higher than this above the ears of the reference seat, a loudspeaker belongs to another layer and is drawn dashed. */
const RAISED_M = 0.4;

export function Plan({ setup, show, shape, map = null }: PlanProps): VNode {
  const { live, planWidth_px } = useContext(LiveContext);
  const width = Math.min(planWidth_px ?? PAPER_WIDTH, 520);
  const walls = wallsOf(shape);
  const things = thingsOf(setup);
  const extent = extentWith(
    extentOf(shape),
    things.map(({ at }) => [at.x_m, at.y_m]),
  );
  const frame = frameFor(extent, width, HEIGHT_LIMIT, MARGINS);
  const seat = things.find(({ kind, isReference }) => kind === 'seat' && isReference);
  const labels = planLabels({
    setup,
    show,
    frame,
    things,
    taken: [
      ...edgeBoxes(frame),
      ...wallBoxes(walls, frame),
      ...(seat === undefined ? [] : arcBoxes(setup, seat, frame)),
    ],
  });
  return (
    <svg
      class="drawing plan"
      viewBox={`0 0 ${round(frame.width)} ${round(frame.height)}`}
      width={round(frame.width)}
      height={round(frame.height)}
      role={live ? 'group' : 'img'}
      aria-label={planDescription(setup)}
      data-scale={round(frame.scale)}
    >
      <Walls walls={walls} frame={frame} map={map} />
      {setup.room.space.fixtures.map((fixture) => (
        <FixtureMark key={fixture.id} fixture={fixture} frame={frame} walls={walls} />
      ))}
      {seat === undefined ? null : <Sights seat={seat} things={things} frame={frame} />}
      {seat === undefined ? null : <WantedArcs setup={setup} seat={seat} frame={frame} />}
      <OuterDimensions frame={frame} show={show} shape={shape} />
      {things.map((thing) => (
        <ThingMark
          key={`${thing.kind}-${thing.id}`}
          thing={thing}
          frame={frame}
          label={thingDescription(thing, { setup, show })}
          raised={seat !== undefined && RAISED_M < thing.at.z_m - seat.at.z_m}
        />
      ))}
      <CandidateMarks setup={setup} frame={frame} show={show} />
      <Labels labels={labels} />
      <ScaleBar frame={frame} habits={setup.room.habits} show={show} />
    </svg>
  );
}

/** Dashed lines from the reference seat to everything that sounds. */
function Sights({
  seat,
  things,
  frame,
}: {
  readonly seat: Thing;
  readonly things: readonly Thing[];
  readonly frame: Frame;
}): VNode {
  const from = frame.toDrawing(seat.at.x_m, seat.at.y_m);
  return (
    <g class="sights">
      {things
        .filter(({ kind }) => kind !== 'seat')
        .map((thing) => {
          const to = frame.toDrawing(thing.at.x_m, thing.at.y_m);
          return (
            <line
              key={thing.id}
              class={`sight sight-${thing.kind}`}
              x1={round(from.x)}
              y1={round(from.y)}
              x2={round(to.x)}
              y2={round(to.y)}
            />
          );
        })}
    </g>
  );
}

/** A line each metre from the origin, very faint, over the floor alone. */
function MetreGrid({ frame }: { readonly frame: Frame }): VNode {
  const origin = frame.toDrawing(0, 0);
  const scale = round(frame.scale);
  return (
    <pattern
      id="metres"
      x={round(origin.x)}
      y={round(origin.y)}
      width={scale}
      height={scale}
      patternUnits="userSpaceOnUse"
    >
      <path class="metre-grid" d={`M0 0 H${scale} M0 0 V${scale}`} />
    </pattern>
  );
}

function Walls({
  walls,
  frame,
  map,
}: {
  readonly walls: readonly Wall[];
  readonly frame: Frame;
  readonly map: FieldMap | null;
}): VNode {
  const corners = walls.map(({ from: [x_m, y_m] }) => frame.toDrawing(x_m, y_m));
  return (
    <g class="walls">
      <defs>
        <MetreGrid frame={frame} />
      </defs>
      <polygon class="floor" points={pointsText(corners)} />
      {map === null ? (
        <polygon class="metres" points={pointsText(corners)} />
      ) : (
        <PressureMap map={map} frame={frame} />
      )}
      {walls.map(({ name, from, to, path }) => {
        const start = frame.toDrawing(...from);
        const end = frame.toDrawing(...to);
        return (
          <path
            key={name}
            class="wall"
            d={`M${round(start.x)} ${round(start.y)} L${round(end.x)} ${round(end.y)}`}
            {...placeOf(path)}
          >
            <title>{name}</title>
          </path>
        );
      })}
    </g>
  );
}

function OuterDimensions({
  frame,
  show,
  shape,
}: {
  readonly frame: Frame;
  readonly show: View['show'];
  readonly shape: NonNullable<Space['shape']>;
}): VNode {
  const { left_m, right_m, top_m, bottom_m } = extentOf(shape);
  const start = frame.toDrawing(left_m, top_m);
  const end = frame.toDrawing(right_m, bottom_m);
  const path = (key: string): readonly string[] | null =>
    shape.kind === 'box' ? ['space', 'size', key] : ['space', 'plan'];
  return (
    <>
      <text class="wall-name" x={round((start.x + end.x) / 2)} y="11" text-anchor="middle">
        front
      </text>
      <Dimension
        from={start.x}
        to={end.x}
        at={round(start.y - 14)}
        direction="across"
        text={show.length(right_m - left_m)}
        path={path('width')}
      />
      <Dimension
        from={start.y}
        to={end.y}
        at={round(start.x - 18)}
        direction="down"
        text={show.length(bottom_m - top_m)}
        path={path('depth')}
      />
    </>
  );
}

function planDescription(setup: Setup): string {
  const { seats, speakers, subwoofers } = setup.room;
  const name = setup.room.name === null ? 'The room' : setup.room.name;
  return `${name} in plan: ${seats.length} seats, ${speakers.length} main loudspeakers, ${subwoofers.length} subwoofers. The table below gives every position.`;
}

function thingDescription(thing: Thing, { setup, show }: View): string {
  const { x_m, y_m, z_m } = thing.at;
  const from = setup.seats
    .find(({ id }) => id === setup.referenceSeat)
    ?.arrivals.find(({ source }) => source === thing.id);
  const distance =
    from === undefined || thing.kind === 'seat'
      ? ''
      : `, ${show.length(from.distance_m)} from the reference seat`;
  return `${thing.kind} ${thing.id}: ${show.length(x_m)} from the left, ${show.length(y_m)} from the front, ${show.length(z_m)} high${distance}`;
}
