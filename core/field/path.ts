// The electrical side of a signal path as it is dialled in: filters, equaliser, phase, polarity, switches whose positions have
// response files, delay, as one complex response.

import { delayAt } from '../acoustics/allPass.ts';
import { type AnalogueFilter, filterAt } from '../acoustics/analogueFilter.ts';
import { type ComplexResponse, responseOf, times } from '../acoustics/complex.ts';
import { equaliserBand } from '../acoustics/equaliser.ts';
import { electrical, phaseFilter } from '../parts/crossoverSides.ts';
import type { GovernedStage } from '../signal/governing.ts';
import type { TracedPath } from '../signal/traced.ts';

/**
 * All filters on a path. What is not dialled in, is bypassed, or cannot exist, filters nothing; gain is not in it.
 */
export function pathFilter(path: Pick<TracedPath, 'stages'>): AnalogueFilter {
  const crossover_hz = crossoverOf_hz(path.stages);
  return path.stages.flatMap((stage) => stageFilter(stage, crossover_hz));
}

/** Only what phase controls on a path do. */
export function phaseFilterOf({ stages }: Pick<TracedPath, 'stages'>): AnalogueFilter {
  const crossover_hz = crossoverOf_hz(stages);
  return stages
    .filter(({ kind }) => kind === 'phase')
    .flatMap((stage) => stageFilter(stage, crossover_hz));
}

/**
 * Complex response of a path over a grid: filters, polarity, delay and latency; 0 dB where nothing filters.
 *
 * Latencies that are not recorded count as none.
 */
export function pathResponse(
  path: Pick<TracedPath, 'stages' | 'inverted' | 'delay_s' | 'latency_s'>,
  frequency_hz: ArrayLike<number>,
): ComplexResponse {
  const filter = pathFilter(path);
  const late_s = path.delay_s + (path.latency_s ?? 0);
  const sign = path.inverted ? -1 : 1;
  return responseOf(frequency_hz, (f_hz) => {
    const { re, im } = times(filterAt(filter, f_hz), delayAt(late_s, f_hz));
    return { re: sign * re, im: sign * im };
  });
}

/** Where the path is crossed over: a phase control without a frequency of its own counts there. */
function crossoverOf_hz(stages: readonly GovernedStage[]): number | null {
  const filter = stages.find(
    ({ kind, value }) => (kind === 'low_pass' || kind === 'high_pass') && value?.kind === 'filter',
  );
  return filter?.value?.kind === 'filter' ? filter.value.frequency_hz : null;
}

/** 80 Hz is where such controls are mostly told: common practice, no source. */
const PHASE_AT_HZ = 80;

function stageFilter(
  { kind, control, value }: GovernedStage,
  crossover_hz: number | null,
): AnalogueFilter {
  if (value?.kind === 'filter' && control?.kind === 'filter') {
    const { frequency_hz, slope_db_oct } = value;
    if (frequency_hz === null || slope_db_oct === null) return [];
    const side = kind === 'high_pass' ? 'high_pass' : 'low_pass';
    return electrical({ frequency_hz, slope_db_oct, family: control.family }, side) ?? [];
  }
  if (value?.kind === 'phase' && kind === 'phase') {
    const told_hz = control?.kind === 'phase' ? control.at_hz : null;
    return phaseFilter(value.phase_rad, told_hz ?? crossover_hz ?? PHASE_AT_HZ);
  }
  if (value?.kind === 'choice' && control?.kind === 'switch') {
    const told = control.responses?.find(({ choice }) => choice === value.choice);
    return told ? [{ sampled: told.response }] : [];
  }
  if (value?.kind !== 'eq') return [];
  return value.bands.flatMap(({ frequency_hz, gain_db, q }) =>
    frequency_hz !== null && 0 < frequency_hz && gain_db !== null && q !== null && 0 < q
      ? equaliserBand({ kind: 'bell', frequency_hz, gain_db, q })
      : [],
  );
}
