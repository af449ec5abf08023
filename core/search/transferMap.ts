// Transfers from every place where a source may stand to every seat, held in two long arrays that a search can run over.

import type { ComplexResponse } from '../acoustics/complex.ts';
import type { Point3 } from '../acoustics/point.ts';

export interface TransferMap {
  readonly frequency_hz: readonly number[];
  readonly points: readonly Point3[];
  readonly seatCount: number;
  /** `[(point * seatCount + seat) * frequencyCount + frequency]`, Pa·s/m³, e^{+jωt}. */
  readonly re: Float64Array;
  readonly im: Float64Array;
}

/** How much of a long piece of work is done, 0 … 1, handed out so often that a server can see to others in between. */
export type InSlices<Answer> = Generator<number, Answer, undefined>;

/** Does the whole of it at once. */
export function allAtOnce<Answer>(work: InSlices<Answer>): Answer {
  for (;;) {
    const step = work.next();
    if (step.done === true) return step.value;
  }
}

/**
 * Does the whole of it, telling how far it is.
 *
 * @param onProgress told the share; returns false to give up
 * @returns null where it was given up; what `onProgress` throws goes through, and the work is closed
 */
export function withProgress<Answer>(
  work: InSlices<Answer>,
  onProgress: (share: number) => boolean,
): Answer | null {
  try {
    for (;;) {
      const step = work.next();
      if (step.done === true) return step.value;
      if (!onProgress(step.value)) return null;
    }
  } finally {
    work.return(undefined as never);
  }
}

/** How many points are worked out between two tellings of the share. */
const POINTS_A_SLICE = 16;

/**
 * A map of a room of any shape, point by point. By reciprocity the room is solved once for each seat, not for each point.
 *
 * @param listening from a source to the seats, as a room's field gives it
 */
export function* mapPointByPoint(
  listening: (source: Point3) => readonly ComplexResponse[],
  frequency_hz: readonly number[],
  points: readonly Point3[],
  seatCount: number,
): InSlices<TransferMap> {
  const map = emptyMap(frequency_hz, points, seatCount);
  for (const [index, point] of points.entries()) {
    const base = index * seatCount * frequency_hz.length;
    listening(point).forEach(({ re, im }, seat) => {
      map.re.set(re, base + seat * frequency_hz.length);
      map.im.set(im, base + seat * frequency_hz.length);
    });
    if (index % POINTS_A_SLICE === POINTS_A_SLICE - 1) yield index / points.length;
  }
  return map;
}

export function emptyMap(
  frequency_hz: readonly number[],
  points: readonly Point3[],
  seatCount: number,
): TransferMap {
  const length = points.length * seatCount * frequency_hz.length;
  return {
    frequency_hz,
    points,
    seatCount,
    re: new Float64Array(length),
    im: new Float64Array(length),
  };
}
