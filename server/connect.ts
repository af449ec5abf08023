// Connects a session to an editor: the conversation's start, its documents, its files and settings. Knows neither Node nor browser.

import { type Connection, TextDocuments } from 'vscode-languageserver';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { CAPABILITIES } from './capabilities.ts';
import { type Client, readClient } from './client.ts';
import { connectConfiguration } from './connectConfiguration.ts';
import { connectFeatures } from './connectFeatures.ts';
import { connectOwn } from './connectOwn.ts';
import { connectSearch } from './connectSearch.ts';
import type { FieldHost } from './field/fieldJob.ts';
import { fieldLater } from './field/fieldLater.ts';
import type { FieldPhase } from './field/fieldPhase.ts';
import { tellLong } from './field/fieldProgress.ts';
import type { Files } from './files/files.ts';
import { baseName } from './files/uri.ts';
import { measuredLater } from './measured/measuredLater.ts';
import type { MeasuredPhase } from './measured/measuredPhase.ts';
import type { MeasuredHost } from './measured/measuredWorkers.ts';
import type { Background } from './neighbours.ts';
import { SETUP_CHANGED, type SetupChangedParams } from './protocol/setup.ts';
import { createPublisher, type Publisher } from './publisher.ts';
import { createSearches, type Searches } from './search/searches.ts';
import type { Log } from './serve.ts';
import { createSession, type Session } from './session.ts';
import { createTryOut, type TryOut } from './tryOut.ts';
import { VERSION } from './version.ts';

export interface World {
  readonly files: Files;
  /** An ISO date. */
  readonly today: () => string;
  /** Does something once the answers that somebody waits for were given. */
  readonly later: Background['later'];
  /** Where the low end is worked out, off the typing path. */
  readonly field: FieldHost;
  /** Where takes are read and held against the plan. */
  readonly measured: MeasuredHost;
  /** Where the pages of the findings lie, if the client does not say. */
  readonly docs: string | null;
}

/** What the parts of a connection share. */
export interface Shared {
  readonly connection: Connection;
  readonly session: Session;
  /** null before the client has said who it is. */
  readonly client: () => Client | null;
  readonly docs: () => string | null;
  readonly log: Log;
}

/** Serves an editor over this connection until it closes. */
export function connect(connection: Connection, world: World): void {
  const { files, today, later, docs } = world;
  const log = logTo(connection);
  let client: Client | null = null;
  const long = (title: string, stop: () => void) =>
    client?.showsProgress ? tellLong(connection, title, stop) : () => undefined;
  const field: FieldPhase = fieldLater(world.field, {
    changed: (uri) => void publisher.completed(uri),
    confirmed: (uri) => publisher.confirmed(uri),
    long: (uri, stop) => long(`Working out the low end of ${baseName(uri)}`, stop),
    log,
  });
  const measured: MeasuredPhase = measuredLater(world.measured, files, {
    changed: (uri) => void publisher.completed(uri),
    long: (name, stop) => long(`Reading measurements: ${name}`, stop),
    log,
  });
  const background = { later, done: () => void publisher.everything() };
  const session: Session = createSession(files, today, background, field, measured);
  const shared: Shared = {
    connection,
    session,
    client: () => client,
    docs: () => client?.docs ?? docs,
    log,
  };
  const publisher: Publisher = createPublisher(shared);
  const searches = createSearches();
  const tryOut = createTryOut(world.field);

  connection.onInitialize((params) => {
    client = readClient(params);
    session.setFolders(client.folders);
    return { capabilities: CAPABILITIES, serverInfo: { name: 'groundbass', version: VERSION } };
  });
  connectConfiguration(shared, publisher);
  connectFeatures(shared, searches);
  connectOwn(shared, searches, tryOut, { ...world, field });
  connectSearch(shared, searches, world.field.after, world.measured);
  connectDocuments(shared, publisher, [searches, tryOut]);
  connection.listen();
}

function logTo(connection: Connection): Log {
  return (message) => {
    try {
      connection.console.error(message);
    } catch {
      // The client has gone: nobody is left to tell.
    }
  };
}

function connectDocuments(
  { connection, session }: Shared,
  publisher: Publisher,
  kept: readonly Pick<Searches | TryOut, 'forget'>[],
): void {
  const documents = new TextDocuments(TextDocument);
  documents.onDidChangeContent(({ document }) => {
    const { uri, version, languageId } = document;
    session.open(uri, version, document.getText(), languageId);
    const params: SetupChangedParams = { uri, version };
    void connection.sendNotification(SETUP_CHANGED, params);
    void publisher.changed(uri);
  });
  documents.onDidClose(({ document }) => {
    session.close(document.uri);
    for (const one of kept) one.forget(document.uri);
    void publisher.closed(document.uri);
  });
  documents.listen(connection);
}
