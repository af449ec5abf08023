// The room from the side, front wall at the left, to scale: heights of ears, loudspeakers and ceiling.

import type { VNode } from 'preact';
import { useContext } from 'preact/hooks';
import type { Space } from '../../../schema/model/room.ts';
import { LiveContext } from '../live.ts';
import { placeOf } from '../source.tsx';
import type { View } from '../view.ts';
import { Dimension, ScaleBar } from './dimension.tsx';
import { extentWith, type Frame, frameFor, pointsText, round, type XY } from './frame.ts';
import { Labels } from './labelMarks.tsx';
import { type Box, placeLabels } from './labels.ts';
import { ceilingFromSide, extentOf } from './outline.ts';
import { nameWishes } from './planLabels.ts';
import { type Thing, thingsOf } from './things.ts';

const PAPER_WIDTH = 360;
/** What is built into a wall shows little more than its front. */
const FLUSH_DEPTH = 7;
const MARGINS = { left: 34, right: 14, top: 12, bottom: 44 };

export function SideView({
  setup,
  show,
  shape,
}: View & { readonly shape: NonNullable<Space['shape']> }): VNode | null {
  const { sideWidth_px } = useContext(LiveContext);
  const ceiling = ceilingFromSide(shape);
  if (ceiling === null) return null;
  const { top_m: front_m, bottom_m: back_m } = extentOf(shape);
  const height_m = Math.max(ceiling.front_m, ceiling.back_m);
  const things = thingsOf(setup);
  const extent = extentWith(
    { left_m: front_m, right_m: back_m, top_m: -height_m, bottom_m: 0 },
    things.map(({ at }) => [at.y_m, -at.z_m]),
  );
  const frame = frameFor(extent, Math.min(sideWidth_px ?? PAPER_WIDTH, 460), 320, MARGINS);
  const outline = [
    frame.toDrawing(front_m, 0),
    frame.toDrawing(front_m, -ceiling.front_m),
    frame.toDrawing(back_m, -ceiling.back_m),
    frame.toDrawing(back_m, 0),
  ];
  return (
    <svg
      class="drawing side"
      viewBox={`0 0 ${round(frame.width)} ${round(frame.height)}`}
      width={round(frame.width)}
      height={round(frame.height)}
      role="img"
      aria-label="The room from the side, front wall at the left. The table below gives every height."
    >
      <polygon class="floor" points={pointsText(outline)} />
      <polygon class="wall" points={pointsText(outline)} />
      <EarLine things={things} frame={frame} />
      {things.map((thing) => (
        <SideMark key={`${thing.kind}-${thing.id}`} thing={thing} frame={frame} />
      ))}
      <Labels labels={sideLabels(things, frame)} />
      <Dimension
        from={frame.toDrawing(0, -ceiling.front_m).y}
        to={frame.toDrawing(0, 0).y}
        at={round(frame.toDrawing(front_m, 0).x - 18)}
        direction="down"
        text={show.length(ceiling.front_m)}
        path={shape.kind === 'box' ? ['space', 'size', 'height'] : ['space', 'ceiling']}
      />
      <ScaleBar frame={frame} habits={setup.room.habits} show={show} />
    </svg>
  );
}

/** Ear height of the reference seat through the whole room. */
function EarLine({
  things,
  frame,
}: {
  readonly things: readonly Thing[];
  readonly frame: Frame;
}): VNode | null {
  const seat = things.find(({ kind, isReference }) => kind === 'seat' && isReference);
  if (seat === undefined) return null;
  const from = frame.toDrawing(frame.extent.left_m, -seat.at.z_m);
  const to = frame.toDrawing(frame.extent.right_m, -seat.at.z_m);
  return <path class="ear-line" d={`M${round(from.x)} ${round(from.y)} H${round(to.x)}`} />;
}

function SideMark({ thing, frame }: { readonly thing: Thing; readonly frame: Frame }): VNode {
  const { centre, width, height } = sideBox(thing, frame);
  const at = frame.toDrawing(thing.at.y_m, -thing.at.z_m);
  return (
    <g
      class={`thing thing-${thing.kind}${thing.size.known ? '' : ' thing-guessed'}`}
      {...placeOf(thing.path)}
    >
      <title>{thing.id}</title>
      {thing.kind === 'seat' ? (
        <>
          <circle class="body" cx={round(at.x)} cy={round(at.y)} r="7.5" />
          <path class="nose" d={`M${round(at.x - 7)} ${round(at.y - 4)} l-5 4 l5 4`} />
        </>
      ) : (
        <>
          <rect
            class="body"
            x={round(centre.x - width / 2)}
            y={round(centre.y - height / 2)}
            width={round(width)}
            height={round(height)}
          />
          <circle class="centre" cx={round(at.x)} cy={round(at.y)} r="2" />
        </>
      )}
    </g>
  );
}

function sideBox(
  thing: Thing,
  frame: Frame,
): { readonly centre: XY; readonly width: number; readonly height: number } {
  const at = frame.toDrawing(thing.at.y_m, -thing.at.z_m);
  const width = thing.isFlush ? FLUSH_DEPTH : Math.max(thing.size.depth_m * frame.scale, 10);
  const height = Math.max(thing.size.height_m * frame.scale, 10);
  // A loudspeaker's acoustic centre is at its front, a subwoofer's driver somewhere in its middle.
  const back = thing.kind === 'speaker' ? (thing.facing[1] < 0 ? 1 : -1) : 0;
  return { centre: { x: at.x + (back * width) / 2, y: at.y }, width, height };
}

function sideLabels(things: readonly Thing[], frame: Frame): ReturnType<typeof placeLabels> {
  const boxes: readonly Box[] = things.map((thing) => {
    const { centre, width, height } = sideBox(thing, frame);
    return { x: centre.x - width / 2, y: centre.y - height / 2, width, height };
  });
  const wishes = nameWishes(things, frame, (thing) => {
    const { centre, width, height } = sideBox(thing, frame);
    return { centre, reach: Math.max(width, height) / 2 };
  });
  const { left_m, right_m, top_m, bottom_m } = frame.extent;
  const from = frame.toDrawing(left_m, top_m);
  const to = frame.toDrawing(right_m, bottom_m);
  const field = {
    x: from.x + 3,
    y: from.y + 3,
    width: to.x - from.x - 6,
    height: to.y - from.y - 6,
  };
  return placeLabels(wishes, boxes, field);
}
