// What a take set going: the drives of its channel to the loudspeakers that were heard, with what their ways add to the arrival.

import type { Room } from '../../schema/model/room.ts';
import type { MeasuringTake } from '../../schema/model/sessions.ts';
import { filterAt } from '../acoustics/analogueFilter.ts';
import { phase_rad } from '../acoustics/complex.ts';
import { type Drive, drivesOf, type Way, waysOf } from '../field/drives.ts';
import { phaseFilterOf } from '../field/path.ts';
import { placedSources } from '../parts/referenceSeat.ts';
import { trace } from '../signal/traced.ts';

export interface TakeDrive {
  readonly drive: Drive;
  /** Latency and delay along the way; null where it cannot be known. */
  readonly way_s: number | null;
  readonly isInverted: boolean;
  /** What a phase control adds to an arrival that is read from the slope of the phase, and to its sign. */
  readonly control: { readonly late_s: number; readonly start_rad: number };
}

/** Where a bass source's phase is read: about the range of a subwoofer. Common practice, no source. */
const BASS_HZ = [30, 35, 40, 45, 50, 55, 60, 65, 70] as const;

/**
 * @param room as it was for the take
 * @returns empty where the channel reaches none of them
 */
export function takeDrives(
  room: Room,
  { drive, sounding }: Pick<MeasuringTake, 'drive' | 'sounding'>,
  frequency_hz: readonly number[],
): readonly TakeDrive[] {
  const placed = new Set(placedSources(room).map(({ id }) => id));
  const ways = waysOf(room, trace(room).paths, frequency_hz).filter(({ target }) =>
    placed.has(target),
  );
  const { drives } = drivesOf(room, ways);
  const all = ways.flatMap((way, index) => {
    const one = drives[index];
    return one ? [{ way, drive: one }] : [];
  });
  const wanted = all.filter(
    ({ way }) =>
      (drive === null || carries(way, drive)) &&
      (sounding.length === 0 || sounding.includes(way.target)),
  );
  return inOneSet(wanted, sounding).map(({ way, drive: one }) => ({
    drive: one,
    way_s:
      way.path === null || way.path.latency_s === null || 0 < way.path.delayGaps.length
        ? null
        : way.path.latency_s + way.path.delay_s,
    isInverted: way.path?.inverted ?? false,
    control: phaseControl(way),
  }));
}

function carries({ channel, path }: Way, drive: string): boolean {
  return channel === drive || `${path?.source.device}.${path?.source.port}` === drive;
}

interface Driven {
  readonly way: Way;
  readonly drive: Drive;
}

/** Of several sets of monitors the first in which everything that was heard plays; of several channels to one driver the first. */
function inOneSet(all: readonly Driven[], sounding: readonly string[]): readonly Driven[] {
  const sets = [...new Set(all.map(({ way }) => way.set))];
  const whole = sets.find((set) =>
    sounding.every((id) => all.some(({ way }) => way.target === id && way.set === set)),
  );
  const set = whole === undefined ? (sets[0] ?? null) : whole;
  const inSet = all.filter(({ way }) => way.set === set || way.set === null);
  const channel = inSet[0]?.way.channel ?? null;
  return inSet.filter(({ way }) => way.channel === channel);
}

/** The line through what a phase control adds in the bass: its slope is a delay, its start a turn. */
function phaseControl({ path }: Way): TakeDrive['control'] {
  const filter = path === null ? [] : phaseFilterOf(path);
  if (filter.length === 0) return { late_s: 0, start_rad: 0 };
  let before = 0;
  const phases = BASS_HZ.map((f_hz) => {
    const angle = phase_rad(filterAt(filter, f_hz));
    before = angle - 2 * Math.PI * Math.round((angle - before) / (2 * Math.PI));
    return before;
  });
  const omegas = BASS_HZ.map((f_hz) => 2 * Math.PI * f_hz);
  const mean = (values: readonly number[]) =>
    values.reduce((sum, value) => sum + value, 0) / values.length;
  const [middle, height] = [mean(omegas), mean(phases)];
  const slope =
    mean(omegas.map((omega, i) => (omega - middle) * ((phases[i] ?? 0) - height))) /
    mean(omegas.map((omega) => (omega - middle) ** 2));
  return { late_s: -slope, start_rad: height - slope * middle };
}
