// Runs one of the project's TypeScript programs; installs the packages first where they are missing or not those of the lockfile.
//
// Plain Node without any package: it is the first thing that runs after a clone.

import { spawnSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

const ROOT = fileURLToPath(new URL('../..', import.meta.url));

/** Versions by place, of a lockfile; empty where there is none. */
function versions(lockfile) {
  if (!existsSync(lockfile)) return {};
  const { packages } = JSON.parse(readFileSync(lockfile, 'utf8'));
  return Object.fromEntries(
    Object.entries(packages)
      .filter(([place, { optional }]) => place !== '' && !optional)
      .map(([place, { version }]) => [place, version]),
  );
}

/** npm keeps beside the packages what it installed: no need to trust the clock. */
function isInstalled() {
  const wanted = Object.entries(versions(`${ROOT}package-lock.json`));
  const present = versions(`${ROOT}node_modules/.package-lock.json`);
  return wanted.every(([place, version]) => present[place] === version);
}

function run(command, args) {
  const { status, error } = spawnSync(command, args, { cwd: ROOT, stdio: 'inherit' });
  if (error) console.error(`${command} could not be started: ${error.message}`);
  if (status !== 0) process.exit(status ?? 1);
}

if (Number(process.versions.node.split('.')[0]) < 20) {
  console.error(`Node 20 or later is needed; this is ${process.version}`);
  process.exit(1);
}
if (!isInstalled()) {
  console.log('Installing the packages of package-lock.json …');
  run('npm', ['ci']);
}
run(process.execPath, ['--import', 'tsx', ...process.argv.slice(2)]);
