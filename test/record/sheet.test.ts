// The record on the setup sheet: its state at the head, sessions with ticks and crosses, boxes for what is still to be heard.

import { describe, expect, test } from 'vitest';
import type { Setup } from '../../core/setup.ts';
import { renderSheet } from '../../server/sheet/renderSheet.tsx';
import { bareSetup } from '../support/setups.ts';
import { edited, exampleText, setupOf } from './textRoom.ts';

/** The text of one section, tags taken out. */
function section(html: string, id: string): string {
  const from = html.indexOf(`<section class="part" id="${id}"`);
  if (from < 0) return '';
  const rest = html.slice(from);
  const to = rest.indexOf('<section class="part"', 1);
  return plain(to < 0 ? rest : rest.slice(0, to));
}

function plain(html: string): string {
  return html
    .replace(/<[^>]*>/g, ' ')
    .replaceAll('\u00a0', ' ')
    .replace(/\s+/g, ' ')
    .trim();
}

function glance(setup: Setup): string {
  const html = renderSheet(setup, []);
  const from = html.indexOf('<dt>', html.indexOf('class="glance"'));
  return plain(html.slice(from, html.indexOf('</div>', from)));
}

const HERON = exampleText('rooms/heron.room.yaml');
const KESTREL = exampleText('rooms/kestrel.room.yaml');
const DUNLIN = exampleText('rooms/dunlin.room.yaml');

describe('the head', () => {
  test.each([
    [
      'signed and in date',
      HERON,
      /^Sign-off 2026-11-04 from the file by R\. Ames; measured; to be checked again by 2027-11-04$/,
    ],
    [
      're-check due',
      KESTREL,
      /^Sign-off re-check is due .*signed off 2026-04-15 by T\. Marlow; was to be checked again by 2026-10-15$/,
    ],
    ['out of date', DUNLIN, /^Sign-off out of date .*places and settings have changed since/],
    [
      'measured',
      withoutSignOff(KESTREL),
      /^Sign-off not signed off measured measured 2026-10-20 \(autumn_2026\)$/,
    ],
    [
      'predicted',
      exampleText('rooms/wren.room.yaml'),
      /^Sign-off not signed off predicted nothing measured$/,
    ],
  ])('%s', (_, text, want) => {
    expect(glance(setupOf(text))).toMatch(want);
  });

  test('measurements of another set-up', () => {
    const moved = edited(
      withoutSignOff(KESTREL),
      'left: { gear: tarn_10, channel: L, at: { x: 1.65 m',
      'left: { gear: tarn_10, channel: L, at: { x: 1.75 m',
    );
    expect(glance(setupOf(moved))).toMatch(
      /^Sign-off measurements out of date .*places have changed since$/,
    );
  });
});

function withoutSignOff(text: string): string {
  return text.replace(/^signed_off: .*\n/m, '');
}

describe('sections', () => {
  const kestrel = renderSheet(setupOf(KESTREL), []);

  test('sessions, each in its state', () => {
    const record = section(kestrel, 'record');
    expect(record).toContain(
      'winter_2025 2025-12-08 T. Marlow 2 takes out of date: places have changed',
    );
    expect(record).toContain('autumn_2026 2026-10-20 T. Marlow 2 takes in date');
    expect(record).toContain(setupOf(KESTREL).record?.fingerprint.text);
  });

  test('what is to be heard has boxes, and a caution with it', () => {
    const listening = section(kestrel, 'listening');
    expect(listening).toContain('loud sound harms hearing');
    expect(listening).toMatch(
      /middle asked for by the facility a voice on left and right together .* 76 dBC good doubtful bad to be filled in by hand/,
    );
    expect(kestrel.match(/class="box"/g)?.length).toBe(5 * 3);
  });

  test('what was heard has its result, its day and its name', () => {
    const html = renderSheet(setupOf(HERON), []);
    expect(section(html, 'listening')).toMatch(
      /kick and bass own drum and bass loop .* 79 dBC good 2026-11-04, R\. Ames/,
    );
    expect(html.match(/class="box"/g)).toBeNull();
    const later = edited(HERON, 'polarity: inverted', 'polarity: normal');
    expect(section(renderSheet(setupOf(later), []), 'listening')).toContain(
      'was good before the set-up changed',
    );
  });

  test('a line to sign on, and what is signed', () => {
    expect(section(kestrel, 'sign-off')).toMatch(
      /Signature to be filled in by hand .*Whoever signs, signs the set-up s-/,
    );
    const broken = edited(KESTREL, 'width: 5.60 m,', 'width: 5.60,');
    expect(section(renderSheet(setupOf(broken), []), 'sign-off')).toContain('not to be signed');
  });

  test('a setup without a record has none of it', () => {
    const html = renderSheet(bareSetup(), []);
    expect(section(html, 'record') + section(html, 'listening')).toBe('');
  });
});
