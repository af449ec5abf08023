// The layouts of ITU-R BS.2051: their loudspeakers, labels, ranges of angle and channel names.

import { expect, test } from 'vitest';
import { isLfeName, knownChannels, positionFor } from '../../../core/layouts/channelNames.ts';
import { ITU_2051_LAYOUTS, layoutNamed } from '../../../core/layouts/itu2051.ts';
import type { Layout } from '../../../core/layouts/position.ts';
import { expectNear } from '../../support/expectNear.ts';

const RAD = Math.PI / 180;

function named(name: string): Layout {
  const layout = layoutNamed(name);
  if (layout === undefined) throw new Error(`no layout ${name}`);
  return layout;
}

/** @source ITU-R BS.2051: the name counts upper + middle + bottom loudspeakers, without LFE; systems A to J */
const SYSTEMS = [
  ['A', '0+2+0', 0],
  ['B', '0+5+0', 1],
  ['C', '2+5+0', 1],
  ['D', '4+5+0', 1],
  ['E', '4+5+1', 1],
  ['F', '3+7+0', 2],
  ['G', '4+9+0', 1],
  ['H', '9+10+3', 2],
  ['I', '0+7+0', 1],
  ['J', '4+7+0', 1],
] as const;

test.each(SYSTEMS)('system %s is %s with %i LFE (ITU-R BS.2051)', (system, name, lfeCount) => {
  const { positions, ...layout } = named(name);
  expect(layout.system).toBe(system);
  const [upper, middle, bottom] = name.split('+').map(Number);
  const count = (layer: RegExp) => positions.filter(({ label }) => layer.test(label)).length;
  expect(count(/^(U|UH|T)[+-]/)).toBe(upper);
  expect(count(/^M[+-]/)).toBe(middle);
  expect(count(/^B[+-]/)).toBe(bottom);
  expect(positions.filter(({ isLfe }) => isLfe).length).toBe(lfeCount);
  expect(new Set(positions.map(({ label }) => label)).size).toBe(positions.length);
});

test('ten systems, no more', () => {
  expect(ITU_2051_LAYOUTS.map(({ name }) => name)).toEqual(SYSTEMS.map(([, name]) => name));
});

/**
 * Ranges in degrees. @source BS.775-3 Figure 1 for M±030 and M±110 (azimuth); the others a public transcription of BS.2051
 */
const RANGES = [
  ['0+2+0', 'M+030', 30, 30, 0, 0],
  ['0+2+0', 'M-030', -30, -30, 0, 0],
  ['0+5+0', 'M+000', 0, 0, 0, 0],
  ['0+5+0', 'M+110', 100, 120, 0, 15],
  ['0+5+0', 'M-110', -120, -100, 0, 15],
  ['2+5+0', 'U-030', -45, -30, 30, 55],
  ['4+5+0', 'U+110', 100, 135, 30, 55],
  ['4+5+0', 'M+110', 100, 120, 0, 0],
  ['0+7+0', 'M+090', 85, 110, 0, 0],
  ['0+7+0', 'M-135', -150, -120, 0, 0],
  ['4+7+0', 'M+030', 30, 45, 0, 0],
  ['4+7+0', 'U+045', 30, 45, 30, 55],
  ['4+7+0', 'U-135', -150, -100, 30, 55],
  ['3+7+0', 'UH+180', 180, 180, 45, 90],
  ['3+7+0', 'M+090', 60, 150, 0, 0],
  ['9+10+3', 'T+000', 0, 0, 90, 90],
  ['9+10+3', 'B-045', -60, -45, -30, -15],
] as const;

test.each(RANGES)('%s %s: azimuth %d to %d, elevation %d to %d', (name, label, ...want) => {
  const position = named(name).positions.find((one) => one.label === label);
  const got = [...(position?.azimuth_rad ?? []), ...(position?.elevation_rad ?? [])];
  expectNear(
    got,
    want.map((degrees) => degrees * RAD),
    1e-12,
    'rad',
  );
});

test('every pair is a mirror image', () => {
  for (const { positions } of ITU_2051_LAYOUTS) {
    for (const left of positions.filter(
      ({ label, isLfe }) => /\+(?!000|180)/.test(label) && !isLfe,
    )) {
      const right = positions.find(({ label }) => label === left.label.replace('+', '-'));
      expectNear(right?.azimuth_rad ?? [], [-left.azimuth_rad[1], -left.azimuth_rad[0]], 0, 'rad');
      expect(right?.elevation_rad).toEqual(left.elevation_rad);
    }
  }
});

/** @source ITU-R BS.2051 labels and channel names (names from memory); other spellings: common practice, no source */
const NAMES = [
  ['0+2+0', 'L', 'M+030'],
  ['0+2+0', 'M-030', 'M-030'],
  ['0+5+0', 'C', 'M+000'],
  ['0+5+0', 'Ls', 'M+110'],
  ['0+5+0', 'ls', 'M+110'],
  ['0+5+0', 'LFE', 'LFE1'],
  ['0+7+0', 'Lss', 'M+090'],
  ['0+7+0', 'Ls', 'M+090'],
  ['0+7+0', 'Rrs', 'M-135'],
  ['4+5+0', 'Ltr', 'U+110'],
  ['4+7+0', 'Rtf', 'U-045'],
  ['4+7+0', 'Ltr', 'U+135'],
  ['4+7+0', 'Ltb', 'U+135'],
  ['3+7+0', 'LS', 'M+090'],
  ['9+10+3', 'FL', 'M+060'],
  ['9+10+3', 'FLc', 'M+030'],
] as const;

test.each(NAMES)('in %s the name %s is %s', (name, channel, label) => {
  expect(positionFor(named(name), channel)?.label).toBe(label);
});

test('names that a layout does not have', () => {
  expect(positionFor(named('0+2+0'), 'C')).toBeUndefined();
  expect(positionFor(named('0+5+0'), 'Ltf')).toBeUndefined();
  expect(layoutNamed('5.1')).toBeUndefined();
});

test('LFE is known by name', () => {
  expect(['LFE', 'LFE1', 'lfe2', 'L', 'Lfe10'].map(isLfeName)).toEqual([
    true,
    true,
    true,
    false,
    false,
  ]);
});

test('completion offers each name once', () => {
  const known = knownChannels(ITU_2051_LAYOUTS);
  expect(new Set(known).size).toBe(known.length);
  expect(known.slice(0, 2)).toEqual(['L', 'R']);
  expect(known).toContain('U+135');
});
