// Alignment: what each delay setting should hold so that everything arrives at one seat together.

import type { GovernedStage } from './governing.ts';
import { grouped } from './grouped.ts';
import type { Heard } from './heard.ts';
import { settingKey } from './ownDelay.ts';

/** What one delay setting should hold. */
export interface DelayNeed {
  readonly key: string;
  readonly stage: GovernedStage;
  /** The drivers that it holds up; several where the device has one delay for all of them. */
  readonly targets: readonly string[];
  readonly sets: readonly (string | null)[];
  readonly needed_s: number;
  /** How far apart its drivers would have it; 0 for a delay of one driver. */
  readonly spread_s: number;
  /** Flight, latency and other delays of its (latest) driver. */
  readonly fixed_s: number;
  /** Of that the latency and other delays. */
  readonly beyondFlight_s: number;
  /** The driver that all others wait for. */
  readonly latest: string;
}

export interface Alignment {
  readonly needs: readonly DelayNeed[];
  /** Needed delay of every driver, whether or not it has a stage to hold it; by position in `heard`. */
  readonly needed_s: readonly (number | null)[];
}

/** Settings shared by sets settle in a round or two; more only where gear files are odd. */
const MOST_ROUNDS = 8;

/**
 * In each set of monitors the latest arrival sets the zero, its own delay counted at its least, and all others wait for it.
 *
 * A setting that serves several sets takes the greatest of what they need, and those sets wait for it.
 */
export function align(heard: readonly Heard[]): Alignment {
  const sets = grouped(heard.filter(isKnown), ({ set }) => set ?? '');
  const zeros_s = new Map([...sets].map(([set, all]) => [set, zero_s(all)]));
  let needs = needsOf(sets, zeros_s);
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const moved = waitForShared(needs, sets, zeros_s);
    if (!moved) break;
    needs = needsOf(sets, zeros_s);
  }
  return {
    needs,
    needed_s: heard.map((way) => {
      const all_s = zeros_s.get(way.set ?? '');
      return way.fixed_s === null || all_s === undefined ? null : all_s - way.fixed_s;
    }),
  };
}

type Known = Heard & { readonly fixed_s: number };

function isKnown(way: Heard): way is Known {
  return way.fixed_s !== null;
}

function zero_s(all: readonly Known[]): number {
  return Math.max(...all.map((way) => way.fixed_s + least_s(way)));
}

/** The least that a driver's own delay can be set to, seconds. */
function least_s({ own }: Known): number {
  return own?.control?.kind === 'delay' && own.control.toldAs.as !== 'own_distance'
    ? (own.control.delay_s.min ?? 0)
    : 0;
}

function needsOf(
  sets: ReadonlyMap<string, readonly Known[]>,
  zeros_s: ReadonlyMap<string, number>,
): readonly DelayNeed[] {
  const delayed = [...sets.values()]
    .flat()
    .flatMap((way) => (way.own ? [{ ...way, own: way.own }] : []));
  return [...grouped(delayed, ({ own }) => settingKey(own))].flatMap(([key, members]) => {
    const [first] = members;
    if (first === undefined) return [];
    const bySet = [...grouped(members, ({ set }) => set ?? '')].map(([set, inSet]) => {
      const fixed_s = inSet.map((member) => member.fixed_s);
      const [least, most] = [Math.min(...fixed_s), Math.max(...fixed_s)];
      const all_s = zeros_s.get(set) ?? most;
      return { needed_s: all_s - (least + most) / 2, spread_s: most - least, most };
    });
    const latest = latestOf(sets.get(first.set ?? '') ?? []);
    return {
      key,
      stage: first.own,
      targets: [...new Set(members.map(({ source }) => source))],
      sets: [...new Set(members.map(({ set }) => set))],
      needed_s: Math.max(...bySet.map(({ needed_s }) => needed_s)),
      spread_s: Math.max(...bySet.map(({ spread_s }) => spread_s)),
      fixed_s: Math.max(...bySet.map(({ most }) => most)),
      beyondFlight_s: Math.min(...members.map((member) => member.fixed_s - member.flight_s)),
      latest: latest?.source ?? first.source,
    };
  });
}

/** Moves the zeros of sets whose shared settings hold more than they need; whether any moved. */
function waitForShared(
  needs: readonly DelayNeed[],
  sets: ReadonlyMap<string, readonly Known[]>,
  zeros_s: Map<string, number>,
): boolean {
  let moved = false;
  for (const { key, needed_s, sets: shared, spread_s } of needs) {
    if (shared.length < 2 || 0 < spread_s) continue;
    for (const set of shared) {
      const member = sets
        .get(set ?? '')
        ?.find(({ own }) => own !== null && settingKey(own) === key);
      const zero = zeros_s.get(set ?? '') ?? 0;
      if (member === undefined || member.fixed_s + needed_s <= zero + 1e-12) continue;
      zeros_s.set(set ?? '', member.fixed_s + needed_s);
      moved = true;
    }
  }
  return moved;
}

function latestOf(all: readonly Known[]): Known | undefined {
  return all.reduce<Known | undefined>(
    (latest, way) =>
      latest === undefined || latest.fixed_s + least_s(latest) < way.fixed_s + least_s(way)
        ? way
        : latest,
    undefined,
  );
}
