// Every word that a user meets, gathered from where it is said: schemas, catalogues, manifest, command line, sheet, hints, figures.

import { MATERIALS } from '../../core/acoustics/materials.ts';
import { ITU_2051_LAYOUTS } from '../../core/layouts/itu2051.ts';
import { RULES } from '../../core/rules/index.ts';
import { PROBLEM_KINDS } from '../../schema/problems.ts';
import { UNITS } from '../../schema/quantity/units.ts';
import { RESOLVE_PROBLEM_KINDS } from '../../schema/resolve/problemKinds.ts';
import type { Analysis } from '../../server/analysis.ts';
import { processIo } from '../../server/cli/io.ts';
import { run } from '../../server/cli/run.ts';
import { inlayHints } from '../../server/features/inlayHints/inlayHints.ts';
import { figures } from '../../server/figures/figures.ts';
import { fileUri, nodeFiles } from '../../server/node/nodeFiles.ts';
import { DEFAULT_SETTINGS, HINT_KINDS } from '../../server/protocol/settings.ts';
import { createSession } from '../../server/session.ts';
import { read, sources } from './sources.ts';

type Words = ReadonlySet<string>;

const HERE = processIo();
const SCHEMAS = ['room', 'gear', 'facility', 'settings', 'shared'];

/** Keys of the three kinds of file. */
export function fileKeys(): Words {
  return inSchemas((key, value) => (key === 'properties' ? Object.keys(record(value)) : []));
}

/** Words that a value may be, as far as the format fixes them. */
export function choices(): Words {
  const found = inSchemas((key, value) => {
    if (key === 'enum') return Array.isArray(value) ? value.map(String) : [];
    return key === 'const' && typeof value === 'string' ? [value] : [];
  });
  // What YAML takes for truth and nothingness is listed as what no name may be.
  return new Set([...found].filter((word) => !/^(true|false|yes|no|on|y|n|null)$/.test(word)));
}

function inSchemas(wordsOf: (key: string, value: unknown) => readonly string[]): Words {
  const words = new Set<string>();
  const visit = (node: unknown): void => {
    if (typeof node !== 'object' || node === null) return;
    for (const [key, value] of Object.entries(node)) {
      for (const word of wordsOf(key, value)) words.add(word);
      visit(value);
    }
  };
  for (const name of SCHEMAS) visit(JSON.parse(read(`schema/${name}.schema.json`)));
  return words;
}

function record(value: unknown): object {
  return typeof value === 'object' && value !== null ? value : {};
}

export function materials(): Words {
  return new Set(MATERIALS.keys());
}

export function unitSymbols(): Words {
  return new Set(UNITS.map(({ symbol }) => symbol));
}

export function layoutNames(): Words {
  return new Set(ITU_2051_LAYOUTS.map(({ name }) => name));
}

/** Code and title of each finding. */
export function findings(): ReadonlyMap<string, string> {
  return new Map(
    [...PROBLEM_KINDS, ...RESOLVE_PROBLEM_KINDS, ...RULES].map(({ code, title }) => [code, title]),
  );
}

/** Headings, heads of columns and rows, legends, folds, states: what is always called the same on the sheet. */
export function sheetWords(): Words {
  const patterns = [
    /<(?:Section|Steps)\b[^>]*?\btitle="([^"]+)"/g,
    /<(?:h[123]|p class="kind")[^>]*>([^<{]+)</g,
    /<th [^>]*>\s*([^<{]+?)\s*</g,
    /\bsummary="([^"]+)"/g,
    /\b(?:name|text|word): '([^']+)'/g,
    /\b(?:one|measured|stated|computed|predicted): '([^']+)'/g,
    /<td class="state">([^<{]+)</g,
    /<span class="note">([^<{]+)</g,
    /<button [^>]*>\s*([^<{]+?)\s*</g,
    /\[((?:'[^']+', )+'[^']+')\]\.map\(\s*\(line\)/g,
  ];
  const words = new Set<string>();
  for (const { text } of sources(['server/sheet/**/*.tsx'])) {
    for (const pattern of patterns) {
      for (const [, word = ''] of text.matchAll(pattern)) {
        const each = word.startsWith("'")
          ? word.split(', ').map((one) => one.slice(1, -1))
          : [word];
        for (const one of each) words.add(one.replaceAll(/\s+/g, ' ').trim());
      }
    }
    for (const [, columns = ''] of text.matchAll(/<TableHead\b([\s\S]*?)\/>/g))
      for (const [, word = ''] of columns.matchAll(/'([^']+)'/g)) words.add(word);
  }
  return new Set([...words].filter((word) => /\p{L}/u.test(word)));
}

interface Manifest {
  readonly contributes: {
    readonly commands: readonly { readonly command: string; readonly title: string }[];
    readonly configuration: readonly {
      readonly title: string;
      readonly properties: Readonly<Record<string, { readonly enum?: readonly string[] }>>;
    }[];
    readonly languages: readonly { readonly aliases: readonly string[] }[];
    readonly snippets: readonly { readonly path: string }[];
    readonly walkthroughs: readonly {
      readonly title: string;
      readonly steps: readonly { readonly title: string }[];
    }[];
  };
}

const MANIFEST: Manifest = JSON.parse(read('package.json'));
const TEXTS: Readonly<Record<string, string>> = JSON.parse(read('package.nls.json'));

function text(placeholder: string): string {
  return TEXTS[placeholder.replaceAll('%', '')] ?? placeholder;
}

/** Titles of commands, by their ids. */
export function commands(): ReadonlyMap<string, string> {
  return new Map(MANIFEST.contributes.commands.map(({ command, title }) => [command, text(title)]));
}

/** Names of settings, the words they take, and the titles of their groups. */
export function editorSettings(): Words {
  return new Set(
    MANIFEST.contributes.configuration.flatMap(({ title, properties }) => [
      text(title),
      ...Object.entries(properties).flatMap(([name, { enum: words }]) => [name, ...(words ?? [])]),
    ]),
  );
}

/** Names of languages, prefixes of snippets, titles of the walkthrough. */
export function editorTitles(): Words {
  const { languages, snippets, walkthroughs } = MANIFEST.contributes;
  return new Set([
    ...languages.flatMap(({ aliases }) => aliases.map(text)),
    ...walkthroughs.flatMap(({ title, steps }) =>
      [title, ...steps.map((step) => step.title)].map(text),
    ),
    ...snippets.flatMap(({ path }) =>
      Object.values<{ readonly prefix: string | readonly string[] }>(
        JSON.parse(read(path)),
      ).flatMap(({ prefix }) => prefix),
    ),
  ]);
}

/** Verbs, what stands below them, options, and the words that options take. */
export async function commandLine(): Promise<Words> {
  const words = new Set<string>();
  const visit = async (args: readonly string[]): Promise<void> => {
    const help = await helpOf(args);
    for (const [, long = ''] of help.matchAll(/^ {2}(?:-\w, )?(--[\w-]+)/gm)) words.add(long);
    for (const [, list = ''] of help
      .replaceAll(/\s+/g, ' ')
      .matchAll(/choices: ((?:"\w+", )*"\w+")/g))
      for (const [, choice = ''] of list.matchAll(/"(\w+)"/g)) words.add(choice);
    const [, commands = ''] = /^Commands:\n((?: {2}.*\n)+)/m.exec(help) ?? [];
    for (const [, verb = ''] of commands.matchAll(/^ {2}([\w-]+)/gm)) {
      if (verb === 'help') continue;
      words.add(verb);
      await visit([...args, verb]);
    }
  };
  await visit([]);
  return words;
}

/** What stands right behind `groundbass`. */
export async function verbs(): Promise<Words> {
  const [, list = ''] = /^Commands:\n((?: {2}.*\n)+)/m.exec(await helpOf([])) ?? [];
  const all = [...list.matchAll(/^ {2}([\w-]+)/gm)].map(([, verb = '']) => verb);
  return new Set(all.filter((verb) => verb !== 'help'));
}

async function helpOf(args: readonly string[]): Promise<string> {
  let out = '';
  await run([...args, '--help'], {
    ...HERE,
    out: (text) => {
      out += text;
    },
    err: () => {},
    width: 200,
  });
  return out;
}

/** The demo rooms, as the server sees them. */
async function demoRooms(): Promise<readonly Analysis[]> {
  const session = createSession(nodeFiles, () => '2026-11-25');
  const rooms: Analysis[] = [];
  for (const { path } of sources(['examples/rooms/*.room.yaml'])) {
    const analysis = await session.analysis(fileUri(`${process.cwd()}/${path}`));
    if (analysis !== null) rooms.push(analysis);
  }
  return rooms;
}

/** Words of hints that come neither from the file nor from the table of units. */
export async function hintWords(): Promise<Words> {
  const words = new Set<string>();
  const all = Object.fromEntries(HINT_KINDS.map((kind) => [kind, true]));
  const hints = { ...DEFAULT_SETTINGS.hints, ...all, enabled: true };
  const units = unitSymbols();
  const whole = { start: { line: 0, character: 0 }, end: { line: 1e6, character: 0 } };
  for (const analysis of await demoRooms()) {
    const own = new Set(analysis.source.parsed.text.split(/[^\w/%°²³]+/));
    for (const { label } of inlayHints(analysis, whole, hints)) {
      const said = typeof label === 'string' ? label : label.map(({ value }) => value).join('');
      for (const word of said.split(/[\s·,:()]+/)) {
        if (/^[+−-]?[\d./'"°]*$/.test(word) || own.has(word) || units.has(word)) continue;
        words.add(word);
      }
    }
  }
  return words;
}

/** Keys of `groundbass figures`; names that the files give are none. */
export async function figureKeys(): Promise<Words> {
  const words = new Set<string>();
  const named = new Set([
    'seats',
    'arrivals',
    'angles',
    'response',
    'source_response',
    'transfer',
    'crossovers',
    'driven_by',
    'heard_at',
    'reflections',
  ]);
  const visit = (node: unknown, isNamed: boolean): void => {
    if (Array.isArray(node)) for (const one of node) visit(one, false);
    else if (typeof node === 'object' && node !== null) {
      for (const [key, value] of Object.entries(node)) {
        if (!isNamed) words.add(key);
        visit(value, !isNamed && named.has(key));
      }
    }
  };
  for (const { setup, remarks } of await demoRooms())
    if (setup !== null) visit(JSON.parse(JSON.stringify(figures(setup, remarks))), false);
  return words;
}

/** The page itself: rows of its tables by heading, first and last cell. */
export function wordsPage(): ReadonlyMap<string, readonly Row[]> {
  const page = read('docs/words.md');
  const sections = page.split(/^## /m).slice(1);
  return new Map(
    sections.map((section) => {
      const [heading = ''] = section.split('\n', 1);
      return [heading, rowsOf(section)];
    }),
  );
}

export interface Row {
  readonly words: readonly string[];
  readonly origin: string;
}

function rowsOf(section: string): readonly Row[] {
  return [...section.matchAll(/^\| (?!-)(.*) \|$/gm)]
    .map(([, line = '']) => line.split(' | '))
    .filter(([first = '']) => /`/.test(first))
    .map((cells) => ({
      words: [...(cells[0] ?? '').matchAll(/`` ?(.+?) ?``|`([^`]+)`/g)].map(
        ([, a, b]) => a ?? b ?? '',
      ),
      origin: cells.at(-1) ?? '',
    }));
}

/** Ids in backticks with the title behind each, up to the next one or the end of the cell. */
export function listed(
  heading: string,
): readonly { readonly id: string; readonly title: string }[] {
  const page = read('docs/words.md');
  const [section = ''] = page.split(`\n## ${heading}\n`)[1]?.split('\n## ') ?? [];
  return [...section.matchAll(/`([\w./-]+)` ([^`|]+?)(?= (?:·|\|))/g)].map(
    ([, id = '', title = '']) => ({
      id,
      title,
    }),
  );
}

/** The text of the files that match. */
export function filesOf(pattern: string): readonly string[] {
  return sources([pattern]).map(({ text }) => text);
}
