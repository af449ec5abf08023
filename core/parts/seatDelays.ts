// Part of Setup: one delay of the subwoofers for several seats: what it does at each, and the compromises that there are.

import type {
  Arrival,
  CrossoverFigures,
  SeatDelayChoice,
  SeatDelayFigures,
  SeatFigures,
} from '../setup.ts';

/**
 * One entry a crossover whose arrivals are known at two seats or more.
 *
 * Seats differ by path alone, so that the phase at the crossover is 2π f times the time that is off. The mean of those times
 * makes the mean square least, the middle between earliest and latest makes the worst seat's least.
 */
export function seatDelaysPart(
  seats: readonly SeatFigures[],
  crossovers: readonly CrossoverFigures[],
  referenceSeat: string | null,
): readonly SeatDelayFigures[] {
  return crossovers.flatMap((figures): readonly SeatDelayFigures[] => {
    const { path, set, mains, subs, current, aligned, ranked } = figures;
    const crossover_hz = (current ?? ranked[0])?.filter.frequency_hz ?? null;
    if (crossover_hz === null) return [];
    const wanted_s = aligned?.subDelay_s ?? 0;
    const omega = 2 * Math.PI * crossover_hz;
    const known = seats.flatMap(({ id, arrivals }) => {
      const difference_s = differenceAt(arrivals, figures);
      return difference_s === null
        ? []
        : [{ seat: id, difference_s, off_s: difference_s - wanted_s }];
    });
    if (known.length < 2) return [];
    const offs_s = known.map(({ off_s }) => off_s);
    const least_s = Math.min(...offs_s);
    const most_s = Math.max(...offs_s);
    const own = known.find(({ seat }) => seat === referenceSeat);
    const choose = (kind: SeatDelayChoice['for'], more_s: number): SeatDelayChoice => {
      const phases_rad = offs_s.map((off_s) => omega * (off_s + more_s));
      const worst_rad = Math.max(...phases_rad.map(Math.abs));
      const square = phases_rad.reduce((sum, phase_rad) => sum + phase_rad ** 2, 0);
      return {
        for: kind,
        more_s,
        worstPhase_rad: worst_rad,
        rmsPhase_rad: Math.sqrt(square / phases_rad.length),
        worstLoss_db: loss_db(worst_rad),
      };
    };
    const mean_s = offs_s.reduce((sum, off_s) => sum + off_s, 0) / offs_s.length;
    return [
      {
        path,
        set,
        mains,
        subs,
        crossover_hz,
        wanted_s,
        seats: known.map(({ seat, difference_s, off_s }) => ({
          seat,
          difference_s,
          phase_rad: omega * off_s,
        })),
        spread_s: most_s - least_s,
        choices: [
          ...(own === undefined ? [] : [choose('reference', -own.off_s)]),
          choose('mean_square', -mean_s),
          choose('worst', -(least_s + most_s) / 2),
        ],
      },
    ];
  });
}

/** Mean arrival of the subwoofers less that of the mains; null where one is not known. */
function differenceAt(
  arrivals: readonly Arrival[],
  { mains, subs, set }: Pick<CrossoverFigures, 'mains' | 'subs' | 'set'>,
): number | null {
  const mean_s = (ids: readonly string[]): number | null => {
    const here = arrivals.filter(
      (arrival) => ids.includes(arrival.source) && (arrival.set ?? null) === set,
    );
    const known = here.flatMap(({ arrival_s }) => arrival_s ?? []);
    if (known.length === 0 || known.length < here.length) return null;
    return known.reduce((sum, arrival_s) => sum + arrival_s, 0) / known.length;
  };
  const [main_s, sub_s] = [mean_s(mains), mean_s(subs)];
  return main_s === null || sub_s === null ? null : sub_s - main_s;
}

/** A null is as deep as JSON tells it. */
const DEEPEST_DB = -60;

/** Two equal halves out of phase. */
function loss_db(phase_rad: number): number {
  return Math.max(DEEPEST_DB, 20 * Math.log10(Math.abs(Math.cos(phase_rad / 2))));
}
