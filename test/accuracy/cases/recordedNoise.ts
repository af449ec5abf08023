// Levels of recorded noise and arrivals from text, held against the standards' tables and against what a delay is.
import { logGrid_hz } from '../../../core/acoustics/frequencyGrid.ts';
import { bandAt } from '../../../core/acoustics/thirdOctave.ts';
import { calibratorTone } from '../../../core/measure/calibratorTone.ts';
import { noiseLevels } from '../../../core/measure/noiseLevels.ts';
import { textArrival } from '../../../core/measure/textArrival.ts';
import { type Comparison, pairsOf } from '../comparison.ts';

const RATE_HZ = 48_000;

/** A sine at full scale. */
function sine(frequency_hz: number, length_s = 2): Float64Array {
  return Float64Array.from({ length: length_s * RATE_HZ }, (_, i) =>
    Math.sin((2 * Math.PI * frequency_hz * i) / RATE_HZ),
  );
}

/** IEC 61672-1 Table 3, A weighting, 31.5 Hz to 16 kHz in third octaves. */
const TABLE_3 = [
  -39.4, -34.6, -30.2, -26.2, -22.5, -19.1, -16.1, -13.4, -10.9, -8.6, -6.6, -4.8, -3.2, -1.9, -0.8,
  0, 0.6, 1, 1.2, 1.3, 1.2, 1, 0.5, -0.1, -1.1, -2.5, -4.3, -6.6,
];
const FIRST = -15;
const THIRDS = TABLE_3.map((_, i) => bandAt(FIRST + i, 3));

/** Tones of usual calibrators, and what stands beside them: level of the tone, and RMS of the rest in percent. */
const TONES = [
  { frequency_hz: 1000, height: 0.5 },
  { frequency_hz: 250, height: 0.05 },
  { frequency_hz: 1001.3, height: 0.9 },
  { frequency_hz: 249.1, height: 0.003 },
];

const DELAYS_S = [0.0004, 0.00291, 0.00725, 0.0213, 0.0399];

function textOf(delay_s: number, frequencies_hz: Float64Array) {
  return {
    frequencies_hz,
    levels_db: frequencies_hz.map(() => 80),
    phase_rad: frequencies_hz.map((f) => {
      const turns = f * delay_s;
      return -2 * Math.PI * (turns - Math.round(turns));
    }),
  };
}

export const recordedNoiseCases: readonly Comparison[] = [
  {
    computation: 'A-weighted level of a recording',
    source: 'IEC 61672-1:2013 Table 3, sines at exact frequencies',
    unit: 'dB',
    tolerance: 0.06,
    because: 'half of the last digit printed, and 0.01 dB',
    count: TABLE_3.length,
    pairs: () =>
      pairsOf(
        THIRDS.map(({ exact_hz }) => noiseLevels(sine(exact_hz), RATE_HZ, null).a_dbfs),
        TABLE_3,
        (i) => `${THIRDS[i]?.nominal_hz} Hz`,
      ),
  },
  {
    computation: 'octaves of a recording, edges',
    source: 'IEC 61260-1:2014: 3.0 dB at both band edges of a Butterworth filter',
    unit: 'dB',
    tolerance: 0.15,
    because: 'what of the sine is spread over neighbouring bins falls differently beyond the edge',
    count: 16,
    pairs: () => {
      const octaves = Array.from({ length: 8 }, (_, i) => bandAt(i - 4, 1));
      const edges = octaves.flatMap(({ lower_hz, upper_hz, nominal_hz }) => [
        { at_hz: lower_hz, nominal_hz },
        { at_hz: upper_hz, nominal_hz },
      ]);
      return pairsOf(
        edges.map(
          ({ at_hz, nominal_hz }) =>
            noiseLevels(sine(at_hz), RATE_HZ, null).octaves.find(
              ({ band }) => band.nominal_hz === nominal_hz,
            )?.level_dbfs ?? Number.NaN,
        ),
        edges.map(() => 10 * Math.log10(0.5)),
        (i) => `${edges[i]?.at_hz.toFixed(1)} Hz`,
      );
    },
  },
  {
    computation: 'tone of a calibrator, level',
    source: 'by hand: 20 lg of its height',
    unit: 'dB',
    tolerance: 0.005,
    because: 'a tenth of what a class 1 calibrator may move (IEC 60942)',
    count: TONES.length,
    pairs: () =>
      pairsOf(
        TONES.map(
          ({ frequency_hz, height }) =>
            calibratorTone(
              sine(frequency_hz).map((value) => height * value),
              RATE_HZ,
            )?.level_dbfs ?? Number.NaN,
        ),
        TONES.map(({ height }) => 20 * Math.log10(height)),
        (i) => `${TONES[i]?.frequency_hz} Hz`,
      ),
  },
  {
    computation: 'arrival from text with phase',
    source: 'by definition: a delay turns the phase by −2π f t',
    unit: 's',
    tolerance: 2e-5,
    because: 'what a full-range arrival is told to',
    count: 2 * DELAYS_S.length,
    pairs: () => {
      const grids_hz = [
        logGrid_hz(20, 20_000, 48),
        Float64Array.from({ length: 5000 }, (_, i) => 4 * (i + 1)),
      ];
      const band = { from_hz: 30, to_hz: 18_000 };
      return grids_hz.flatMap((grid_hz) =>
        pairsOf(
          DELAYS_S.map(
            (delay_s) => textArrival(textOf(delay_s, grid_hz), band, false).arrival_s ?? Number.NaN,
          ),
          DELAYS_S,
          (i) => `${DELAYS_S[i]} s, ${grid_hz.length} points`,
        ),
      );
    },
  },
];
