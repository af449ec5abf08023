// What the client tells beside its documents: settings, folders, files that changed outside the editor.

import {
  DidChangeConfigurationNotification,
  DidChangeWatchedFilesNotification,
} from 'vscode-languageserver';
import type { Shared } from './connect.ts';
import { OUR_GLOBS } from './files/files.ts';
import type { Publisher } from './publisher.ts';
import { readSettings } from './settings.ts';

/** And what measurements and corrections are usually called. */
const WATCHED = [...OUR_GLOBS, '**/*.{wav,WAV,txt,TXT,csv,CSV,tsv,dat}'];

export function connectConfiguration(shared: Shared, publisher: Publisher): void {
  const { connection, session, client } = shared;

  connection.onInitialized(async () => {
    if (client()?.hasConfiguration) {
      await readConfiguration(shared);
      connection.client
        .register(DidChangeConfigurationNotification.type, { section: 'groundbass' })
        .catch(refused);
    }
    if (client()?.watchesFiles)
      connection.client
        .register(DidChangeWatchedFilesNotification.type, {
          watchers: WATCHED.map((globPattern) => ({ globPattern })),
        })
        .catch(refused);
    if (client()?.changesFolders)
      connection.workspace.onDidChangeWorkspaceFolders(({ added, removed }) => {
        const gone = new Set(removed.map(({ uri }) => uri));
        const kept = session.folders().filter((uri) => !gone.has(uri));
        session.setFolders([...kept, ...added.map(({ uri }) => uri)]);
        void publisher.everything();
      });
    void publisher.everything();
  });

  connection.onDidChangeConfiguration(async ({ settings }) => {
    if (client()?.hasConfiguration) await readConfiguration(shared);
    else session.setSettings(readSettings((settings as { groundbass?: unknown })?.groundbass));
    void publisher.everything();
  });

  connection.onDidChangeWatchedFiles(({ changes }) => {
    session.changedOnDisk(changes.map(({ uri }) => uri));
    void publisher.everything();
  });
}

/** A client that will not register tells in its own way, or has gone. */
function refused(): null {
  return null;
}

async function readConfiguration({ connection, session }: Shared): Promise<void> {
  const given: unknown = await connection.workspace.getConfiguration('groundbass');
  session.setSettings(readSettings(given));
}
