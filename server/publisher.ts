// The publisher: tells the client what became other when a file changed. Sends diagnostics to clients that do not ask for them, and
// asks those that do to ask again.

import type { Analysis } from './analysis.ts';
import type { Shared } from './connect.ts';
import { diagnostics } from './features/diagnostics.ts';
import { resultIdOf } from './lsp/resultId.ts';
import { SETUP_CHANGED, type SetupChangedParams } from './protocol/setup.ts';

export interface Publisher {
  /** The text of an open file changed. */
  readonly changed: (uri: string) => Promise<void>;
  readonly closed: (uri: string) => Promise<void>;
  /** What takes longer than a keystroke is known of this open room now. */
  readonly completed: (uri: string) => Promise<void>;
  /** The same holds as was told before, for this version too. */
  readonly confirmed: (uri: string) => void;
  /** Anything may be another now: settings, files on the disk, folders. */
  readonly everything: () => Promise<void>;
}

export function createPublisher(shared: Shared): Publisher {
  const { connection, session, client, docs } = shared;
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

  return {
    changed: (uri) =>
      logged(shared, async () => {
        const analysis = await session.analysis(uri);
        const isShared = analysis !== null && analysis.source.parsed.kind !== 'room';
        if (isShared) {
          refresh(shared);
          tellSetups(shared);
        }
        if (client()?.pullsDiagnostics) return;
        if (isShared) await sendAll();
        else if (analysis === null) await clear(uri);
        else await send(analysis);
      }),
    closed: (uri) =>
      logged(shared, async () => {
        if (client()?.pullsDiagnostics) return;
        // What the disk says counts again; a file outside the workspace's folders is no longer looked at.
        const analysis = session.isInFolders(uri) ? await session.analysis(uri) : null;
        if (analysis === null) await clear(uri);
        else await send(analysis);
      }),
    completed: (uri) =>
      logged(shared, async () => {
        const analysis = await session.analysis(uri);
        if (analysis === null || analysis.source.version === null) return;
        refresh(shared);
        tellSetup(shared, uri, analysis.source.version);
        if (!client()?.pullsDiagnostics) await send(analysis);
      }),
    confirmed: (uri) => {
      const open = session.opened().find((one) => one.uri === uri);
      if (open) tellSetup(shared, uri, open.version);
    },
    everything: () =>
      logged(shared, async () => {
        refresh(shared);
        tellSetups(shared);
        if (!client()?.pullsDiagnostics) await sendAll();
      }),
  };
}

function refresh({ connection, client }: Shared): void {
  // A client that has gone meanwhile need not be told.
  const ask = (method: string): unknown => connection.sendRequest(method).catch(() => null);
  if (client()?.refreshesDiagnostics) ask('workspace/diagnostic/refresh');
  if (client()?.refreshesHints) ask('workspace/inlayHint/refresh');
  if (client()?.refreshesLenses) ask('workspace/codeLens/refresh');
}

/** The setup of every open room may be another now. */
function tellSetups(shared: Shared): void {
  for (const { uri, version } of shared.session.opened()) tellSetup(shared, uri, version);
}

function tellSetup({ connection }: Shared, uri: string, version: number): void {
  const params: SetupChangedParams = { uri, version };
  void connection.sendNotification(SETUP_CHANGED, params);
}

async function logged({ log }: Shared, act: () => Promise<void>): Promise<void> {
  try {
    await act();
  } catch (error) {
    log(`publishing failed: ${error instanceof Error ? (error.stack ?? error.message) : error}`);
  }
}
