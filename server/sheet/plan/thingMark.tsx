// The mark of one thing in plan: seats round with a nose, loudspeakers as cabinets that face somewhere, subwoofers square
// with a cone. Each kind has its own form, so that colour is never needed to tell them apart.

import type { VNode } from 'preact';
import { useReachable } from '../source.tsx';
import { type Frame, round, type XY } from './frame.ts';
import type { Thing } from './things.ts';

/** What is built into a wall shows little more than its front. */
const FLUSH_DEPTH = 7;

interface ThingMarkProps {
  readonly thing: Thing;
  readonly frame: Frame;
  /** Said by screen readers: name, kind and place. */
  readonly label: string;
  /** Above or below ear height by so much that plan view hides it. */
  readonly raised: boolean;
}

export function ThingMark({ thing, frame, label, raised }: ThingMarkProps): VNode {
  const reachable = useReachable(thing.path, label);
  const centre = frame.toDrawing(thing.at.x_m, thing.at.y_m);
  const name = [
    'thing',
    `thing-${thing.kind}`,
    thing.isReference ? 'thing-reference' : '',
    raised ? 'thing-raised' : '',
    thing.size.known ? '' : 'thing-guessed',
  ];
  return (
    <g
      class={name.filter(Boolean).join(' ')}
      transform={`translate(${round(centre.x)} ${round(centre.y)})`}
      data-move={thing.path.slice(0, 2).join('.')}
      {...reachable}
    >
      <title>{label}</title>
      {shapeOf(thing, frame.scale)}
    </g>
  );
}

function shapeOf(thing: Thing, scale: number): VNode {
  if (thing.kind === 'seat') {
    return (
      <>
        <circle class="body" r="7.5" />
        <path class="nose" d="M-4 -7 L0 -12 L4 -7" />
        {thing.isReference ? <circle class="centre" r="2.5" /> : null}
      </>
    );
  }
  // Never smaller than a finger can hit.
  const width = Math.max(thing.size.width_m * scale, 13);
  const depth = depthOf(thing, scale);
  if (thing.kind === 'subwoofer') {
    return (
      <>
        <rect class="body" x={-width / 2} y={-depth / 2} width={width} height={depth} />
        <circle class="cone" r={Math.min(width, depth) * 0.3} />
      </>
    );
  }
  // The acoustic centre lies at the front: the cabinet stands behind it. Drawn facing down, then turned.
  const turn = (Math.atan2(-thing.facing[0], thing.facing[1]) * 180) / Math.PI;
  return (
    <g transform={`rotate(${round(turn)})`}>
      <rect class="body" x={-width / 2} y={-depth} width={width} height={depth} />
      <path class="front" d={`M${-width / 2} 0 H${width / 2}`} />
      <circle class="centre" r="2" />
    </g>
  );
}

function depthOf(thing: Thing, scale: number): number {
  return thing.isFlush ? FLUSH_DEPTH : Math.max(thing.size.depth_m * scale, 13);
}

/** A box around the mark, for keeping words off it. */
export function reachOf(
  thing: Thing,
  frame: Frame,
): { readonly centre: XY; readonly reach: number } {
  const at = frame.toDrawing(thing.at.x_m, thing.at.y_m);
  if (thing.kind === 'seat') return { centre: { x: at.x, y: at.y - 2 }, reach: 10 };
  const width = Math.max(thing.size.width_m * frame.scale, 13);
  const depth = depthOf(thing, frame.scale);
  if (thing.kind === 'subwoofer') return { centre: at, reach: Math.max(width, depth) / 2 + 2 };
  return {
    centre: {
      x: at.x - (thing.facing[0] * depth) / 2,
      y: at.y - (thing.facing[1] * depth) / 2,
    },
    reach: Math.max(width, depth) / 2 + 2,
  };
}
