// What a placement is judged by: how flat the low end is, and how much the seats differ.

/** Levels at the seats re the target, dB, `[seat * frequencyCount + frequency]`. */
export type SeatLevels = Float64Array;

/** Less is better; dB. */
export type PlacementCost = (
  levels_db: SeatLevels,
  seatCount: number,
  frequencyCount: number,
) => number;

export interface LevelTerms {
  /** Standard deviation over frequency, by seat. */
  readonly flatness_db: readonly number[];
  /** Standard deviation over the seats, averaged over frequency. */
  readonly spread_db: number;
  /** Variance over the seats, averaged over frequency. */
  readonly variance_db2: number;
}

export interface CostWeights {
  /** By seat, together 1. */
  readonly flatnessWeights: readonly number[];
  /** 1 where a decibel between the seats is as bad as one over frequency. */
  readonly spreadWeight: number;
  /** Decibels of flatness that a decibel more of mean level is worth; without it silence would be the flattest of all. */
  readonly outputWeight: number;
}

/** Cost = Σ weight × flatness of a seat + weight × spread − weight × mean level. */
export function levelCost({
  flatnessWeights,
  spreadWeight,
  outputWeight,
}: CostWeights): PlacementCost {
  const weights = Float64Array.from(flatnessWeights);
  return (levels_db, seatCount, frequencyCount) => {
    let cost = 0;
    for (let seat = 0; seat < seatCount; seat++) {
      const weight = weights[seat] as number;
      if (weight !== 0)
        cost += weight * deviation_db(levels_db, seat * frequencyCount, frequencyCount);
    }
    if (outputWeight !== 0) {
      let sum = 0;
      for (let i = 0; i < levels_db.length; i++) sum += levels_db[i] as number;
      cost -= (outputWeight * sum) / levels_db.length;
    }
    if (seatCount < 2 || spreadWeight === 0) return cost;
    return cost + spreadWeight * meanSpread(levels_db, seatCount, frequencyCount, Math.sqrt);
  };
}

/** The mean cost of several channels, whose seats follow each other. */
export function costOverChannels(cost: PlacementCost, channelCount: number): PlacementCost {
  if (channelCount === 1) return cost;
  return (levels_db, seatCount, frequencyCount) => {
    const seats = seatCount / channelCount;
    const length = seats * frequencyCount;
    let sum = 0;
    for (let channel = 0; channel < channelCount; channel++) {
      const part = levels_db.subarray(channel * length, (channel + 1) * length);
      sum += cost(part, seats, frequencyCount);
    }
    return sum / channelCount;
  };
}

/** The terms one by one, for what is shown. */
export function levelTerms(
  levels_db: SeatLevels,
  seatCount: number,
  frequencyCount: number,
): LevelTerms {
  return {
    flatness_db: Array.from({ length: seatCount }, (_, seat) =>
      deviation_db(levels_db, seat * frequencyCount, frequencyCount),
    ),
    spread_db: meanSpread(levels_db, seatCount, frequencyCount, Math.sqrt),
    variance_db2: meanSpread(levels_db, seatCount, frequencyCount, (variance) => variance),
  };
}

/**
 * Standard deviation of the whole population (divided by its number). Counted from the first value, so that one pass is enough and
 * equal values give exactly 0.
 */
function deviation_db(values: Float64Array, from: number, count: number): number {
  const first = values[from] as number;
  let sum = 0;
  let square = 0;
  for (let i = from; i < from + count; i++) {
    const apart = (values[i] as number) - first;
    sum += apart;
    square += apart * apart;
  }
  return Math.sqrt(Math.max(0, square - (sum * sum) / count) / count);
}

function meanSpread(
  values: Float64Array,
  seatCount: number,
  frequencyCount: number,
  of: (variance: number) => number,
): number {
  let total = 0;
  for (let f = 0; f < frequencyCount; f++) {
    const first = values[f] as number;
    let sum = 0;
    let square = 0;
    for (let at = f + frequencyCount; at < seatCount * frequencyCount; at += frequencyCount) {
      const apart = (values[at] as number) - first;
      sum += apart;
      square += apart * apart;
    }
    total += of(Math.max(0, square - (sum * sum) / seatCount) / seatCount);
  }
  return total / frequencyCount;
}
