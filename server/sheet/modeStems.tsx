// The chart of modes: one stem a mode. Upwards how strongly the reference seat hears it, downwards how strongly a
// subwoofer drives it: long both ways is what will be heard, short either way is not.

import { scaleLinear } from 'd3-scale';
import { symbol, symbolCircle, symbolSquare, symbolX } from 'd3-shape';
import type { VNode } from 'preact';
import type { FieldMode } from '../../core/fieldFigures.ts';
import type { ModeFigures } from '../../core/setup.ts';
import { Legend } from './chart/legend.tsx';
import { fieldHeight_px, Plot, percent, type Tick } from './chart/plot.tsx';
import type { View } from './view.ts';

const HEIGHT_PX = 270;
/** Modes of rooms that are no box have no kind. */
type Form = ModeFigures['kind'] | 'other';

const MARKS: Readonly<Record<Form, string>> = {
  axial: symbol(symbolCircle, 42)() ?? '',
  tangential: symbol(symbolSquare, 26)() ?? '',
  oblique: symbol(symbolX, 16)() ?? '',
  other: symbol(symbolCircle, 34)() ?? '',
};
/** What matters most is drawn last, on top. */
const ORDER: readonly Form[] = ['oblique', 'tangential', 'axial', 'other'];

/** One mode as it is drawn; strengths from 0 to 1. */
export interface StemMode {
  readonly name: string;
  readonly form: Form;
  readonly frequency_hz: number;
  readonly heard: number;
  readonly driven: number;
}

interface ModeStemsProps extends View {
  readonly modes: readonly StemMode[];
  readonly schroeder_hz: number | null;
}

export function ModeStems({ setup, show, modes, schroeder_hz }: ModeStemsProps): VNode {
  const limit_hz = 200;
  const first_hz = modes[0]?.frequency_hz ?? 20;
  const from_hz = Math.floor(Math.min(first_hz, 20) / 10) * 10;
  const across = scaleLinear().domain([from_hz, limit_hz]).range([0, 1]).clamp(true);
  const middle_px = fieldHeight_px(HEIGHT_PX) / 2;
  const seat = setup.referenceSeat ?? 'the seat';
  const { subwoofers } = setup.room;
  const drives = subwoofers.length === 1 ? (subwoofers[0]?.id ?? '') : 'a subwoofer';
  return (
    <figure>
      <Plot
        label={`${modes.length} room modes to ${limit_hz} Hz. Upwards how strongly ${seat} hears each, downwards how strongly ${drives} drives it. The table of all modes gives the figures.`}
        height_px={HEIGHT_PX}
        across={{ title: 'Hz', ticks: ticksFor(across, from_hz, limit_hz) }}
        up={{ title: `${seat} hears ↑`, foot: `${drives} drives ↓`, ticks: UP_TICKS }}
      >
        {schroeder_hz !== null && schroeder_hz < limit_hz ? (
          <g class="schroeder">
            <rect
              x={percent(across(schroeder_hz))}
              y="0"
              width={percent(1 - across(schroeder_hz))}
              height={2 * middle_px}
            />
            <text
              x={percent(across(schroeder_hz))}
              y="-6"
              text-anchor={across(schroeder_hz) < 0.7 ? 'start' : 'end'}
            >
              {`Schroeder ${show.frequency(schroeder_hz)}`}
            </text>
          </g>
        ) : null}
        <line class="axis" x1="0" x2="100%" y1={middle_px} y2={middle_px} />
        {ORDER.flatMap((form) =>
          modes
            .filter((mode) => mode.form === form && mode.frequency_hz <= limit_hz)
            .map((mode) => (
              <Stem
                key={mode.name}
                form={form}
                x={percent(across(mode.frequency_hz))}
                up_px={mode.heard * (middle_px - 6)}
                down_px={mode.driven * (middle_px - 6)}
                middle_px={middle_px}
                title={`${show.frequency(mode.frequency_hz)}, ${mode.name}`}
              />
            )),
        )}
      </Plot>
      <figcaption>
        <Legend
          entries={[
            { class: 'mode mode-axial', text: 'axial', mark: MARKS.axial },
            { class: 'mode mode-tangential', text: 'tangential', mark: MARKS.tangential },
            { class: 'mode mode-oblique', text: 'oblique', mark: MARKS.oblique },
            { class: 'mode mode-other', text: 'mode of the whole room', mark: MARKS.other },
          ].filter((entry) => modes.some(({ form }) => entry.class === `mode mode-${form}`))}
        />
      </figcaption>
    </figure>
  );
}

interface StemProps {
  readonly form: Form;
  readonly x: string;
  readonly up_px: number;
  readonly down_px: number;
  readonly middle_px: number;
  readonly title: string;
}

function Stem({ form, x, up_px, down_px, middle_px, title }: StemProps): VNode {
  return (
    <g class={`mode mode-${form}`}>
      <title>{title}</title>
      <line x1={x} x2={x} y1={middle_px - up_px} y2={middle_px + down_px} />
      <svg x={x} y={middle_px - up_px} overflow="visible" width="1" height="1" aria-hidden="true">
        <path d={MARKS[form]} />
      </svg>
    </g>
  );
}

const UP_TICKS: readonly Tick[] = [
  { share: 1, text: '100 %' },
  { share: 0.75, text: '50 %' },
  { share: 0.5, text: '0' },
  { share: 0.25, text: '50 %' },
  { share: 0, text: '100 %' },
];

function ticksFor(
  across: (frequency_hz: number) => number,
  from_hz: number,
  to_hz: number,
): readonly Tick[] {
  const count = Math.floor((to_hz - from_hz) / 20) + 1;
  return Array.from({ length: count }, (_, index) => {
    const frequency_hz = from_hz + index * 20;
    return {
      share: across(frequency_hz),
      text: index % 2 === 0 || index === count - 1 ? String(frequency_hz) : '',
    };
  });
}

/** A box's modes: strengths are shares of what a corner would give. */
export function boxStems(modes: readonly ModeFigures[], { setup }: View): readonly StemMode[] {
  return modes.map((mode) => ({
    name: `${mode.kind} ${mode.order.join(', ')}`,
    form: mode.kind,
    frequency_hz: mode.frequency_hz,
    heard: heardAt(mode, setup.referenceSeat),
    driven: drivenMost(mode, setup),
  }));
}

/** Other rooms' modes: strengths are shares of the strongest of all, since no corner stands for a plan. */
export function fieldStems(modes: readonly FieldMode[], { setup }: View): readonly StemMode[] {
  const all = modes.flatMap(({ drivenBy, heardAt: seats }) => [...drivenBy, ...seats]);
  const most = all.reduce((highest, { strength }) => Math.max(highest, strength), 1e-9);
  return modes.map((mode, index) => ({
    name: `number ${index + 1}`,
    form: 'other',
    frequency_hz: mode.frequency_hz,
    heard: heardAt(mode, setup.referenceSeat) / most,
    driven: drivenMost(mode, setup) / most,
  }));
}

function heardAt({ heardAt: seats }: Pick<FieldMode, 'heardAt'>, seat: string | null): number {
  return seats.find((one) => one.seat === seat)?.strength ?? 0;
}

/** By the subwoofer that drives it most. */
function drivenMost({ drivenBy }: Pick<FieldMode, 'drivenBy'>, { room }: View['setup']): number {
  const subs = room.subwoofers.map(({ id }) => id);
  const strengths = drivenBy.filter(({ source }) => subs.includes(source));
  return Math.max(0, ...strengths.map(({ strength }) => strength));
}
