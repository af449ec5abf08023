// Dimension lines and the scale bar: how large the drawing's metres are.

import type { VNode } from 'preact';
import type { Show } from '../../../core/show.ts';
import type { Path } from '../../../schema/model/path.ts';
import type { Habits } from '../../../schema/model/quantities.ts';
import { placeOf } from '../source.tsx';
import { type Frame, round } from './frame.ts';
import { textWidth } from './labels.ts';

interface DimensionProps {
  readonly from: number;
  readonly to: number;
  /** The line's fixed coordinate: y for one across, x for one down. */
  readonly at: number;
  readonly direction: 'across' | 'down';
  readonly text: string;
  readonly path: Path | null;
}

/** A line with end ticks and its figure in a gap of the line. */
export function Dimension({ from, to, at, direction, text, path }: DimensionProps): VNode {
  const middle = round((from + to) / 2);
  const gap = textWidth(text, 11) / 2 + 4;
  const line = (start: number, end: number): string =>
    direction === 'across'
      ? `M${round(start)} ${at} H${round(end)}`
      : `M${at} ${round(start)} V${round(end)}`;
  const tick = (end: number): string =>
    direction === 'across' ? `M${round(end)} ${at - 4} v8` : `M${at - 4} ${round(end)} h8`;
  const fits = 2 * gap < to - from;
  const strokes = fits ? [line(from, middle - gap), line(middle + gap, to)] : [];
  const turned = direction === 'down' ? { transform: `rotate(-90 ${at} ${middle})` } : {};
  return (
    <g class="dimension" {...(path === null ? {} : placeOf(path))}>
      <path d={[...strokes, tick(from), tick(to)].join(' ')} />
      <text
        class="dimension-text"
        x={direction === 'across' ? middle : at}
        y={direction === 'across' ? at + 4 : middle + 4}
        text-anchor="middle"
        {...turned}
      >
        {text}
      </text>
    </g>
  );
}

interface ScaleBarProps {
  readonly frame: Frame;
  readonly habits: Habits;
  readonly show: Show;
}

const METRES_A_FOOT = 0.3048;

/** One metre, or three feet. */
export function ScaleBar({ frame, habits, show }: ScaleBarProps): VNode {
  const length_m = habits.length === 'feet' ? 3 * METRES_A_FOOT : 1;
  const length = length_m * frame.scale;
  const x = round(frame.toDrawing(frame.extent.left_m, 0).x);
  const y = round(frame.height - 12);
  return (
    <g class="scale-bar">
      <path d={`M${x} ${y - 3} v6 M${x} ${y} h${round(length)} m0 -3 v6`} />
      <text x={x + length + 7} y={y + 4}>
        {show.length(length_m)}
      </text>
    </g>
  );
}
