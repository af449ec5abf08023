// Connects the features to an editor: one line a feature, each through the one wrapper. Knows neither Node nor browser.

import {
  type Connection,
  DidChangeConfigurationNotification,
  DidChangeWatchedFilesNotification,
  type InitializeResult,
  TextDocuments,
} from 'vscode-languageserver';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { CAPABILITIES } from './capabilities.ts';
import { type Client, readClient } from './client.ts';
import { connectFeatures } from './connectFeatures.ts';
import { connectOwn } from './connectOwn.ts';
import { type Files, OUR_GLOBS } from './files/files.ts';
import { SETUP_CHANGED, type SetupChangedParams } from './protocol/setup.ts';
import { createPublisher } from './publisher.ts';
import type { Log } from './serve.ts';
import { createSession } from './session.ts';
import { readSettings } from './settings.ts';
import { VERSION } from './version.ts';

export interface World {
  readonly files: Files;
  /** An ISO date. */
  readonly today: () => string;
  /** Where the pages of the findings lie, if the client does not say. */
  readonly docs: string | null;
}

/** Serves an editor over this connection until it closes. */
export function connect(connection: Connection, world: World): void {
  const log: Log = (message) => connection.console.error(message);
  const session = createSession(world.files, world.today);
  const documents = new TextDocuments(TextDocument);
  let client: Client | null = null;
  const docs = (): string | null => client?.docs ?? world.docs;
  const publisher = createPublisher(connection, session, { client: () => client, docs, log });

  connection.onInitialize((params): InitializeResult => {
    client = readClient(params);
    session.setFolders(client.folders);
    return {
      capabilities: CAPABILITIES,
      serverInfo: { name: 'groundbass', version: VERSION },
    };
  });

  connection.onInitialized(async () => {
    if (client?.hasConfiguration) {
      await readConfiguration();
      void connection.client.register(DidChangeConfigurationNotification.type, {
        section: 'groundbass',
      });
    }
    if (client?.watchesFiles)
      void connection.client.register(DidChangeWatchedFilesNotification.type, {
        watchers: [...OUR_GLOBS, '**/*.{wav,txt,csv}'].map((globPattern) => ({ globPattern })),
      });
    if (client?.changesFolders)
      connection.workspace.onDidChangeWorkspaceFolders?.(({ added, removed }) => {
        const gone = new Set(removed.map(({ uri }) => uri));
        const kept = session.folders().filter((uri) => !gone.has(uri));
        session.setFolders([...kept, ...added.map(({ uri }) => uri)]);
        void publisher.everything();
      });
    void publisher.everything();
  });

  async function readConfiguration(): Promise<void> {
    const given: unknown = await connection.workspace.getConfiguration('groundbass');
    session.setSettings(readSettings(given));
  }

  connection.onDidChangeConfiguration(async ({ settings }) => {
    if (client?.hasConfiguration) await readConfiguration();
    else session.setSettings(readSettings((settings as { groundbass?: unknown })?.groundbass));
    void publisher.everything();
  });

  connection.onDidChangeWatchedFiles(({ changes }) => {
    session.changedOnDisk(changes.map(({ uri }) => uri));
    void publisher.everything();
  });

  documents.onDidChangeContent(({ document }) => {
    const { uri, version, languageId } = document;
    session.open(uri, version, document.getText(), languageId);
    const params: SetupChangedParams = { uri, version };
    void connection.sendNotification(SETUP_CHANGED, params);
    void publisher.changed(uri);
  });

  documents.onDidClose(({ document }) => {
    session.close(document.uri);
    void publisher.closed(document.uri);
  });

  connectFeatures(connection, session, { client: () => client, docs, log });
  connectOwn(connection, session, log);
  documents.listen(connection);
  connection.listen();
}
