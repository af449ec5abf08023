// The README keeps its word: its commands are there, its links lead somewhere, and its first room does what it says.

import { existsSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { processIo } from '../server/cli/io.ts';
import { run } from '../server/cli/run.ts';
import { read } from './support/sources.ts';

const README = read('README.md');
const HERE = processIo();
const { scripts, contributes }: Manifest = JSON.parse(read('package.json'));

interface Manifest {
  readonly scripts: Readonly<Record<string, string>>;
  readonly contributes: { readonly snippets: readonly { readonly path: string }[] };
}

describe('commands', () => {
  const rows = [...README.matchAll(/^\| `npm (?:run )?([\w:]+)` \|/gm)].map(
    ([, name]) => name ?? '',
  );

  test('the table has the two that all starts with', () => {
    expect(rows).toEqual(['start', 'test']);
  });

  test('every npm command that is named is a script', () => {
    const named = [...README.matchAll(/`npm (?:run )?([\w:]+)`/g)].map(([, name]) => name ?? '');
    expect(named.length).toBeGreaterThan(4);
    expect(named.filter((name) => name !== 'link' && scripts[name] === undefined)).toEqual([]);
  });

  test('both set everything up by themselves: nothing has to be installed before', () => {
    for (const name of rows) expect(scripts[name]).toMatch(/^node extension\/build\/run\.mjs /);
  });

  test('what they say they leave behind is what the build writes', () => {
    const start = read('extension/build/start.ts');
    for (const [, file] of README.matchAll(/`(dist\/[\w./]+)`/g))
      expect(`${start}${JSON.stringify(scripts)}${read('package.json')}`).toContain(file);
  });
});

test('every link leads to a file; pictures are made by their own script', () => {
  const links = [...README.matchAll(/\]\((?!https?:)([^)#]+)/g)].map(([, path]) => path ?? '');
  const pages = links.filter((path) => !path.startsWith('docs/images/'));
  expect(pages.length).toBeGreaterThan(6);
  expect(pages.filter((path) => !existsSync(path))).toEqual([]);
});

describe('a first room in five minutes', () => {
  let folder = '';
  beforeAll(() => {
    folder = mkdtempSync(join(tmpdir(), 'readme-'));
  });
  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  async function groundbass(
    line: string,
  ): Promise<{ readonly code: number; readonly out: string }> {
    let out = '';
    const code = await run(line.split(' '), {
      ...HERE,
      cwd: folder,
      out: (text) => {
        out += text;
      },
      err: () => {},
      writeFile: async (path, text, { isNew }) =>
        writeFileSync(path, text, { flag: isNew ? 'wx' : 'w' }),
    });
    return { code, out };
  }

  async function codes(): Promise<readonly string[]> {
    const report: Report = JSON.parse((await groundbass('check --format json')).out);
    return report.files.flatMap(({ findings }) => findings.map(({ code }) => code));
  }

  const room = fenced('yaml');

  test('the commands run as they stand, and the new files are without errors or warnings', async () => {
    const commands = [...fenced('sh').matchAll(/^groundbass (.*?) *(?:#.*)?$/gm)];
    expect(commands.map(([, line]) => line)).toHaveLength(4);
    for (const [, line = ''] of commands) expect((await groundbass(line)).code, line).toBe(0);
    expect((await groundbass('check --fail-on warning')).code).toBe(0);
    expect((await codes()).length).toBeGreaterThan(0);
  });

  test('the room is without errors, and says what the README says', async () => {
    writeFileSync(join(folder, 'studio.room.yaml'), room);
    expect((await groundbass('check')).code).toBe(0);
    const found = await codes();
    expect(found.filter((code) => code === 'delay/differs')).toHaveLength(2);
    expect(found).toContain('crossover/dip');
    // By hand: 1.903 m − 1.398 m at 344.5 m/s are 1.47 ms; in steps of 0.1 ms, 1.5 ms.
    expect(README).toContain('have to wait 1.5 ms');
    const { out } = await groundbass('figures studio.room.yaml');
    expect(JSON.parse(out).seats.mix.arrivals.left.dial_in).toEqual({ value: 1.5, unit: 'ms' });
  });

  test('with the delays dialled in they are right, and the sheet is written', async () => {
    const file = join(folder, 'studio.room.yaml');
    writeFileSync(file, room.replaceAll(/(out_\w+: \{ delay:) 0 ms/g, '$1 1.5 ms'));
    expect((await codes()).filter((code) => code.startsWith('delay/'))).toEqual([]);
    const [, line = ''] = /`groundbass (sheet [^`]+)`/.exec(README) ?? [];
    expect((await groundbass(line)).code).toBe(0);
    expect(existsSync(join(folder, 'studio.html'))).toBe(true);
  });

  test('what stands commented out in the new room is right too', async () => {
    const { out } = await groundbass('new room other --out -');
    const whole = out
      .replace(/^# ?(?=(?:subwoofers|devices|wiring|settings):| {2})/gm, '')
      .replaceAll('gear: unknown', 'gear: my_speaker');
    expect(whole).toMatch(/^wiring:$/m);
    writeFileSync(join(folder, 'studio.room.yaml'), whole);
    const { code, out: told } = await groundbass('check');
    expect(code, told).toBe(0);
  });

  test.each(contributes.snippets.map(({ path }) => path))(
    '%s: the whole files are right',
    async (path) => {
      const snippets: Snippets = JSON.parse(read(path));
      const kind = /(\w+)\.json$/.exec(path)?.[1] ?? '';
      const body = Object.values(snippets).find(({ prefix }) => prefix === kind)?.body ?? [];
      expect(body[0]).toBe(`${kind}: 1`);
      expect(await errors(kind, filled(body))).toEqual([]);
    },
  );

  test('each model of the gear snippets is right, with every choice', async () => {
    const snippets: Snippets = JSON.parse(read('extension/snippets/gear.json'));
    const models = Object.values(snippets).filter(({ prefix }) => prefix !== 'gear');
    expect(models.length).toBeGreaterThan(2);
    for (const { body } of models) {
      for (const choice of ['first', 'last'] as const) {
        const lines = filled(body, choice).split('\n');
        const text = ['gear: 1', 'models:', ...lines.map((line) => `  ${line}`)].join('\n');
        expect(await errors('gear', text), text).toEqual([]);
      }
    }
  });

  /** Messages of the errors in a file; models that the snippet's user has under other names are none. */
  async function errors(kind: string, text: string): Promise<readonly string[]> {
    const name = kind === 'facility' ? 'facility.yaml' : `snippet.${kind}.yaml`;
    writeFileSync(join(folder, name), text);
    const report: Report = JSON.parse((await groundbass(`check ${name} --format json`)).out);
    return report.files
      .flatMap(({ findings }) => findings)
      .filter(({ severity, code }) => severity === 'error' && code !== 'reference/gear')
      .map(({ message }) => message);
  }
});

interface Report {
  readonly files: readonly {
    readonly findings: readonly {
      readonly code: string;
      readonly severity: string;
      readonly message: string;
    }[];
  }[];
}

type Snippets = Readonly<
  Record<string, { readonly prefix: string; readonly body: readonly string[] }>
>;

/** A snippet with its choices and placeholders filled in, as an editor inserts it. */
function filled(body: readonly string[], choice: 'first' | 'last' = 'first'): string {
  return body
    .join('\n')
    .replace(/\$\{\d+\|([^}]*)\|\}/g, (_, choices: string) => {
      const all = choices.split(',');
      return all.at(choice === 'first' ? 0 : -1) ?? '';
    })
    .replace(/\$\{\d+:([^}]*)\}/g, '$1')
    .replace(/\$\d+/g, '');
}

function fenced(language: string): string {
  return new RegExp(`\`\`\`${language}\n([\\s\\S]*?)\`\`\``).exec(README)?.[1] ?? '';
}
