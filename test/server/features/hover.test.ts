// Hover: meaning, computed figures with derivation and source, what a word refers to, what was found.

import { expect, test } from 'vitest';
import { hover } from '../../../server/features/hover.ts';
import { analysisOf, ROOM_TEXT } from '../support/facility.ts';
import { cursorIn } from '../support/marked.ts';

async function hoverAt(before: string, after: string): Promise<string> {
  const { text, offset } = cursorIn(ROOM_TEXT.replace(before, after));
  const found = hover(await analysisOf(text), offset, null);
  return JSON.stringify(found?.contents ?? '');
}

test.each([
  ['a key', 'temperature: 20', 'temp$0erature: 20', /temperature.*°C/],
  ['a place', 'left: { gear', 'le$0ft: { gear', /time of flight 1\.40 m ÷ 344\.0 m\/s/],
  ['an angle', 'left: { gear', 'le$0ft: { gear', /M\+030 of 0\+2\+0/],
  ['the size', 'size: {', 'si$0ze: {', /volume 63\.5 m³/],
  ['a setting', 'polarity: normal', 'pol$0arity: normal', /Whether the signal is turned over/],
  ['a crossover', 'crossover: {', 'cross$0over: {', /what the acoustic sum says/],
  [
    'a gear model',
    'gear: rail_2',
    'gear: ra$0il_2',
    /gear `rail_2` \(`test\.gear\.yaml`\): kind interface/,
  ],
  ['an item', 'item: plover_a', 'item: plov$0er_a', /item `plover_a` \(`facility\.yaml`\)/],
  ['a connection', 'desk.main_left ->', 'desk.main$0_left ->', /`desk\.main_left` \(L\) to `left`/],
  ['the air', 'air: {', 'a$0ir: {', /speed of sound \*\*344\.0 m\/s/],
  ['the layout', 'layout: 0', 'lay$0out: 0', /M\+030 \(L\): `left`/],
])('on %s', async (_, before, after, want) => {
  expect(await hoverAt(before, after)).toMatch(want);
});

test('on noise in bands: each octave beside its limit, and the band that decides', async () => {
  // (40 − 22.0)/0.87 = NR 20.7 at 125 Hz; NR 15 there 35.05 dB (ISO/R 1996)
  const said = await hoverAt(
    'space:',
    'space:\n  back$0ground_noise: { bands: { 125 Hz: 40 dB, 1 kHz: 12 dB } }',
  );
  expect(said).toContain('noise rating NR 20.7, decided at 125 Hz');
  expect(said).toMatch(/125 Hz: 40\.0 dB is NR 20\.7, at most 35\.\d dB/);
});

test('a finding tells why, what to do and the source', async () => {
  const said = await hoverAt('gear: rail_2', 'gear: ra$0il_3');
  expect(said).toContain('reference/gear');
  expect(said).toContain('Correct the name');
});

test('on a comment there is nothing', async () => {
  const { text, offset } = cursorIn(`# about $0this room\n${ROOM_TEXT}`);
  expect(hover(await analysisOf(text), offset, null)).toBeNull();
});
