// Cumulative decay: how the bass at a seat fades after the sound has stopped, slice by slice, from the predicted response.
//
// The response on an even grid is turned into an impulse response; its spectrum is taken anew from ever later starts. What rings on
// are the modes: their ridges stand where the slices after 100 ms and more still have level.

import { volume_m3 } from '../acoustics/ceiling.ts';
import { area_m2 } from '../acoustics/polygon.ts';
import type { FieldDecay, FieldDecayRequest } from '../fieldFigures.ts';
import { createFourier } from '../measure/fourier.ts';
import { placedSources } from '../parts/referenceSeat.ts';
import type { Setup } from '../setup.ts';
import { trace } from '../signal/traced.ts';
import { fieldContext, noFieldNote } from './context.ts';
import { pressures } from './curves.ts';
import { nominalTransfers } from './drawn.ts';
import { drivesOf, waysOf } from './drives.ts';
import { fieldGrid_hz } from './grid.ts';
import { methodOf } from './roomField.ts';
import { channelGroups, level_dbspl, sourceGroups } from './sums.ts';
import { createTransfers } from './transfers.ts';

/** Half a hertz apart, so that two seconds fit in before the response meets its own start. */
const STEP_HZ = 0.5;
const COUNT = 2048;
/** The response fades in between these, below what is shown: slowly, so that the fade rings briefly. */
const FROM_HZ = 2;
const WHOLE_FROM_HZ = 15;
/** The last part of the grid fades out, so that its end does not ring. */
const FADE_SHARE = 0.85;
/** Each later start fades in over this: common practice for such plots, no source. */
const RISE_S = 0.005;
/** What the fades ring before the sound begins has come round to the end, and is left out there. */
const END_S = 0.1;
/** Shown from here on. */
const SHOWN_FROM_HZ = 20;
const MOST_SLICES = 200;

/** null where the seat, the source or the room's size is not known. */
export function cumulativeDecay(
  setup: Pick<Setup, 'room' | 'air'>,
  { of, seat, step_s, count }: FieldDecayRequest,
): FieldDecay | null {
  const grid_hz = evenGrid_hz(setup);
  const context = fieldContext(setup, grid_hz);
  if (context === null || grid_hz.length === 0 || !(0 < step_s)) return null;
  const { drives } = drivesOf(setup.room, waysOf(setup.room, trace(setup.room).paths, grid_hz));
  const usable = drives.filter(({ source }) => noFieldNote(context, source) === null);
  const group =
    'source' in of
      ? sourceGroups(usable).find(({ source }) => source === of.source)
      : channelGroups(usable).find(({ channel, set }) => channel === of.channel && set === of.set);
  const index = context.seats.findIndex(({ id }) => id === seat);
  if (group === undefined || index < 0) return null;
  const { density_kg_m3 } = context.fieldRoom.medium;
  const about = { frequency_hz: grid_hz, density_kg_m3, seatCount: context.seats.length };
  const heard = nominalTransfers(context, placedSources(setup.room), createTransfers());
  const pressure = pressures(group.drives, about, heard)[index];
  if (pressure === undefined) return null;
  const slices = Math.min(MOST_SLICES, Math.max(1, Math.floor(count)));
  const time_s = Array.from({ length: slices }, (_, i) => i * step_s).filter((t) => t < 0.9);
  return { ...slicesOf(pressure, grid_hz, time_s), time_s };
}

function evenGrid_hz(setup: Pick<Setup, 'room' | 'air'>): readonly number[] {
  const about = fieldContext(setup, []);
  if (about === null) return [];
  const { shape, medium } = about.fieldRoom;
  const own_hz = fieldGrid_hz(methodOf(shape), {
    volume_m3: volume_m3(shape.plan, shape.ceiling),
    floorArea_m2: area_m2(shape.plan),
    speedOfSound_m_s: medium.speedOfSound_m_s,
  });
  const top_hz = Math.floor(own_hz.at(-1) ?? 0);
  return Array.from(
    { length: Math.max(0, (top_hz - FROM_HZ) / STEP_HZ + 1) },
    (_, i) => FROM_HZ + i * STEP_HZ,
  );
}

function slicesOf(
  pressure: { readonly re: Float64Array; readonly im: Float64Array },
  grid_hz: readonly number[],
  time_s: readonly number[],
): Pick<FieldDecay, 'frequency_hz' | 'level_db'> {
  const fourier = createFourier(COUNT);
  const spectrum = new Float64Array(COUNT + 2);
  const top_hz = grid_hz[grid_hz.length - 1] ?? 0;
  grid_hz.forEach((f_hz, i) => {
    const weight = fade(f_hz, top_hz);
    spectrum[2 * bin(f_hz)] = weight * (pressure.re[i] ?? 0);
    spectrum[2 * bin(f_hz) + 1] = weight * (pressure.im[i] ?? 0);
  });
  const impulse = fourier.signalOf(spectrum);
  const start = arrival(impulse);
  const rate_hz = COUNT * STEP_HZ;
  const end_s = 1 / STEP_HZ - 2 * END_S;
  const shown_hz = grid_hz.filter((f_hz) => SHOWN_FROM_HZ <= f_hz && f_hz <= FADE_SHARE * top_hz);
  const level_db = time_s.map((from_s) => {
    const rest = impulse.map((_, i) => {
      const value = impulse[(i + start) % COUNT] ?? 0;
      return value * rise((i / rate_hz - from_s) / RISE_S) * rise((end_s - i / rate_hz) / END_S);
    });
    const late = fourier.spectrumOf(rest);
    return shown_hz.map((f_hz) => {
      const square = (late[2 * bin(f_hz)] ?? 0) ** 2 + (late[2 * bin(f_hz) + 1] ?? 0) ** 2;
      return Math.round(level_dbspl(square) * 100) / 100 + 0;
    });
  });
  return { frequency_hz: shown_hz, level_db };
}

function bin(f_hz: number): number {
  return Math.round(f_hz / STEP_HZ);
}

/** Raised cosine: from nothing at −1 to everything at 0 and after. */
function rise(place: number): number {
  if (0 <= place) return 1;
  return place <= -1 ? 0 : 0.5 + 0.5 * Math.cos(Math.PI * place);
}

function fade(f_hz: number, top_hz: number): number {
  const low = rise((f_hz - WHOLE_FROM_HZ) / (WHOLE_FROM_HZ - FROM_HZ));
  const from_hz = FADE_SHARE * top_hz;
  return low * rise((from_hz - f_hz) / (top_hz - from_hz));
}

/** Where the sound begins: a tenth of its highest peak, a little before; what lies earlier has come round from the end. */
function arrival(impulse: Float64Array): number {
  let peak = 0;
  for (let i = 1; i < impulse.length; i++)
    if (Math.abs(impulse[peak] ?? 0) < Math.abs(impulse[i] ?? 0)) peak = i;
  return (peak - 4 + impulse.length) % impulse.length;
}
