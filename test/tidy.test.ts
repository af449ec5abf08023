// What must be true of the code base as a whole: first lines, units in names, layers, pages and tests for each rule, fresh files.

import { existsSync, readdirSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { RULES } from '../core/rules/index.ts';
import { generated } from '../schema/build/generated.ts';
import { PROBLEM_KINDS } from '../schema/problems.ts';
import { RESOLVE_PROBLEM_KINDS } from '../schema/resolve/problemKinds.ts';
import { findingPages } from '../server/pages/findingPages.ts';
import { exportedNumbers } from './support/exportedNumbers.ts';
import { read, sources, withoutComments } from './support/sources.ts';

const CODE = sources(['{schema,core,server,extension,test}/**/*.{ts,tsx,mjs}', '*.ts']);
const TESTS = CODE.filter(({ path }) => /\.test\.tsx?$/.test(path));
const CODES = [...PROBLEM_KINDS, ...RESOLVE_PROBLEM_KINDS, ...RULES].map(({ code }) => code);

test('there is code to look at', () => {
  expect(CODE.length).toBeGreaterThan(100);
  expect(TESTS.length).toBeGreaterThan(10);
});

test('every file begins with a comment that says what it is', () => {
  const bad = CODE.filter(
    ({ text }) => !/^(#!.*\n)?(\/\/|\/\*\*?) *(?=\S)(?!(eslint|biome|@ts)).{10,}/.test(text),
  );
  expect(bad.map(({ path }) => path)).toEqual([]);
});

test('no test is skipped, alone or left for later', () => {
  const word =
    /\b(?:test|it|describe|suite)\s*\.\s*(?:skip|only|todo|fails|skipIf|runIf)\b|\bx(?:it|test|describe)\(/;
  const bad = TESTS.filter(({ text }) => word.test(withoutComments(text)));
  expect(bad.map(({ path }) => path)).toEqual([]);
});

describe('units', () => {
  /** The closed list of the style guide, with what products of them core has; decibels also say re what. */
  const UNIT =
    /_(m|m2|m3|s|hz|rad|k|pa|pa2|v|w|a|kg|m_s|m_s_k|kg_m3|pa_s_m|pa_s_m2|db|db2|dba|dbc|dbu|dbv|dbfs|dbspl|db_m|db_oct|per_hz|per_s|per_m|ratio)$/i;
  /**
   * Counts, places in a list and ratios say so; the rest are words for numbers without a unit, or units themselves; `value`
   * stands beside a unit, x, y and z are the orders of a mode.
   */
  const PLAIN =
    /(Count|Index|Indices|Ratio|Weights?)$|^(weights?|most_q|count|index|ratio|share|order|q|q_ofBandwidth|modal_q|rating|nr|nc|nrRange|strength|dose|hours|nepers|tolerance|connections?|exact|formula|off|lower|upper|lengthOverHeight|relativeHumidity|slopeX|slopeY|used|smoothing|start|factor|draws|rows|columns|value|[xyz])$/;
  /** Samples and spectra of recordings are relative to full scale until a microphone's sensitivity is known. */
  const SIGNAL =
    /^(a|b|bandPowers|BandPowers|circularPart|convolved|decay|early|energy|energyReversed|filtered|halved|impulse|inverseSweep|late|leadAndSweep|least|loopback|multiplied|parabolaTop|pinkNoise|played|powerOfTwoFrom|quiet|recording|repeatsAveraged|samples|seed|signal|spectrum|sweep|sweepTrain|values)$/;
  /** Matrices, complex numbers, coefficients and steps take numbers of whatever unit their caller has. */
  const ANY_UNIT =
    /^core\/(elements\/|equaliser\/(aim|bellFit|bells|leastSquares)\.ts|search\/(interpolation|quickLevel|sums|transferMap)\.ts|field\/(extremes|kept|sums)\.ts|signal\/steps\.ts|measured\/(causeFit|causeHypothesis|misfit|patternSearch|phaseLag|roomFromTakes(Edit|Figures|Misfit|Models|Report|Solve)|sessionData|takeErrors|verification)\.ts|parts\/advice\/settingText\.ts|parts\/layout\.ts|acoustics\/(guard|complex|biquad|analogueFilter|weighting|field\/)|rules\/layout\/layoutPath\.ts)/;

  test('every exported number of core names its unit, or says that it has none', () => {
    const numbers = sources(['core/**/*.ts'])
      .filter(({ path }) => !ANY_UNIT.test(path))
      .flatMap(({ path, text }) => exportedNumbers(text).map((name) => ({ path, name })));
    expect(numbers.length).toBeGreaterThan(300);
    const bad = numbers.filter(
      ({ path, name }) =>
        !UNIT.test(name) &&
        !PLAIN.test(name) &&
        !(path.startsWith('core/measure/') && SIGNAL.test(name)),
    );
    expect(bad.map(({ path, name }) => `${path}: ${name}`)).toEqual([]);
  });

  test('only SI, radians and decibels in core: no milliseconds, degrees, feet or percent', () => {
    const word = /\b\w+_(ms|us|mm|cm|ft|inch|deg|degrees|percent|khz|celsius|samples)\b/g;
    const bad = sources(['core/**/*.ts']).flatMap(({ path, text }) =>
      [...withoutComments(text).matchAll(word)].map(([name]) => `${path}: ${name}`),
    );
    expect(bad.filter((one) => !one.endsWith(': thickness_mm'))).toEqual([]); // the name of a material
  });
});

describe('layers', () => {
  /** Which of our own folders and which packages each room may import from, the nearest rule first. */
  const LAYERS: readonly (readonly [folder: string, ours: RegExp, packages: RegExp])[] = [
    ['schema/build', /^schema\//, /./],
    ['schema', /^schema\//, /^yaml$|^js-quantities$|^ajv\/dist\/runtime\//],
    ['core/acoustics', /^core\/acoustics\//, /^(?!)/],
    ['core', /^(core|schema)\//, /^(delaunator|fft\.js|ml-matrix)$/],
    [
      'server/protocol',
      /^(server\/protocol|core|schema\/model)\//,
      /^vscode-languageserver-types$/,
    ],
    ['server/sheet', /^(server\/(sheet|protocol)|core|schema\/model)\//, /^(preact|d3-)/],
    ['server/node', /^(server|core|schema)\//, /./],
    ['server/cli', /^(server|core|schema)\//, /./],
    ['server', /^(server|core|schema)\//, /^(?!node:|vscode$)/],
    [
      'extension/preview/page',
      /^(extension\/preview\/page|server\/(protocol|sheet)|core|schema\/model)\//,
      /^(preact|d3-)/,
    ],
    ['extension/build', /./, /./],
    [
      'extension',
      /^(extension|server\/protocol)\//,
      /^(vscode|vscode-languageclient|vscode-uri)|^node:/,
    ],
  ];

  test.each(LAYERS)('%s imports only what it may', (folder, ours, packages) => {
    const inner = LAYERS.map(([one]) => one).filter((one) => one.startsWith(`${folder}/`));
    const files = CODE.filter(
      ({ path }) =>
        path.startsWith(`${folder}/`) && !inner.some((one) => path.startsWith(`${one}/`)),
    );
    const bad = files.flatMap(({ path, text }) =>
      importsOf(text)
        .map((name) => (name.startsWith('.') ? resolved(path, name) : name))
        .filter((name) => !(isOurs(name) ? ours : packages).test(name))
        .map((name) => `${path} imports ${name}`),
    );
    expect(bad).toEqual([]);
  });

  test('core has no clock and no chance', () => {
    const bad = sources(['core/**/*.ts']).filter(({ text }) =>
      /\bnew Date\b|\bDate\.|\bMath\.random\b|\bperformance\./.test(withoutComments(text)),
    );
    expect(bad.map(({ path }) => path)).toEqual([]);
  });

  test('imports of our own files carry their ending', () => {
    const bad = CODE.flatMap(({ path, text }) =>
      importsOf(text)
        .filter((name) => name.startsWith('.') && !/\.(ts|tsx|js|mjs|json|css|svg)$/.test(name))
        .map((name) => `${path} imports ${name}`),
    );
    expect(bad).toEqual([]);
  });
});

test('what is made from the schemas is fresh: npm run generate', async () => {
  const made = await generated();
  const stale = [...made].filter(([path, text]) => read(path) !== text);
  expect(stale.map(([path]) => path)).toEqual([]);
});

describe('findings', () => {
  test('no two have the same code', () => {
    const twice = CODES.filter((code, index) => CODES.indexOf(code) !== index);
    expect(twice).toEqual([]);
  });

  test('each rule has a file of its own that names it in its first line', () => {
    const firstLines = sources(['core/rules/*/*.ts']).map(({ text }) => text.split('\n')[0] ?? '');
    const bad = RULES.filter(
      ({ code }) => !firstLines.some((line) => line.startsWith(`// Rule ${code}: `)),
    );
    expect(bad.map(({ code }) => code)).toEqual([]);
  });

  test('each has a test that names it', () => {
    const all = TESTS.map(({ text }) => text).join('\n');
    const bad = RULES.filter(({ code }) => !all.includes(code));
    expect(bad.map(({ code }) => code)).toEqual([]);
  });

  test('the pages in docs/findings are fresh: npx tsx server/node/writeFindingPages.ts', () => {
    const pages = findingPages();
    const folder = new URL('../docs/findings/', import.meta.url);
    expect(readdirSync(folder).toSorted()).toEqual([...pages.keys()].toSorted());
    const stale = [...pages].filter(([name, text]) => read(`docs/findings/${name}`) !== text);
    expect(stale.map(([name]) => name)).toEqual([]);
  });

  test('links in the pages lead somewhere', () => {
    for (const [name, text] of findingPages()) {
      for (const [, target = ''] of text.matchAll(/\]\(([^)]+)\)/g)) {
        expect(existsSync(new URL(`../docs/findings/${target}`, import.meta.url)), name).toBe(true);
      }
    }
  });
});

function importsOf(source: string): readonly string[] {
  const text = withoutComments(source);
  const found = text.matchAll(
    /(?:^|\n)\s*(?:import|export)\b[^'"`;]*?\bfrom\s*'([^']+)'|^import '([^']+)'|\bimport\('([^']+)'\)/gm,
  );
  return [...found].map(([, from, bare, dynamic]) => from ?? bare ?? dynamic ?? '');
}

/** A relative import as a path from the top. */
function resolved(path: string, name: string): string {
  return new URL(name, `file:///${path}`).pathname.slice(1);
}

function isOurs(name: string): boolean {
  return /^(schema|core|server|extension|test)\//.test(name);
}
