// From exact bells to what the device can be told: rounded number by number, the others settling again each time, then tried step by step.

import type { Steps } from '../../schema/model/gear.ts';
import { nearestStep } from '../signal/steps.ts';
import {
  BEYOND_WEIGHT,
  type Bells,
  bellsLevel_db,
  type Slot,
  settle,
  type Wanted,
} from './bellFit.ts';
import type { EqualiserDevice, FitBand } from './fitTask.ts';

/** The others find their new place in a few steps: they start from where they were. */
const SETTLING_STEPS = 10;
/** Rounds of trying neighbours; each goes over every number of every band. */
const NEIGHBOUR_ROUNDS = 6;
const COARSEST = 1e-6;

/** Bells as bands and back. */
export function bandsOf({ grid }: Pick<Wanted, 'grid'>, bells: Bells): readonly FitBand[] {
  return Array.from({ length: bells.length / 3 }, (_, i) => ({
    frequency_hz: grid.frequencyAt_hz(bells[3 * i] ?? 0),
    q: Math.exp(bells[3 * i + 1] ?? 0),
    gain_db: bells[3 * i + 2] ?? 0,
  }));
}

export function bellsOf({ grid }: Pick<Wanted, 'grid'>, bands: readonly FitBand[]): Bells {
  return Float64Array.from(
    bands.flatMap(({ frequency_hz, q, gain_db }) => [
      grid.placeOf(frequency_hz),
      Math.log(q),
      gain_db,
    ]),
  );
}

/** The order in which numbers are rounded: what steps coarsely and matters most first. */
const KINDS = ['frequency_hz', 'q', 'gain_db'] as const;

/**
 * Bands in the device's steps with about the least square of what is left.
 *
 * @param slots of the bells, in their order
 * @param squareOf what is left with some bells, to be made small
 */
export function roundedBands(
  wanted: Wanted,
  slots: readonly Slot[],
  exact: Bells,
  device: EqualiserDevice,
): readonly FitBand[] {
  let bells = Float64Array.from(exact);
  const held: { slot: Slot }[] = slots.map((slot) => ({ slot }));
  KINDS.forEach((kind, part) => {
    for (let band = 0; band < held.length; band++) {
      const own = held[band];
      const now = bandsOf(wanted, bells)[band];
      if (own === undefined || now === undefined) continue;
      const value = inside(nearestStep(now[kind], device[kind]), kind, own.slot, wanted, device);
      const fixed = bellsOf(wanted, [{ ...now, [kind]: value }])[part] ?? 0;
      own.slot = {
        low: replaced(own.slot.low, part, fixed),
        high: replaced(own.slot.high, part, fixed),
      };
      bells = Float64Array.from(
        settle(
          wanted,
          held.map(({ slot }) => slot),
          bells,
          SETTLING_STEPS,
        ).parameters,
      );
    }
  });
  const bands = bandsOf(wanted, bells).map((band) => ({
    frequency_hz: nearestStep(band.frequency_hz, device.frequency_hz),
    q: nearestStep(band.q, device.q),
    gain_db: nearestStep(band.gain_db, device.gain_db),
  }));
  return neighbours(wanted, slots, bands, device);
}

function replaced(
  bounds: Slot['low'],
  part: number,
  value: number,
): readonly [number, number, number] {
  const [place, lnQ, gain_db] = bounds;
  return [part === 0 ? value : place, part === 1 ? value : lnQ, part === 2 ? value : gain_db];
}

/** A rounded value that left its slot goes a step back. */
function inside(
  value: number,
  kind: (typeof KINDS)[number],
  slot: Slot,
  wanted: Wanted,
  device: EqualiserDevice,
): number {
  const part = KINDS.indexOf(kind);
  const asNumber = (place: number) =>
    kind === 'frequency_hz'
      ? wanted.grid.frequencyAt_hz(place)
      : kind === 'q'
        ? Math.exp(place)
        : place;
  const [low, high] = [asNumber(slot.low[part] ?? 0), asNumber(slot.high[part] ?? 0)];
  const slack = COARSEST * Math.max(1, Math.abs(value));
  if (high + slack < value) return stepped(value, device[kind], -1);
  if (value < low - slack) return stepped(value, device[kind], 1);
  return value;
}

/** Tries every number one and two steps up and down, and a frequency or Q along with the gain, while it helps. */
function neighbours(
  wanted: Wanted,
  slots: readonly Slot[],
  start: readonly FitBand[],
  device: EqualiserDevice,
): readonly FitBand[] {
  const parts = start.map((band) => bellsLevel_db(wanted.grid, bellsOf(wanted, [band])));
  let bands = start;
  let square = squareLeft(wanted, parts);
  for (let round = 0; round < NEIGHBOUR_ROUNDS; round++) {
    const before = square;
    bands.forEach((_, index) => {
      for (const tried of nearBands(bands[index], device)) {
        const slot = slots[index];
        if (slot === undefined || !fits(wanted, slot, tried)) continue;
        const level_db = bellsLevel_db(wanted.grid, bellsOf(wanted, [tried]));
        const now = squareLeft(wanted, parts.with(index, level_db));
        if (!(now < square)) continue;
        square = now;
        parts[index] = level_db;
        bands = bands.with(index, tried);
      }
    });
    if (square === before) break;
  }
  return bands;
}

function nearBands(band: FitBand | undefined, device: EqualiserDevice): readonly FitBand[] {
  if (band === undefined) return [];
  const moved = (kind: (typeof KINDS)[number], by: number) => ({
    ...band,
    [kind]: stepped(band[kind], device[kind], by),
  });
  const single = KINDS.flatMap((kind) => [-2, -1, 1, 2].map((by) => moved(kind, by)));
  const double = [-1, 1].flatMap((byGain) =>
    (['frequency_hz', 'q'] as const).flatMap((kind) =>
      [-1, 1].map((by) => ({
        ...moved(kind, by),
        gain_db: stepped(band.gain_db, device.gain_db, byGain),
      })),
    ),
  );
  return [...single, ...double];
}

/** The control's value some steps on; the same where it has no steps. */
function stepped(value: number, steps: Steps, by: number): number {
  const { choices, step } = steps;
  if (choices !== null && 0 < choices.length) {
    const sorted = choices.toSorted((a, b) => a - b);
    const at = sorted.indexOf(nearestStep(value, steps));
    return sorted[Math.min(sorted.length - 1, Math.max(0, at + by))] ?? value;
  }
  return step === null ? value : nearestStep(value + by * step, steps);
}

function fits(wanted: Wanted, slot: Slot, band: FitBand): boolean {
  return bellsOf(wanted, [band]).every(
    (value, i) => (slot.low[i] ?? 0) - COARSEST <= value && value <= (slot.high[i] ?? 0) + COARSEST,
  );
}

/** What is left, with the guard against boosts where none may be. */
function squareLeft(
  { level_db, weights, most_db }: Wanted,
  parts: readonly Float64Array[],
): number {
  let square = 0;
  for (let i = 0; i < level_db.length; i++) {
    let sum = 0;
    for (const part of parts) sum += part[i] as number;
    square += (weights[i] as number) * (sum - (level_db[i] as number)) ** 2;
    const over_db = most_db === null ? 0 : sum - (most_db[i] as number);
    if (0 < over_db) square += (BEYOND_WEIGHT * over_db) ** 2;
  }
  return square;
}
