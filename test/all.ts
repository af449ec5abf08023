// `npm test`: everything that shows that the project works, in one go; ends with how many checks passed and failed in all.
//
// What the machine lacks for the real-editor tests (browser, second editor, workbench) is installed first, where that is possible.

import { spawn } from 'node:child_process';
import { existsSync, readFileSync, rmSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

const ROOT = fileURLToPath(new URL('..', import.meta.url));
const UNIT_REPORT = `${ROOT}out/unit.json`;

interface Count {
  readonly passed: number;
  readonly failed: number;
}

interface Result extends Count {
  readonly name: string;
}

interface Suite {
  readonly name: string;
  readonly command: string;
  readonly args: readonly string[];
  /** How many checks it holds, told by its own report; one where it does not say. */
  readonly count?: (output: string) => Count | null;
  /** It drives an editor, in which something may be late on a busy machine: a stumble is tried once more where nobody watches. */
  readonly mayStumble?: boolean;
}

const bin = (name: string) => `${ROOT}node_modules/.bin/${name}`;
const tsx = (script: string, ...args: readonly string[]) => ({
  command: process.execPath,
  args: ['--import', 'tsx', script, ...args],
});

/** One after the other: whoever waits in an editor for what is to come needs the machine for himself. What all else is made of comes first. */
const SUITES: readonly Suite[] = [
  { name: 'bundles', ...tsx('extension/build/bundle.ts') },
  { name: 'extension package', command: 'npm', args: ['run', '--silent', 'package'] },
  { name: 'types and the direction of imports', command: bin('tsc'), args: ['-b'] },
  {
    name: 'format and lint',
    command: bin('biome'),
    args: ['ci', `--colors=${process.stdout.isTTY ? 'force' : 'off'}`, '.'],
  },
  {
    name: 'unit, reference and protocol tests',
    command: bin('vitest'),
    args: ['run', '--reporter=default', '--reporter=json', `--outputFile.json=${UNIT_REPORT}`],
    count: unitCount,
  },
  editorSuite('second editor', 'test/editor/neovim.ts'),
  editorSuite('workbench, desktop entry', 'test/editor/run.ts', 'server'),
  editorSuite('workbench, web entry', 'test/editor/run.ts', 'web'),
  editorSuite('oldest workbench, web only', 'test/editor/run.ts', 'web-min'),
];

function editorSuite(name: string, script: string, ...args: readonly string[]): Suite {
  return { name, ...tsx(script, ...args), count: lastLineCount, mayStumble: true };
}

/** Debian's packages, by the program that shows whether one is there. */
const PROGRAMS = {
  chromium: ['chromium', 'fonts-dejavu-core'],
  nvim: ['neovim'],
} as const;

async function setUp(): Promise<boolean> {
  const missing = Object.entries(PROGRAMS).filter(
    ([program]) =>
      !(process.env.PATH ?? '').split(':').some((folder) => existsSync(`${folder}/${program}`)),
  );
  if (missing.length > 0) {
    const packages = missing.flatMap(([, names]) => names);
    if (process.getuid?.() !== 0) {
      console.error(`Install these first, as root: apt-get install ${packages.join(' ')}`);
      return false;
    }
    const apt = (...args: string[]) => run('apt-get', ['-q', '-y', ...args]);
    await apt('update');
    const { status } = await apt('install', '--no-install-recommends', ...packages);
    if (status !== 0) return false;
  }
  return (await run('bash', ['test/editor/host/install.sh'])).status === 0;
}

interface Ran {
  readonly status: number;
  readonly output: string;
}

/** Shows the output as it comes, and keeps it. */
function run(command: string, args: readonly string[]): Promise<Ran> {
  return new Promise((done) => {
    let output = '';
    const env = { ...process.env, DEBIAN_FRONTEND: 'noninteractive' };
    const child = spawn(command, args, { cwd: ROOT, env, stdio: ['ignore', 'pipe', 'pipe'] });
    const keep = (to: NodeJS.WriteStream) => (chunk: string) => {
      output += chunk;
      to.write(chunk);
    };
    child.stdout.setEncoding('utf8').on('data', keep(process.stdout));
    child.stderr.setEncoding('utf8').on('data', keep(process.stderr));
    child.on('error', (error) => done({ status: 1, output: `${output}${error.message}\n` }));
    child.on('close', (code) => done({ status: code ?? 1, output }));
  });
}

/** The end of what a failed suite printed, kept for the last lines: logs are often read from their end. */
const failures: string[] = [];

async function runSuite(suite: Suite): Promise<Result> {
  const once = await tryOut(suite);
  const isTriedAgain = once.failure !== null && suite.mayStumble && process.env.CI;
  const { result, failure } = isTriedAgain ? await tryOut(suite) : once;
  if (failure !== null) failures.push(failure);
  return result;
}

async function tryOut({ name, command, args, count }: Suite): Promise<{
  readonly result: Result;
  readonly failure: string | null;
}> {
  console.log(`\n=== ${clock()} ${name}`);
  const { status, output } = await run(command, args);
  const told = count?.(output) ?? { passed: status === 0 ? 1 : 0, failed: 0 };
  // A suite that ends badly has failed, whatever it counted.
  const failed = status !== 0 && told.failed === 0 ? 1 : told.failed;
  return {
    result: { name, ...told, failed },
    failure: failed === 0 ? null : `=== ${name}, once more:\n${complaints(output)}`,
  };
}

function clock(): string {
  const seconds = Math.round(performance.now() / 1000);
  return `${Math.floor(seconds / 60)}:${String(seconds % 60).padStart(2, '0')}`;
}

/** What tells why: of unit tests each failure's own words, of others the last lines. */
function complaints(output: string): string {
  if (!output.includes('JSON report written')) return output.split('\n').slice(-40).join('\n');
  const report = JSON.parse(readFileSync(UNIT_REPORT, 'utf8'));
  return report.testResults
    .flatMap(({ name, message, assertionResults }: UnitFile) => [
      ...(message ? [`${name}: ${message}`] : []),
      ...assertionResults
        .filter(({ status }) => status === 'failed')
        .map(
          ({ fullName, failureMessages }) =>
            `${name}: ${fullName}\n${failureMessages.join('\n').slice(0, 2000)}`,
        ),
    ])
    .join('\n\n');
}

interface UnitFile {
  readonly name: string;
  readonly message: string;
  readonly assertionResults: readonly {
    readonly status: string;
    readonly fullName: string;
    readonly failureMessages: readonly string[];
  }[];
}

function unitCount(): Count | null {
  if (!existsSync(UNIT_REPORT)) return null;
  const report = JSON.parse(readFileSync(UNIT_REPORT, 'utf8'));
  return { passed: report.numPassedTests, failed: report.numFailedTests };
}

/** Our own programs end with the same line as this one. */
function lastLineCount(output: string): Count | null {
  const [, passed, failed] = /(\d+) passed, (\d+) failed\s*$/.exec(output) ?? [];
  return passed && failed ? { passed: Number(passed), failed: Number(failed) } : null;
}

rmSync(UNIT_REPORT, { force: true });
const machine: Result[] = (await setUp()) ? [] : [{ name: 'programs', passed: 0, failed: 1 }];
const results = [...machine];
for (const suite of SUITES) results.push(await runSuite(suite));
const sum = (kind: keyof Count) => results.reduce((total, result) => total + result[kind], 0);
for (const failure of failures) console.log(`\n${failure}`);
console.log('\n=== all suites');
for (const { name, passed, failed } of results)
  console.log(`${failed === 0 ? 'ok  ' : 'FAIL'} ${name}: ${passed} passed, ${failed} failed`);
console.log(`${sum('passed')} passed, ${sum('failed')} failed`);
process.exitCode = sum('failed') === 0 ? 0 : 1;
