// A real VS Code workbench (code-server) on this machine, with a throw-away profile.

import { execFileSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { HOST, HOST_NODE } from './paths.ts';
import { freePort, startServer } from './processes.ts';

export interface Workbench {
  readonly origin: string;
  readonly port: number;
  /** Address of the workbench with the folder open, and a file of it. */
  url(file?: string): string;
  /** Changes the profile's settings, laid over those it began with; the workbench takes them over at once. */
  changeSettings(settings: Readonly<Record<string, unknown>>): void;
  /** What extension hosts and extension wrote: the first thing to read when a test fails. */
  logs(): string;
  stop(): Promise<void>;
}

export interface WorkbenchOptions {
  /** Absolute. */
  readonly folder: string;
  /** Installed first, where given. */
  readonly vsix?: string;
  readonly port?: number;
  readonly settings?: Readonly<Record<string, unknown>>;
}

/** User settings of the profile: quiet, the same on every machine, nothing from outside. */
const SETTINGS = {
  'telemetry.telemetryLevel': 'off',
  'update.mode': 'none',
  'extensions.autoUpdate': false,
  'extensions.autoCheckUpdates': false,
  'extensions.ignoreRecommendations': true,
  'workbench.startupEditor': 'none',
  'workbench.enableExperiments': false,
  'workbench.tips.enabled': false,
  'workbench.settings.enableNaturalLanguageSearch': false,
  'chat.disableAIFeatures': true,
  'chat.commandCenter.enabled': false,
  'workbench.secondarySideBar.defaultVisibility': 'hidden',
  'npm.fetchOnlinePackageInfo': false,
  'json.schemaDownload.enable': false,
  'git.enabled': false,
  'files.autoSave': 'off',
  'editor.minimap.enabled': false,
  'editor.cursorBlinking': 'solid',
  'editor.accessibilitySupport': 'off',
  'editor.fontFamily': 'DejaVu Sans Mono, monospace',
  'workbench.colorTheme': 'Light Modern',
};

/** Where the gallery of extensions is: nowhere. */
const NO_GALLERY = '{"serviceUrl":"","itemUrl":"","resourceUrlTemplate":""}';

export async function startWorkbench(options: WorkbenchOptions): Promise<Workbench> {
  const root = mkdtempSync(`${tmpdir()}/groundbass-workbench-`);
  const data = `${root}/data`;
  mkdirSync(`${data}/User`, { recursive: true });
  mkdirSync(`${root}/home`);
  const changeSettings = (settings: Readonly<Record<string, unknown>>) =>
    writeFileSync(`${data}/User/settings.json`, JSON.stringify({ ...SETTINGS, ...settings }));
  changeSettings(options.settings ?? {});
  writeFileSync(`${root}/config.yaml`, 'auth: none\n');
  const env = {
    ...process.env,
    HOME: `${root}/home`,
    XDG_CONFIG_HOME: '',
    XDG_DATA_HOME: '',
    VSCODE_IPC_HOOK_CLI: '',
    EXTENSIONS_GALLERY: NO_GALLERY,
  };
  const base = [
    `${HOST}node_modules/code-server/out/node/entry.js`,
    ...[
      '--config',
      `${root}/config.yaml`,
      '--user-data-dir',
      data,
      '--extensions-dir',
      `${root}/ext`,
    ],
  ];
  if (options.vsix) {
    execFileSync(HOST_NODE, [...base, '--install-extension', options.vsix], { env, stdio: 'pipe' });
  }
  const port = options.port ?? (await freePort());
  const origin = `http://127.0.0.1:${port}`;
  const quiet = ['--disable-telemetry', '--disable-update-check', '--disable-workspace-trust'];
  const running = await startServer({
    command: HOST_NODE,
    args: [
      ...base,
      ...['--bind-addr', `127.0.0.1:${port}`, '--auth', 'none', ...quiet],
      ...['--disable-getting-started-override', '--disable-proxy', options.folder],
    ],
    env,
    log: `${root}/server.log`,
    readyUrl: `${origin}/healthz`,
  });
  return {
    origin,
    port,
    url: (file) => workbenchUrl(origin, options.folder, file),
    changeSettings,
    logs: () => `${readFileSync(`${root}/server.log`, 'utf8')}\n${extensionLogs(`${data}/logs`)}`,
    async stop() {
      await running.stop();
      rmSync(root, { recursive: true, force: true, maxRetries: 5, retryDelay: 100 });
    },
  };
}

function workbenchUrl(origin: string, folder: string, file: string | undefined): string {
  const query = new URLSearchParams({ folder });
  if (file) {
    const { host } = new URL(origin);
    query.set('payload', JSON.stringify([['openFile', `vscode-remote://${host}${file}`]]));
  }
  return `${origin}/?${query}`;
}

function extensionLogs(folder: string): string {
  return readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .filter((name) => name.includes('exthost') && name.endsWith('.log'))
    .map((name) => `--- ${name}\n${readFileSync(`${folder}/${name}`, 'utf8').slice(-3000)}`)
    .join('\n');
}
