// Averages over several takes: of power, of decibels, or of pressures with their phases.

import type { MeasuringAverage } from '../../schema/model/sessions.ts';
import { logGrid_hz } from '../acoustics/frequencyGrid.ts';
import { levelAt_db } from '../measure/correction.ts';
import type { MeasuredAverage, MeasuredResponse, MeasuredTake } from './measuredFigures.ts';

type Averaging = MeasuredAverage['by'];

const POINTS_PER_OCTAVE = 24;
/** Frequencies of two grids that differ by less are the same. */
const SAME_RATIO = 1e-6;

/**
 * @param takes of the same session
 * @returns without a response, and with the reason, where a take says nothing or the average cannot be formed
 */
export function averageOf(
  { id, path, takes: names, by }: MeasuringAverage,
  takes: readonly MeasuredTake[],
): MeasuredAverage {
  const members = names.flatMap((name) => takes.find(({ take }) => take === name) ?? []);
  const how = by ?? 'power';
  const refusal = members.some(({ isPending }) => isPending) ? null : refusalOf(members, how);
  const responses = members.flatMap(({ response }) => response ?? []);
  const isFormed = refusal === null && responses.length === members.length && 0 < members.length;
  return {
    average: id,
    path,
    takes: names,
    by: how,
    response: isFormed ? meanOf(responses, how) : null,
    refusals: refusal === null ? [] : [refusal],
  };
}

function refusalOf(members: readonly MeasuredTake[], by: Averaging): string | null {
  if (members.length === 0) return 'It names no take of this session';
  const silent = members.filter(({ response }) => response === null);
  if (silent.length !== 0) return `No response of ${namesOf(silent)}`;
  const bases = new Set(members.map(({ level }) => level?.basis));
  if (1 < bases.size)
    return 'Some of its takes tell sound pressure levels, others only levels among themselves';
  const { from_hz, to_hz } = commonRange(members.flatMap(({ response }) => response ?? []));
  if (!(from_hz < to_hz)) return 'Its takes have no frequency in common';
  if (by !== 'vector') return null;
  const phaseless = members.filter(({ response }) => response?.phaseFrom !== 'playing');
  return phaseless.length === 0
    ? null
    : `No phase from the moment of playing in ${namesOf(phaseless)}: a vector average needs it in each take`;
}

function namesOf(takes: readonly MeasuredTake[]): string {
  return takes.map(({ take }) => `\`${take}\``).join(', ');
}

function commonRange(responses: readonly MeasuredResponse[]) {
  return {
    from_hz: Math.max(...responses.map(({ frequency_hz }) => frequency_hz[0] ?? 0)),
    to_hz: Math.min(...responses.map(({ frequency_hz }) => frequency_hz.at(-1) ?? 0)),
  };
}

function meanOf(responses: readonly MeasuredResponse[], by: Averaging): MeasuredResponse {
  const [first] = responses;
  const isOneGrid = first !== undefined && responses.every((one) => hasGridOf(one, first));
  const { from_hz, to_hz } = commonRange(responses);
  const grid_hz = isOneGrid
    ? Float64Array.from(first.frequency_hz)
    : logGrid_hz(from_hz, to_hz, POINTS_PER_OCTAVE);
  const smoothings = new Set(responses.map(({ smoothing }) => smoothing));
  const shared = {
    frequency_hz: Array.from(grid_hz),
    smoothing: smoothings.size === 1 ? (first?.smoothing ?? null) : null,
  };
  if (by === 'vector') return { ...shared, ...vectorMean(responses, grid_hz) };
  const curves = responses.map(curveOf);
  const level_db = Array.from(grid_hz, (frequency_hz) => {
    const levels = curves.map((curve) => levelAt_db(curve, frequency_hz));
    const mean =
      by === 'power'
        ? 10 * Math.log10(evenly(levels.map((level) => 10 ** (level / 10))))
        : evenly(levels);
    return Number.isFinite(mean) ? mean : null;
  });
  return { ...shared, level_db, phase_rad: null, phaseFrom: null };
}

function hasGridOf(one: MeasuredResponse, other: MeasuredResponse): boolean {
  return (
    one.frequency_hz.length === other.frequency_hz.length &&
    one.frequency_hz.every(
      (f, i) => Math.abs(f / (other.frequency_hz[i] ?? Number.NaN) - 1) < SAME_RATIO,
    )
  );
}

function curveOf({ frequency_hz, level_db }: MeasuredResponse) {
  return {
    frequencies_hz: Float64Array.from(frequency_hz),
    levels_db: Float64Array.from(level_db, (level) => level ?? Number.NaN),
  };
}

/** Phases turn too far from point to point to be read between points: only frequencies that all have. */
function vectorMean(
  responses: readonly MeasuredResponse[],
  grid_hz: Float64Array,
): Pick<MeasuredResponse, 'level_db' | 'phase_rad' | 'phaseFrom'> {
  const sums = Array.from(grid_hz, (frequency_hz) => {
    let re = 0;
    let im = 0;
    for (const { frequency_hz: own_hz, level_db, phase_rad } of responses) {
      const i = own_hz.findIndex((f) => Math.abs(f / frequency_hz - 1) < SAME_RATIO);
      const level = level_db[i] ?? null;
      const phase = phase_rad?.[i] ?? null;
      if (level === null || phase === null) return null;
      const size = 10 ** (level / 20) / responses.length;
      re += size * Math.cos(phase);
      im += size * Math.sin(phase);
    }
    return { re, im };
  });
  return {
    level_db: sums.map((sum) =>
      sum === null || (sum.re === 0 && sum.im === 0)
        ? null
        : 20 * Math.log10(Math.hypot(sum.re, sum.im)),
    ),
    phase_rad: sums.map((sum) => (sum === null ? null : Math.atan2(sum.im, sum.re))),
    phaseFrom: 'playing',
  };
}

function evenly(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}
