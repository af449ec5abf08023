// Writes the takes of the demo room Kestrel: three sessions of its front pair, invented, by image sources. Run: npx tsx test/record/writeKestrelTakes.ts
//
// From spring to autumn the right loudspeaker loses 4 dB above 3 kHz, which no edit of the file explains. In the winter before, the
// pair stood 20 cm farther back.

import { writeFileSync } from 'node:fs';
import { butterworth4High, chain, type Filter, linkwitzRiley4 } from '../synthesis/electronics.ts';
import {
  admittanceOf,
  frequencyOf_hz,
  type ImageRoom,
  type Triple,
} from '../synthesis/imageRoom.ts';
import { heardSpectrum, hissOf } from '../synthesis/measure.ts';

/** A little otherwise than the file has them. */
const SIZE_M: Triple = [5.603, 7.396, 3.048];
const MIX: Triple = [2.802, 3.097, 1.221];
/** Chosen by itself, in round figures: the file's decay times are what a survey of this room reads. */
const SIDE = [0.28, 0.3, 0.38, 0.42, 0.4, 0.38, 0.38, 0.4, 0.42];
const ABSORPTION = [
  SIDE,
  SIDE,
  [0.3, 0.32, 0.38, 0.4, 0.38, 0.36, 0.36, 0.38, 0.4],
  [0.4, 0.46, 0.56, 0.64, 0.68, 0.68, 0.68, 0.68, 0.68],
  [0.1, 0.12, 0.12, 0.14, 0.22, 0.28, 0.34, 0.4, 0.46],
  [0.34, 0.38, 0.4, 0.4, 0.4, 0.4, 0.4, 0.4, 0.42],
];

/** The loudspeaker's own end, −6 dB at 34 Hz, and the crossover in front of it. */
const ELECTRONICS: Filter = chain(butterworth4High(34 / 0.8723), linkwitzRiley4(70, true));

const GRID_HZ = Array.from({ length: 103 }, (_, index) => 45 * 2 ** (index / 12));

interface Session {
  readonly name: string;
  readonly temperature_k: number;
  readonly y_m: number;
  readonly gain_db: number;
  readonly seed: number;
  /** What the right one loses of its treble. */
  readonly loss_db: number;
}

const SESSIONS: readonly Session[] = [
  { name: 'winter', temperature_k: 293.15, y_m: 0.91, gain_db: 75, seed: 11, loss_db: 0 },
  { name: 'spring', temperature_k: 294.15, y_m: 1.11, gain_db: 75.1, seed: 12, loss_db: 0 },
  { name: 'autumn', temperature_k: 295.65, y_m: 1.11, gain_db: 75, seed: 13, loss_db: 4 },
];

const SIDES = [
  { name: 'left', x_m: 1.65 },
  { name: 'right', x_m: 3.95 },
] as const;

for (const session of SESSIONS) {
  const next = hissOf(session.seed);
  for (const { name, x_m } of SIDES) {
    const at: Triple = [x_m, session.y_m, 1.22];
    const spectrum = heardSpectrum(
      roomAt(session.temperature_k),
      [{ at, filter: ELECTRONICS }],
      MIX,
    );
    const lines = GRID_HZ.map((frequency_hz) => {
      const loss_db = name === 'right' ? session.loss_db * stepUp(frequency_hz) : 0;
      const level_db =
        smoothed_db(spectrum, frequency_hz) + session.gain_db - loss_db + 0.15 * next();
      return `${frequency_hz.toFixed(1)}, ${level_db.toFixed(2)}`;
    });
    const head = [
      `# Kestrel, ${name} at the mix seat, ${session.name}`,
      '# Invented: worked out by image sources for this demo, not measured. A sixth of an octave.',
      '# frequency (Hz), level (dB)',
    ];
    const file = `../../examples/rooms/measurements/kestrel-${session.name}-${name}-mix.txt`;
    writeFileSync(new URL(file, import.meta.url), `${[...head, ...lines].join('\n')}\n`);
  }
}

/** The walls are what they are, however warm it is. */
function roomAt(temperature_k: number): ImageRoom {
  return {
    size_m: SIZE_M,
    speedOfSound_m_s: 331.3 * Math.sqrt(temperature_k / 273.15),
    admittance: admittanceOf(ABSORPTION),
  };
}

/** From 0 to 1 over two octaves about 3 kHz. */
function stepUp(frequency_hz: number): number {
  return 1 / (1 + (3000 / frequency_hz) ** 4);
}

/** Mean power over a sixth of an octave. */
function smoothed_db(spectrum: Float64Array, middle_hz: number): number {
  const [from_hz, to_hz] = [middle_hz * 2 ** (-1 / 12), middle_hz * 2 ** (1 / 12)];
  let [sum, count] = [0, 0];
  for (let bin = 1; bin < spectrum.length / 2; bin += 1) {
    const frequency_hz = frequencyOf_hz(bin);
    if (frequency_hz < from_hz || to_hz < frequency_hz) continue;
    sum += (spectrum[2 * bin] ?? 0) ** 2 + (spectrum[2 * bin + 1] ?? 0) ** 2;
    count += 1;
  }
  return 10 * Math.log10(sum / count);
}
