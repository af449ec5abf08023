// The manifest: every text is there, every file it names exists, and it agrees with the server about settings.

import { existsSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { DEFAULT_SETTINGS, HINT_KINDS } from '../../server/protocol/settings.ts';

const manifestText = readFileSync('package.json', 'utf8');
const manifest = JSON.parse(manifestText);
const texts: Readonly<Record<string, string>> = JSON.parse(
  readFileSync('package.nls.json', 'utf8'),
);
const { contributes } = manifest;
const settings: Readonly<Record<string, { readonly default: unknown }>> = Object.assign(
  {},
  ...contributes.configuration.map(({ properties }: { properties: object }) => properties),
);

test('every placeholder has its text, and no text is left over', () => {
  const used = [...manifestText.matchAll(/%([\w.]+)%/g)].map(([, key]) => key ?? '');
  expect([...new Set(used)].sort()).toEqual(Object.keys(texts).sort());
});

test('every file that the manifest names is there', () => {
  const named = [...manifestText.matchAll(/"(?:\.\/)?(extension\/(?!build)[\w./-]+)"/g)];
  const missing = named.map(([, file]) => file ?? '').filter((file) => !existsSync(file));
  expect(named.length).toBeGreaterThan(10);
  expect(missing).toEqual([]);
});

test('the typings are those of the oldest editor supported', () => {
  const { version } = JSON.parse(readFileSync('node_modules/@types/vscode/package.json', 'utf8'));
  expect(manifest.engines.vscode).toBe(`^${version}`);
});

test('hint settings are the kinds that the server knows, on and off as it stands', () => {
  for (const kind of ['enabled', ...HINT_KINDS] as const) {
    expect(settings[`groundbass.hints.${kind}`]?.default, kind).toBe(DEFAULT_SETTINGS.hints[kind]);
  }
  const shown = Object.keys(settings).filter((name) => name.startsWith('groundbass.hints.'));
  expect(shown).toHaveLength(HINT_KINDS.length + 1);
  expect(settings['groundbass.defaults.sampleRate']?.default).toBe(DEFAULT_SETTINGS.sampleRate_hz);
  expect(settings['groundbass.defaults.temperature']?.default).toBe(DEFAULT_SETTINGS.temperature_c);
});

test('every command of the manifest is carried out, and every one carried out is in the manifest', () => {
  const source = readFileSync('extension/commands/register.ts', 'utf8');
  const [, body = ''] = /const commands:[^\n]* = \{\n([\s\S]*?)\n {2}\};/.exec(source) ?? [];
  const registered = [...body.matchAll(/^ {4}(\w+)[:,]/gm)].map(([, name]) => `groundbass.${name}`);
  const declared = contributes.commands.map(({ command }: { command: string }) => command);
  expect(registered.sort()).toEqual([...declared].sort());
});

test('commands and menus belong together, under one category', () => {
  const declared = new Set(contributes.commands.map(({ command }: { command: string }) => command));
  for (const { command, category } of contributes.commands) {
    expect(category, command).toBe('Groundbass');
  }
  const inMenus = Object.values<readonly { readonly command: string }[]>(contributes.menus).flat();
  for (const { command } of [...inMenus, ...contributes.keybindings]) {
    expect(declared.has(command), command).toBe(true);
  }
});
