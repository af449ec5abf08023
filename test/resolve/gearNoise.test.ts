// Noise of gear as SI: dBu, dBV and dBFS at an output, dBA of a loudspeaker; other weightings tell nothing.

import { expect, test } from 'vitest';
import type { Gear } from '../../schema/model/gear.ts';
import { parseFile } from '../../schema/parse/parseFile.ts';
import { gearLibrary } from '../../schema/resolve/gearLibrary.ts';
import { expectNear } from '../support/expectNear.ts';
import { named } from './small.ts';

const file = (lines: string) => `gear: 1\nmodels:\n  a:\n${lines.replace(/^/gm, '    ')}\n`;
function model(lines: string): Gear {
  const gear = gearLibrary([named('x.gear.yaml', 'gear', file(lines))]).get('a')?.gear;
  if (gear === null || gear === undefined) throw new Error('no model a');
  return gear;
}

// 0 dBu is 0.7746 V, 0 dBV 1 V; −100 dBFS of an output of +20 dBu are −80 dBu. Definitions of dBu, dBV and dBFS (AES17).
test.each([
  ['kind: interface\noutput_noise: -80 dBu', 77.4597e-6],
  ['kind: interface\noutput_noise: -80 dBV', 100e-6],
  ['kind: interface\nfull_level_output: 20 dBu\noutput_noise: -100 dBFS', 77.4597e-6],
])('%j', (lines, noise_v) => {
  expect(parseFile('gear', file(lines)).problems).toEqual([]);
  expectNear(model(lines).outputNoise_v ?? Number.NaN, noise_v, 1e-9, 'V');
});

test('dBFS of an output whose full level is not recorded is no voltage', () => {
  expect(model('kind: interface\noutput_noise: -100 dBFS')).not.toHaveProperty('outputNoise_v');
});

test('a loudspeaker’s own noise is A-weighted or left out', () => {
  expect(model('kind: loudspeaker\nself_noise: 8 dBA').selfNoise_dba).toBe(8);
  expect(model('kind: loudspeaker\nself_noise: 8 dB')).not.toHaveProperty('selfNoise_dba');
  expect(model('kind: loudspeaker')).not.toHaveProperty('selfNoise_dba');
});

test('a length is no noise', () => {
  expect(parseFile('gear', file('kind: loudspeaker\nself_noise: 3 m')).problems).toHaveLength(1);
});
