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

interface Suite {
  readonly name: string;
  readonly command: string;
  readonly args: readonly string[];
  /** How many checks it holds, told by its own report; one where it does not say. */
  readonly count?: (output: string) => Count | null;
}

const bin = (name: string) => `${ROOT}node_modules/.bin/${name}`;
const tsx = (script: string, ...args: readonly string[]) => ({
  command: process.execPath,
  args: ['--import', 'tsx', script, ...args],
});

const SUITES: readonly Suite[] = [
  { name: 'types and the direction of imports', command: bin('tsc'), args: ['-b'] },
  {
    name: 'format and lint',
    command: bin('biome'),
    args: ['ci', `--colors=${process.stdout.isTTY ? 'force' : 'off'}`, '.'],
  },
  { name: 'bundles', ...tsx('extension/build/bundle.ts') },
  {
    name: 'extension package',
    command: 'npm',
    args: ['run', '--silent', 'package'],
  },
  {
    name: 'unit, reference and protocol tests',
    command: bin('vitest'),
    args: ['run', '--reporter=default', '--reporter=json', `--outputFile.json=${UNIT_REPORT}`],
    count: unitCount,
  },
  { name: 'second editor', ...tsx('test/editor/neovim.ts'), count: lastLineCount },
  {
    name: 'workbench, desktop entry',
    ...tsx('test/editor/run.ts', 'server'),
    count: lastLineCount,
  },
  { name: 'workbench, web entry', ...tsx('test/editor/run.ts', 'web'), count: lastLineCount },
  {
    name: 'oldest workbench, web only',
    ...tsx('test/editor/run.ts', 'web-min'),
    count: lastLineCount,
  },
];

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

/** Shows the output as it comes, and keeps it. */
function run(
  command: string,
  args: readonly string[],
): Promise<{ status: number; output: string }> {
  return new Promise((done) => {
    let output = '';
    const env = { ...process.env, DEBIAN_FRONTEND: 'noninteractive' };
    const child = spawn(command, args, { cwd: ROOT, env, stdio: ['ignore', 'pipe', 'pipe'] });
    const keep = (to: NodeJS.WriteStream) => (chunk: Buffer) => {
      output += chunk;
      to.write(chunk);
    };
    child.stdout.on('data', keep(process.stdout));
    child.stderr.on('data', keep(process.stderr));
    child.on('error', (error) => {
      console.error(error.message);
      done({ status: 1, output });
    });
    child.on('close', (code) => done({ status: code ?? 1, output }));
  });
}

/** The end of what a failed suite printed, kept for the last lines: logs are often read from their end. */
const failures: string[] = [];

async function runSuite({ name, command, args, count }: Suite): Promise<Count> {
  console.log(`\n=== ${name}`);
  const { status, output } = await run(command, args);
  if (status !== 0) failures.push(`=== ${name}, once more:\n${complaints(output)}`);
  const told = count?.(output) ?? { passed: status === 0 ? 1 : 0, failed: 0 };
  // A suite that ends badly has failed, whatever it counted.
  return status !== 0 && told.failed === 0 ? { ...told, failed: 1 } : told;
}

/** What tells why: of unit tests each failure's own words, of others the last lines. */
function complaints(output: string): string {
  const report = existsSync(UNIT_REPORT) ? JSON.parse(readFileSync(UNIT_REPORT, 'utf8')) : null;
  if (report === null || !output.includes('JSON report written'))
    return output.split('\n').slice(-40).join('\n');
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
const counts: Count[] = [];
if (!(await setUp())) counts.push({ passed: 0, failed: 1 });
for (const suite of SUITES) counts.push(await runSuite(suite));
const sum = (kind: keyof Count) => counts.reduce((total, count) => total + count[kind], 0);
for (const failure of failures) console.log(`\n${failure}`);
console.log('\n=== all suites');
SUITES.forEach(({ name }, index) => {
  const { passed, failed } = counts.at(index - SUITES.length) ?? { passed: 0, failed: 0 };
  console.log(`${failed === 0 ? 'ok  ' : 'FAIL'} ${name}: ${passed} passed, ${failed} failed`);
});
console.log(`${sum('passed')} passed, ${sum('failed')} failed`);
process.exitCode = sum('failed') === 0 ? 0 : 1;
