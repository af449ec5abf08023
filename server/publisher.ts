// The publisher: tells the client what became other when a file changed. Sends diagnostics to clients that do not ask for them, and
// asks those that do to ask again.

import type { Connection } from 'vscode-languageserver';
import type { Analysis } from './analysis.ts';
import type { Client } from './client.ts';
import { diagnostics } from './features/diagnostics.ts';
import { resultIdOf } from './lsp/resultId.ts';
import { SETUP_CHANGED, type SetupChangedParams } from './protocol/setup.ts';
import type { Log } from './serve.ts';
import type { Session } from './session.ts';

export interface Publisher {
  /** The text of an open file changed. */
  readonly changed: (uri: string) => Promise<void>;
  readonly closed: (uri: string) => Promise<void>;
  /** Anything may be another now: settings, files on the disk, folders. */
  readonly everything: () => Promise<void>;
}

export interface PublisherOptions {
  readonly client: () => Client | null;
  readonly docs: () => string | null;
  readonly log: Log;
}

export function createPublisher(
  connection: Connection,
  session: Session,
  { client, docs, log }: PublisherOptions,
): Publisher {
  /** What was sent last for each file, so that nothing is sent twice. */
  const sent = new Map<string, string>();

  async function send(analysis: Analysis): Promise<void> {
    const { uri, version } = analysis.source;
    const items = diagnostics(analysis, docs());
    const mark = `${version} ${resultIdOf(items)}`;
    if (sent.get(uri) === mark) return;
    sent.set(uri, mark);
    await connection.sendDiagnostics({
      uri,
      diagnostics: items,
      ...(version === null ? {} : { version }),
    });
  }

  async function clear(uri: string): Promise<void> {
    if (sent.delete(uri)) await connection.sendDiagnostics({ uri, diagnostics: [] });
  }

  async function sendAll(): Promise<void> {
    const all = await session.all();
    for (const analysis of all) await send(analysis);
    const known = new Set(all.map(({ source }) => source.uri));
    for (const uri of [...sent.keys()]) if (!known.has(uri)) await clear(uri);
  }

  function refresh(): void {
    if (client()?.refreshesDiagnostics) connection.languages.diagnostics.refresh();
    if (client()?.refreshesHints) void connection.languages.inlayHint.refresh();
    if (client()?.refreshesLenses) void connection.sendRequest('workspace/codeLens/refresh');
  }

  function tellSetups(): void {
    for (const { uri, version } of session.opened()) {
      const params: SetupChangedParams = { uri, version };
      void connection.sendNotification(SETUP_CHANGED, params);
    }
  }

  const logged = async (name: string, act: () => Promise<void>): Promise<void> => {
    try {
      await act();
    } catch (error) {
      log(`${name} failed: ${error instanceof Error ? (error.stack ?? error.message) : error}`);
    }
  };

  return {
    changed: (uri) =>
      logged('publishing', async () => {
        const analysis = await session.analysis(uri);
        const isShared = analysis !== null && analysis.source.parsed.kind !== 'room';
        if (isShared) {
          refresh();
          tellSetups();
        }
        if (client()?.pullsDiagnostics) return;
        if (isShared) await sendAll();
        else if (analysis === null) await clear(uri);
        else await send(analysis);
      }),
    closed: (uri) =>
      logged('closing', async () => {
        if (client()?.pullsDiagnostics) return;
        // What the disk says counts again; a file outside the workspace's folders is no longer looked at.
        const analysis = session.isInFolders(uri) ? await session.analysis(uri) : null;
        if (analysis === null) await clear(uri);
        else await send(analysis);
      }),
    everything: () =>
      logged('publishing', async () => {
        refresh();
        tellSetups();
        if (!client()?.pullsDiagnostics) await sendAll();
      }),
  };
}
