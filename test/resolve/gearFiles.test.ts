// Gear files: models in SI, and what is wrong with them told in the gear file itself.

import { expect, test } from 'vitest';
import type { Gear } from '../../schema/model/gear.ts';
import { parseFile } from '../../schema/parse/parseFile.ts';
import { checkGear } from '../../schema/resolve/checkGear.ts';
import { gearLibrary } from '../../schema/resolve/gearLibrary.ts';
import { expectNear } from '../support/expectNear.ts';
import { expectMarked } from './marked.ts';
import { GEAR, named } from './small.ts';

function model(text: string, id = 'a'): Gear {
  const gear = gearLibrary([named('x.gear.yaml', 'gear', text)]).get(id)?.gear;
  if (gear === null || gear === undefined) throw new Error(`no model ${id}`);
  return gear;
}

const one = (lines: string) => `gear: 1\nmodels:\n  a:\n${lines.replace(/^/gm, '    ')}\n`;

function checkFile(text: string): void {
  const parsed = parseFile('gear', text);
  expectMarked(text, [...parsed.problems, ...checkGear(parsed).problems]);
}

test('the small gear file is without faults', () => {
  checkFile(GEAR);
});

test('paths, buses, controls', () => {
  const gear = model(GEAR, 'moor_12');
  expect(gear.paths).toContainEqual({
    from: 'bass',
    stages: ['eq', 'phase', 'delay', 'polarity', 'level'],
    to: 'driver',
  });
  expect(gear.buses).toEqual([{ name: 'bass', sum_db: -6 }]);
  expect(gear.controls.find(({ name }) => name === 'crossover')).toEqual({
    name: 'crossover',
    stages: ['high_pass', 'low_pass'],
    eachPort: false,
    kind: 'filter',
    family: 'linkwitz_riley',
    frequency_hz: { min: 40, max: 130, step: 5, choices: null },
    slope_db_oct: { min: null, max: null, step: null, choices: [12, 24] },
    bypass: false,
  });
  const delay = gear.controls.find(({ name }) => name === 'delay');
  expect(delay).toMatchObject({ eachPort: true, kind: 'delay', toldAs: { as: 'time' } });
  if (delay?.kind === 'delay') expectNear(delay.delay_s.step ?? 0, 0.00005, 1e-15, 's');
});

test('latency: one for all, or one for each port', () => {
  expect(model(GEAR, 'heath_6').latency_s.map(({ port }) => port)).toEqual(['*']);
  const ports = model(GEAR, 'moor_12').latency_s;
  expect(ports.map(({ port }) => port)).toEqual(['driver', 'out_left', 'out_right']);
  expectNear(
    ports.map(({ latency_s }) => latency_s),
    [0.0008, 0.0008, 0.0008],
    1e-15,
    's',
  );
});

test('samples at the only rate: a step of 1/48000 s', () => {
  const gear = model(
    one(`kind: processor
sample_rates: [48 kHz]
latency: 48 samples
controls: { delay: { told_as: samples, step: 1 samples, max: 4800 samples } }`),
  );
  const [delay] = gear.controls;
  expect(delay).toMatchObject({ toldAs: { as: 'samples', rate_hz: 48000 } });
  if (delay?.kind === 'delay')
    expectNear([delay.delay_s.step ?? 0, delay.delay_s.max ?? 0], [1 / 48000, 0.1], 1e-12, 's');
  expectNear(gear.latency_s[0]?.latency_s ?? 0, 0.001, 1e-12, 's');
});

test('lengths become time with the speed of sound that the device counts with', () => {
  const gear = model(
    one(`kind: subwoofer
controls: { delay: { told_as: own_distance, speed_of_sound: 344 m/s, step: 5 cm, max: 12 m } }`),
  );
  const [delay] = gear.controls;
  expect(delay).toMatchObject({ toldAs: { as: 'own_distance', speedOfSound_m_s: 344 } });
  if (delay?.kind === 'delay') expectNear(delay.delay_s.step ?? 0, 0.05 / 344, 1e-12, 's');
});

test('what a box that only has its kind falls off with: sealed 12, vented 24 dB/oct', () => {
  // Second-order and fourth-order alignments: Small, J. Audio Eng. Soc. 1972 and 1973.
  const slope = (kind: string) =>
    model(one(`kind: loudspeaker\nlow_end: { minus_6_db: 50 Hz, kind: ${kind} }`)).lowEnd
      ?.slope_db_oct;
  expect(slope('sealed')).toBe(12);
  expect(slope('vented')).toBe(24);
  expect(slope('passive_radiator')).toBe(24);
});

test('levels for a corner are brought to half space: 6 dB for each further surface', () => {
  // An image source doubles the pressure: 20 lg 2 = 6.02 dB, told in the trade as 6 dB.
  const level = (space: string) =>
    model(
      one(`kind: subwoofer
max_level: { at: 1 m, space: ${space}, peak: { 40 Hz: 110 dB } }`),
    ).maxLevel;
  expect(level('half')).toMatchObject({ space: 'half', peak_db: { value: [110] } });
  expect(level('eighth')).toMatchObject({ space: 'half', peak_db: { value: [98] } });
  expect(level('full')).toMatchObject({ space: 'full', peak_db: { value: [110] } });
});

test('paths with wrong words', () => {
  checkFile(`gear: 1
models:
  a:
    kind: subwoofer
    inputs: [in_left]
    outputs: [out_left]
    buses: { bass: { sum: -6 dB } }
    paths:
      - in_lft -> level -> out_left
      # ^^^^^^ error: No input or bus is called \`in_lft\`; did you mean \`in_left\`?
      - in_left -> levl -> bass
      #            ^^^^ error: No stage is called \`levl\`; did you mean \`level\`?
      - bass -> tilt -> drver
      #                 ^^^^^ error: No output or bus is called \`drver\`; did you mean \`driver\`?
      - out_left -> level -> driver
      # ^^^^^^^^ error: \`out_left\` is an output; a path starts at an input or a bus
      - bass -> level -> in_left
      #                  ^^^^^^^ error: \`in_left\` is an input; a path ends at an output, a bus or \`driver\`
    latency: { out_lft: 1 ms }
#              ^^^^^^^ error: \`a\` has no port called \`out_lft\`; did you mean \`out_left\`?
    controls: { tilt: { choices: [flat, desk] } }
`);
});

test('a damaged path is left out, the others stay', () => {
  const gear = model(
    one(`kind: loudspeaker
inputs: [in]
paths: [in -> level -> driver, inn -> driver]`),
  );
  expect(gear.paths).toEqual([{ from: 'in', stages: ['level'], to: 'driver' }]);
});

test('a range that runs backwards', () => {
  checkFile(`gear: 1
models:
  a:
    kind: loudspeaker
    controls: { level: { min: 0 dB, max: -20 dB } }
    #                                    ^^^^^^ error: \`max\` is less than \`min\`
`);
});

test('the same model in two files is told in both, and the first one counts', () => {
  const first = named('one.gear.yaml', 'gear', one('kind: loudspeaker'));
  const second = named('two.gear.yaml', 'gear', one('kind: subwoofer'));
  const [problem] = checkGear(second.parsed, [first, second]).problems;
  expect(problem).toMatchObject({ code: 'reference/model-twice', path: ['models', 'a'] });
  expect(problem?.related?.[0]).toMatchObject({ file: 'one.gear.yaml' });
  expect(gearLibrary([first, second]).get('a')?.gear?.kind).toBe('loudspeaker');
});

test('words of a path refer to what they name', () => {
  const parsed = parseFile('gear', GEAR);
  const words = checkGear(parsed)
    .references.filter(({ path }) => path.join('.') === 'models.moor_12.paths.1')
    .map(({ range, target }) => [GEAR.slice(range.start, range.end), target?.path.join('.')]);
  expect(words).toEqual([
    ['in_left', 'models.moor_12.inputs.0'],
    ['input_sensitivity', 'models.moor_12.controls.input_sensitivity'],
    ['low_pass', 'models.moor_12.controls.crossover'],
    ['bass', 'models.moor_12.buses.bass'],
  ]);
});
