// Response files of gear held against filters whose complex response is known: level, phase from the file, and phase from level alone.
import { magnitude_db, phase_rad, wrapped_rad } from '../../../core/acoustics/complex.ts';
import { sampledAt } from '../../../core/acoustics/sampledResponse.ts';
import { gearResponse } from '../../../core/measure/gearResponse.ts';
import { referenceData } from '../../support/referenceData.ts';
import type { Comparison, Pair } from '../comparison.ts';

interface StoredAlignments {
  readonly alignments: readonly {
    readonly name: string;
    readonly h: { readonly re: readonly number[]; readonly im: readonly number[] };
  }[];
}

const { expected, source } = referenceData<StoredAlignments>('box_alignments');
const GRID_HZ = [
  10.5, 12.4867, 14.8492, 17.6588, 21, 24.9733, 29.6985, 35.3176, 42, 49.9467, 59.397, 70.6353, 84,
  99.8934, 118.7939, 141.2706, 168, 199.7868, 237.5879, 282.5412, 336,
];
/** An octave inside both ends of the stored frequencies: there what lies beyond them has little to say. */
const INSIDE = GRID_HZ.flatMap((f_hz, i) => (21 <= f_hz && f_hz <= 168 ? [i] : []));

type Stored = StoredAlignments['alignments'][number];

/** Read from the stored numbers as from a file, and compared at its own frequencies. */
function compared(
  hasPhase: boolean,
  of: (told: number, stored: number) => number,
  value: (one: { readonly re: number; readonly im: number }) => number,
): readonly Pair[] {
  return expected.alignments.flatMap(({ name, h }: Stored) => {
    const at = (i: number) => ({ re: h.re[i] ?? Number.NaN, im: h.im[i] ?? Number.NaN });
    const used = gearResponse(
      {
        frequencies_hz: Float64Array.from(GRID_HZ),
        levels_db: Float64Array.from(GRID_HZ, (_, i) => magnitude_db(at(i))),
        phase_rad: hasPhase ? Float64Array.from(GRID_HZ, (_, i) => phase_rad(at(i))) : null,
      },
      // The stored ones are 0 dB where they are flat; a change keeps its level, a loudspeaker's own is continued as it falls.
      hasPhase ? 'change' : 'natural',
    );
    return INSIDE.map((i): Pair => {
      const told = used ? value(sampledAt(used.response, GRID_HZ[i] ?? 0)) : Number.NaN;
      return { what: `${name}, ${GRID_HZ[i]} Hz`, actual: of(told, value(at(i))), expected: 0 };
    });
  });
}

const COUNT = expected.alignments.length * INSIDE.length;
const degrees = (told: number, stored: number) => (wrapped_rad(told - stored) * 180) / Math.PI;

export const gearResponseCases: readonly Comparison[] = [
  {
    computation: 'response file: level read between its lines',
    source,
    unit: 'dB',
    tolerance: 0.4,
    because:
      'four lines an octave: where two of them meet in a knee, the grid of 24 cuts its corner',
    count: COUNT,
    pairs: () => compared(true, (told, stored) => told - stored, magnitude_db),
  },
  {
    computation: 'response file: its own phase',
    source,
    unit: '°',
    tolerance: 2,
    because:
      'four lines an octave: where two of them meet in a knee, the grid of 24 cuts its corner',
    count: COUNT,
    pairs: () => compared(true, degrees, phase_rad),
  },
  {
    computation: 'response file without phase: the least phase',
    source,
    unit: '°',
    tolerance: 8,
    because:
      'high-passes are minimum phase; the file ends two octaves below the corner, and what lies beyond is continued as it falls there',
    count: COUNT,
    pairs: () => compared(false, degrees, phase_rad),
  },
];
