// The sheet as a document: whole, safe, and true to its Setup.

import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import type { Setup } from '../../core/setup.ts';
import { sheetCssModule } from '../../extension/build/sheetCss.ts';
import { renderSheet } from '../../server/sheet/renderSheet.tsx';
import { SHEET_CSS } from '../../server/sheet/sheetCss.generated.ts';
import { demoRooms } from '../support/demoRooms.ts';
import { bareSetup, emptyPlanSetup, hostileSetup, stereoSetup } from '../support/setups.ts';

const DEMO = demoRooms();
const ALL: readonly (readonly [string, Setup])[] = [
  ['stereo', stereoSetup()],
  ['hostile', hostileSetup()],
  ['empty plan', emptyPlanSetup()],
  ['bare', bareSetup()],
  ...DEMO.map(({ name, setup }) => [name, setup] as const),
];

/** What stands between the tags, as a reader sees it. */
function textOf(html: string): string {
  return html
    .replace(/<style>[\s\S]*?<\/style>/, '')
    .replace(/<[^>]*>/g, ' ')
    .replaceAll('&lt;', '<')
    .replaceAll('&gt;', '>')
    .replaceAll('&quot;', '"')
    .replaceAll('&amp;', '&')
    .replace(/\s+/g, ' ');
}

test('six demo rooms are there to be rendered', () => {
  expect(DEMO.map(({ name }) => name)).toEqual(
    expect.arrayContaining(['heron', 'kestrel', 'osprey', 'wren']),
  );
});

describe.each(ALL)('%s', (_, setup) => {
  const html = renderSheet(setup, []);
  const body = html.slice(html.indexOf('<body>'));

  test('needs nothing from outside and runs nothing', () => {
    expect(body.match(/<(?:script|link|img|iframe|object|embed)[^>]*/gi)).toBeNull();
    expect(body.match(/\son[a-z]+=/gi)).toBeNull();
    expect(body.match(/\sstyle=/gi)).toBeNull();
    expect(html.match(/https?:.{30}|@import|url\((?!"?#).{20}/gi)).toBeNull();
  });

  test('every section has its heading, ids are unique, every place is a path', () => {
    const sections = [
      ...body.matchAll(/<section class="(?:part|glance)"[^>]*aria-labelledby="([^"]+)"/g),
    ];
    expect(sections.length).toBeGreaterThanOrEqual(8);
    for (const [, id] of sections) expect(body.includes(`<h2 id="${id}">`), id).toBe(true);
    const ids = [...body.matchAll(/\sid="([^"]+)"/g)].map(([, id]) => id);
    expect(new Set(ids).size).toBe(ids.length);
    const places = [...body.matchAll(/data-path="([^"]*)"/g)].map(([, text]) =>
      JSON.parse(
        (text ?? '').replaceAll('&quot;', '"').replaceAll('&lt;', '<').replaceAll('&amp;', '&'),
      ),
    );
    expect(places.length).toBeGreaterThan(5);
    for (const place of places) {
      expect(Array.isArray(place) && place.every((key: unknown) => typeof key === 'string')).toBe(
        true,
      );
    }
  });

  test('a missing figure is never shown as one', () => {
    expect(textOf(body).match(/.{20}(?:\bNaN\b|Infinity|undefined|\[object).{20}/g)).toBeNull();
    // Alone in its element, that is: a null of a response is a word of the trade.
    expect(body.includes('>null<')).toBe(false);
    expect(body.match(/="[^"]*(?:NaN|Infinity|undefined)[^"]*"/g)).toBeNull();
  });
});

test('names of a file are text, whatever they hold', () => {
  const html = renderSheet(hostileSetup(), [
    { code: 'x', severity: 'error', message: '<script>x</script>', path: ['<b>'], line: 3 },
  ]);
  expect(html.includes('<script')).toBe(false);
  expect(textOf(html).includes('<script>alert("&")</script>')).toBe(true);
  expect(html.includes('<title>&lt;script&gt;')).toBe(true);
});

test('a style sheet cannot end its own element', () => {
  const html = renderSheet(stereoSetup(), [], { css: 'a{}</style><b>' });
  expect(html.match(/<\/style>/g)).toHaveLength(1);
});

describe('figures are those of the Setup, in the units of the file', () => {
  test('metric', () => {
    const text = textOf(renderSheet(stereoSetup(), []));
    // Chosen in test/support/setups.ts: 2.141 m, 6.213 ms, 83.9 m³, 344.6 m/s, 113 Hz, 3.2 dB, 24°, 6.16 V = 18.0 dBu.
    for (const figure of [
      '2.14 m',
      '6.21 ms',
      '83.9 m³',
      '344.6 m/s',
      'Schroeder 113 Hz',
      'ripple of the sum 3.2 dB, phase 24° there',
      '18.0 dBu (6.16 V)',
      '−6.0 dB can clip',
      '79 dBC',
      'monitor control at −18',
      '1 error, 1 warning',
    ]) {
      expect(text.includes(figure), figure).toBe(true);
    }
  });

  test('feet and Fahrenheit', () => {
    const text = textOf(renderSheet(emptyPlanSetup(), []));
    // 6 m = 19 ft 8 1/4 in; 294.65 K = 70.7 °F (by the definitions of the inch and the degree).
    expect(text.includes('19 ft 8 1/4 in')).toBe(true);
    expect(text.includes('70.7 °F')).toBe(true);
    expect(text.match(/.{20}(?:\d m\b|°C)/g)).toBeNull();
  });

  test.each(DEMO)('every arrival of $name stands in its table', ({ setup, problems }) => {
    const html = renderSheet(setup, problems);
    let count = 0;
    for (const { id, arrivals } of setup.seats) {
      const table = html.split(`aria-label="Arrivals at ${id}"`)[1]?.split('</table>')[0] ?? '';
      for (const { flight_s } of arrivals) {
        const flight = `${(flight_s * 1000).toFixed(2)} ms`;
        expect(table.includes(flight), `${id}: ${flight}`).toBe(true);
        count += 1;
      }
    }
    expect(count).toBe(setup.seats.flatMap(({ arrivals }) => arrivals).length);
    expect(count).toBeGreaterThan(0);
  });
});

test('predicted figures do not look like measured ones', () => {
  const html = renderSheet(stereoSetup(), []);
  expect(html.includes('<span class="value value-predicted">75 Hz, 24 dB/oct</span>')).toBe(true);
  expect(html.includes('<span class="value value-measured">0.27 s</span>')).toBe(true);
  expect(SHEET_CSS).toMatch(/\.value-predicted \{[^}]*italic/);
});

test('a setting that agrees, one that differs and one that is missing differ by word and by form', () => {
  const html = renderSheet(stereoSetup(), []);
  const forms = ['agrees', 'differs', 'open'].map(
    (kind) => html.match(new RegExp(`mark-${kind}"[^>]*><path d="([^"]+)"`))?.[1],
  );
  expect(new Set(forms).size).toBe(3);
  expect(forms).not.toContain(undefined);
  const text = textOf(html);
  for (const word of ['agrees', 'differs', 'not in the file'])
    expect(text.includes(word)).toBe(true);
});

test('the style module is fresh: npx tsx extension/build/sheetCss.ts', () => {
  const folder = new URL('../../server/sheet/', import.meta.url);
  const css = readFileSync(new URL('sheet.css', folder), 'utf8');
  expect(readFileSync(new URL('sheetCss.generated.ts', folder), 'utf8')).toBe(sheetCssModule(css));
  expect(SHEET_CSS).toBe(css);
});
