// Beside a fingerprint: whether the set-up is still the one it stands for; on hovering, what differs and until when it holds.

import { expect, test } from 'vitest';
import { hover } from '../../server/features/hover.ts';
import { inlayHints } from '../../server/features/inlayHints/inlayHints.ts';
import { DEFAULT_SETTINGS } from '../../server/protocol/settings.ts';
import { analysisOf, ROOM_TEXT } from '../server/support/facility.ts';

const WHOLE = { start: { line: 0, character: 0 }, end: { line: 1000, character: 0 } };

async function signedText(date: string): Promise<string> {
  const print = (await analysisOf(ROOM_TEXT)).setup?.record?.fingerprint.text ?? '';
  return `${ROOM_TEXT}signed_off: { date: ${date}, by: R. Ames, setup: ${print}, recheck: 12 months }\n`;
}

/** Hints on the sign-off's line, in words. */
async function hintOn(text: string): Promise<readonly string[]> {
  const line = text.split('\n').findIndex((one) => one.startsWith('signed_off'));
  const hints = inlayHints(await analysisOf(text), WHOLE, {
    ...DEFAULT_SETTINGS.hints,
    enabled: true,
  });
  return hints
    .filter(({ position }) => position.line === line)
    .map(({ label }) =>
      (typeof label === 'string' ? label : label.map(({ value }) => value).join('')).trim(),
    );
}

test('in date, changed, due', async () => {
  const signed = await signedText('2026-11-04');
  expect(await hintOn(signed)).toEqual(['in date']);
  expect(await hintOn(signed.replace('polarity: normal', 'polarity: inverted'))).toEqual([
    'settings changed',
  ]);
  expect(await hintOn(await signedText('2025-11-04'))).toEqual(['re-check is due']);
  expect(await hintOn(signed.replace(/, setup: [^,]+/, ''))).toEqual([]);
  expect(await hintOn(signed.replace('width: 4.20 m', 'width: 4.20'))).toEqual([]);
});

test('hovering tells the same, and until when it holds', async () => {
  const text = (await signedText('2026-11-04')).replace('x: 1.70 m', 'x: 1.90 m');
  const analysis = await analysisOf(text);
  const at = hover(analysis, text.indexOf('setup: s-') + 2, null);
  const told = JSON.stringify(at?.contents);
  expect(told).toContain('out of date: places have changed');
  expect(told).toContain('differs from now in places');
  expect(told).toContain('to be checked again by 2027-11-04');
});
