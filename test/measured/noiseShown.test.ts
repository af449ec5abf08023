// What people see of recorded noise and of the calibrator: hints, hovers, a table on the sheet, figures, and the edit that writes it.

import { beforeAll, expect, test } from 'vitest';
import { showFor } from '../../core/show.ts';
import type { Analysis } from '../../server/analysis.ts';
import { measurementHints } from '../../server/features/inlayHints/measurementHints.ts';
import { measuredJson } from '../../server/figures/measuredFigures.ts';
import { renderSheet } from '../../server/sheet/renderSheet.tsx';
import { explanationsAbout } from '../../server/words/about.ts';
import { measuredRoom } from './measuredRoom.ts';
import { wavOf } from './takeBytes.ts';

const RATE_HZ = 12_000;

/** A sine against full scale, which is 100 dB SPL by a calibrator of 94 dB at half of it (20 lg ½ = −6.02 dB). */
function tone(frequency_hz: number, height: number): Uint8Array {
  const samples = Float64Array.from(
    { length: 3 * RATE_HZ },
    (_, i) => height * Math.sin((2 * Math.PI * frequency_hz * i) / RATE_HZ),
  );
  return wavOf([samples], '24', RATE_HZ);
}

let analysis: Analysis;
beforeAll(async () => {
  const session = `sessions:
  autumn:
    date: 2026-11-03
    calibrator: { file: takes/calibrator.wav, level: 94 dB }
    noise:
      fan: { file: takes/fan.wav, seat: mix }
`;
  analysis = await measuredRoom(session, {
    'calibrator.wav': tone(1000, 0.5),
    // 94 + 6.02 − 60 = 40.0 dB SPL
    'fan.wav': tone(125.893, 0.001),
  });
});

function setupOf({ setup }: Analysis): NonNullable<Analysis['setup']> {
  if (setup === null) throw new RangeError('no setup');
  return setup;
}

// A weighting at 125 Hz: −16.1 dB (IEC 61672-1 Table 3); NR (40 − 22)/0.87 = 20.7 (ISO/R 1996:1971).
test('hints: level and rating of the noise, full scale on the calibrator', () => {
  const setup = setupOf(analysis);
  const told = measurementHints(setup, showFor(setup.room.habits)).map(
    ({ path, parts }) => `${path.slice(2).join('.')} ${parts.map(({ text }) => text).join(' · ')}`,
  );
  expect(told).toEqual(['noise.fan 23.9 dBA, NR 20.7', 'calibrator full scale is 100.0 dB SPL']);
});

test('hovers: octaves with what is asked for, and how the tone was found', () => {
  const setup = setupOf(analysis);
  const about = (...path: readonly string[]) =>
    explanationsAbout(setup, ['sessions', 'autumn', ...path], showFor(setup.room.habits))
      .flatMap(({ title, lines }) => [title, ...lines.map(String)])
      .join('\n');
  const noise = about('noise', 'fan');
  expect(noise).toMatch(/This recording: 23\.9 dBA, NR 20\.7/);
  // 22 + 0.87 × 15 = 35.05
  expect(noise).toMatch(/125 Hz: 40\.0 dB, at most 35\.\d dB/);
  expect(noise).toMatch(/held against NR 15/);
  expect(about('calibrator')).toMatch(/a tone at (1000 Hz|1 kHz), -6\.02 dBFS, for 94\.0 dB SPL/);
});

test('the sheet has a row of octaves above those that are asked for', () => {
  const text = renderSheet(setupOf(analysis), [])
    .replace(/<[^>]+>/g, ' ')
    .replace(/\s+/g, ' ');
  expect(text).toMatch(/fan mix .* 40\.0 .* 23\.9 dBA NR 20\.7 at most NR 15, the most/);
  expect(text).toMatch(
    /Calibrator : (1000 Hz|1 kHz), 94\.0 dB SPL, −6\.0 dBFS; full scale is 100\.0 dB SPL\./,
  );
});

test('figures', () => {
  const { sessions } = measuredJson(setupOf(analysis)) as {
    readonly sessions: {
      readonly autumn: { readonly noise: unknown; readonly calibrator: unknown };
    };
  };
  expect(sessions.autumn.noise).toMatchObject({
    fan: { seat: 'mix', basis: 'spl', noise_rating_decided_at_hz: 125, faults: [] },
  });
  expect(sessions.autumn.calibrator).toMatchObject({ frequency_hz: 1000, level_dbspl: 94 });
});

test('the noise can be written into the file', () => {
  const found = analysis.remarks.find(({ code }) => code === 'measured/noise-differs');
  const [fix] = found?.fixes ?? [];
  expect(JSON.stringify(fix)).toContain('125 Hz: 40.0 dB');
});
