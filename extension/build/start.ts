// `npm start`: builds everything, checks the demo facility, shows its key figures, and says where sheet and extension lie.

import { spawnSync } from 'node:child_process';
import { mkdirSync, readdirSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import Table from 'cli-table3';

const ROOT = fileURLToPath(new URL('../..', import.meta.url));
const CLI = 'dist/cli/groundbass.js';
const ROOMS = 'examples/rooms';
const SHEETS = 'out/sheets';

/** Exit code of `check` where it found something: the demo facility has a room full of mistakes. */
const FOUND = 1;

/** The part of `groundbass figures` that is shown here. */
interface Figures {
  readonly air: { readonly speed_of_sound_m_s: number };
  readonly space: {
    readonly volume_m3: number | null;
    readonly schroeder_hz: number | null;
    readonly modes: readonly { readonly frequency_hz: number }[] | null;
  } | null;
  readonly findings: readonly { readonly severity: string }[];
}

function heading(text: string): void {
  console.log(`\n${text}\n${'─'.repeat(text.length)}`);
}

/** Runs a step with its output shown; ends here where it fails. */
function step(command: string, args: readonly string[], allowed: readonly number[] = [0]): void {
  const { status } = spawnSync(command, args, {
    cwd: ROOT,
    stdio: ['ignore', 'inherit', 'inherit'],
  });
  if (allowed.includes(status ?? -1)) return;
  console.error(`This failed: ${command} ${args.join(' ')}`);
  process.exit(status ?? 1);
}

/** Runs the command line; its standard output. */
function groundbass(...args: readonly string[]): string {
  const { status, stdout, stderr } = spawnSync(process.execPath, [CLI, ...args], {
    cwd: ROOT,
    encoding: 'utf8',
    maxBuffer: 64 << 20,
  });
  if (status === 0) return stdout;
  console.error(`${stderr}\nThis failed: groundbass ${args.join(' ')}`);
  process.exit(status ?? 1);
}

function figure(value: number | null | undefined, digits: number): string {
  return value === null || value === undefined ? '–' : value.toFixed(digits);
}

function rowOf(room: string): string[] {
  const { air, space, findings }: Figures = JSON.parse(groundbass('figures', `${ROOMS}/${room}`));
  const count = (severity: string) => findings.filter((one) => one.severity === severity).length;
  return [
    room.replace('.room.yaml', ''),
    figure(air.speed_of_sound_m_s, 1),
    figure(space?.volume_m3, 1),
    figure(space?.modes?.[0]?.frequency_hz, 1),
    figure(space?.schroeder_hz, 0),
    String(count('error')),
    String(count('warning')),
  ];
}

function showFigures(rooms: readonly string[]): void {
  const table = new Table({
    head: [
      'room',
      'speed of sound, m/s',
      'volume, m³',
      'lowest mode, Hz',
      'Schroeder, Hz',
      'errors',
      'warnings',
    ],
    colAligns: ['left', 'right', 'right', 'right', 'right', 'right', 'right'],
    style: { head: [], border: [], compact: true },
  });
  table.push(...rooms.map(rowOf));
  console.log(table.toString());
}

heading('Building');
step('npm', ['run', '--silent', 'build']);
step('npm', ['run', '--silent', 'package']);

heading('What the demo facility has wrong');
step(process.execPath, [CLI, 'check', 'examples'], [0, FOUND]);

const rooms = readdirSync(`${ROOT}${ROOMS}`).filter((name) => name.endsWith('.room.yaml'));
heading('Key figures');
showFigures(rooms);

mkdirSync(`${ROOT}${SHEETS}`, { recursive: true });
for (const room of rooms) {
  const html = groundbass('sheet', `${ROOMS}/${room}`);
  writeFileSync(`${ROOT}${SHEETS}/${room.replace('.room.yaml', '.html')}`, html);
}

heading('Where things are');
console.log(`Setup sheets          ${ROOT}${SHEETS}/heron.html, and one for each other room
VS Code extension     ${ROOT}dist/groundbass.vsix   (Extensions: Install from VSIX…)
Command line          node ${ROOT}${CLI} --help

\`npm run open\` opens the demo facility in a real VS Code in the browser; \`npm test\` runs every test.`);
