// The figures of the crossovers, by the device that filters: what practice starts with, what the sum says, what is dialled in.

import type { CrossoverInRoom, RoomOutcome } from '../../core/fieldFigures.ts';
import type { CrossoverOutcome, Setup } from '../../core/setup.ts';
import { toDegrees, toMs } from './convert.ts';

export function crossoverFigures({ crossovers, field }: Setup): unknown {
  const byDevice: Record<string, unknown> = {};
  for (const { device, set, mains, subs, mainsMinus6db_hz, current, ...rest } of crossovers) {
    const best = rest.ranked[0] ?? null;
    // One device may filter for several sets of monitors: each set's figures stand under its own name.
    byDevice[set === null ? device : `${device}.${set}`] = {
      set,
      mains,
      subwoofers: subs,
      mains_minus_6_db_hz: mainsMinus6db_hz,
      bypassed: rest.bypassed,
      current: outcome(current),
      practice: outcome(rest.practice),
      suggested: outcome(best),
      sum_ripple_db: current?.ripple_db ?? null,
      in_room: inRoomFigures(
        field?.crossovers?.find(
          (one) => one.set === set && one.path.join('.') === rest.path.join('.'),
        ),
      ),
      caveat: rest.caveat,
    };
  }
  return byDevice;
}

function outcome(given: CrossoverOutcome | null): unknown {
  if (given === null) return null;
  const { filter, polarity, subDelay_s, ripple_db, dip, bump, phaseAtCrossover_rad } = given;
  return {
    frequency_hz: filter.frequency_hz,
    slope_db_oct: filter.slope_db_oct,
    family: filter.family,
    polarity,
    sub_delay_ms: toMs(subDelay_s),
    ripple_db,
    dip,
    bump,
    phase_at_crossover_deg: toDegrees(phaseAtCrossover_rad),
    reasons: given.reasons,
    cost: given.cost
      ? {
          displacement_db: given.cost.displacement_db,
          main_most_db: given.cost.mainMost_db,
          sub_most_db: given.cost.subMost_db,
        }
      : null,
  };
}

/** null until the low end is worked out, and where nothing is dialled in. */
function inRoomFigures(given: CrossoverInRoom | undefined): unknown {
  if (given === undefined) return null;
  const told = (one: RoomOutcome | null) =>
    one && {
      frequency_hz: one.filter.frequency_hz,
      slope_db_oct: one.filter.slope_db_oct,
      polarity: one.polarity,
      sub_delay_ms: toMs(one.subDelay_s),
      ripple_db: one.ripple_db,
      deviation_db: one.deviation_db,
    };
  return {
    current: told(given.current),
    practice: told(given.practice),
    suggested: told(given.suggested),
    best: told(given.best),
  };
}
