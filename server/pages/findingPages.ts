// The pages of docs/findings: one for each finding that Groundbass can tell, made from the records of rules and problems, and a list.

import { RULES } from '../../core/rules/index.ts';
import type { Rule } from '../../core/rules/rule.ts';
import { PROBLEM_KINDS, type ProblemKind } from '../../schema/problems.ts';
import { RESOLVE_PROBLEM_KINDS } from '../../schema/resolve/problemKinds.ts';

const GENERATED =
  '<!-- Made by server/node/writeFindingPages.ts from the finding’s record: change the record, not this page. -->';

/** What the part of a code before the slash stands for, in the order of the list. */
const FAMILIES: Readonly<Record<string, string>> = {
  yaml: 'The text as YAML',
  format: 'The shape of the file',
  quantity: 'Quantities and units',
  reference: 'Names that refer to something',
  value: 'Values that cannot be',
  limits: 'What no honest file holds',
  gear: 'Gear files',
  facility: 'The facility',
  policy: 'Policies',
  geometry: 'Where things stand',
  air: 'The air',
  space: 'The room',
  layout: 'The loudspeaker layout',
  placement: 'Places of subwoofers and mains',
  boundary: 'Walls and reflections',
  signal: 'Signal paths',
  delay: 'Delays',
  crossover: 'Crossovers',
  polarity: 'Polarity',
  eq: 'Equalisers',
  levels: 'Levels',
  power: 'Power',
  settings: 'Settings',
  measurement: 'Files of measurements',
  record: 'The record',
};

interface Page {
  readonly code: string;
  readonly title: string;
  readonly severity: string;
  readonly text: string;
}

/**
 * File names, below docs/findings, with their text; `README.md` is the list.
 *
 * A code's page is called as the code with a hyphen for the slash: `layout-height.md`.
 */
export function findingPages(): ReadonlyMap<string, string> {
  const pages = [
    ...[...PROBLEM_KINDS, ...RESOLVE_PROBLEM_KINDS].map(problemPage),
    ...RULES.map(rulePage),
  ];
  return new Map([
    ['README.md', list(pages)],
    ...pages.map(({ code, text }) => [pageName(code), text] as const),
  ]);
}

export function pageName(code: string): string {
  return `${code.replaceAll('/', '-')}.md`;
}

function problemPage({ code, severity, title, reason, advice, example }: ProblemKind): Page {
  const text = [
    ...opening(title, code, severity),
    `**Why it matters.** ${reason}`,
    `**What to do.** ${advice}`,
    'Such as:',
    fenced(example),
  ];
  return { code, title, severity, text: joined(text) };
}

function rulePage({ code, severity, title, reason, advice, source }: Rule): Page {
  const text = [
    ...opening(title, code, severity),
    `**Why it matters.** ${reason}`,
    `**What to do.** ${advice}`,
    `**Where the limit comes from.** ${source.charAt(0).toUpperCase()}${source.slice(1)}.`,
    'A room that is to stay as it is can say so, with a reason and an end; the finding is then still shown, as accepted:',
    fenced(
      `accepted:\n  why_it_stays: { finding: ${code}, about: ${aboutOf(code)}, because: "…", until: 2027-06-30 }`,
    ),
    'A policy can make it graver or leave it out in all its rooms:',
    fenced(`severity: { ${code}: off }`),
  ];
  return { code, title, severity, text: joined(text) };
}

/** A place that findings of this family are about, for the example. */
function aboutOf(code: string): string {
  const [family = ''] = code.split('/');
  const places: Readonly<Record<string, string>> = {
    air: 'space.air',
    space: 'space',
    placement: 'subwoofers.sub',
    signal: 'wiring',
    delay: 'settings.sub',
    crossover: 'settings.sub',
    polarity: 'settings.sub',
    settings: 'settings.sub',
    levels: 'settings.sub',
    power: 'circuits.tech',
    record: 'signed_off',
  };
  return places[family] ?? 'speakers.left';
}

function opening(title: string, code: string, severity: string): readonly string[] {
  return [GENERATED, `# ${title}`, `\`${code}\` · ${severity} · [all findings](README.md)`];
}

function list(pages: readonly Page[]): string {
  const families = [...new Set(pages.map(({ code }) => familyOf(code)))].toSorted(
    (a, b) => rank(a) - rank(b),
  );
  const parts = families.flatMap((family) => [
    `## ${FAMILIES[family] ?? family}`,
    [
      '| finding | usual severity | what it is |',
      '|---|---|---|',
      ...pages
        .filter(({ code }) => familyOf(code) === family)
        .map(
          ({ code, severity, title }) =>
            `| [\`${code}\`](${pageName(code)}) | ${severity} | ${title} |`,
        ),
    ].join('\n'),
  ]);
  return joined([
    GENERATED,
    '# Findings',
    'Everything that Groundbass can say about a file and about the room it describes. `groundbass explain CODE` shows the same. ' +
      'An *error* is wrong as it stands, a *warning* should be looked at, *information* is worth knowing, a *hint* is quiet.',
    ...parts,
  ]);
}

function familyOf(code: string): string {
  return code.split('/')[0] ?? code;
}

function rank(family: string): number {
  const index = Object.keys(FAMILIES).indexOf(family);
  return index === -1 ? Number.POSITIVE_INFINITY : index;
}

/** YAML in a fence longer than any run of backticks inside it. */
function fenced(yaml: string): string {
  const longest = Math.max(2, ...[...yaml.matchAll(/`+/g)].map(([run]) => run.length));
  const fence = '`'.repeat(longest + 1);
  return `${fence}yaml\n${yaml}\n${fence}`;
}

function joined(paragraphs: readonly string[]): string {
  return `${paragraphs.join('\n\n')}\n`;
}
