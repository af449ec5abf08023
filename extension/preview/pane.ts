// One setup sheet beside the text: follows its room, goes to the source of what is clicked, and makes what is dragged an edit.
//
// A hidden page is thrown away by the editor and keeps nothing: on every `ready` it is told everything again.

import * as vscode from 'vscode';
import type { HostToPane, PaneToHost } from '../../server/protocol/pane.ts';
import { makeEdits } from '../edit.ts';
import { isRoom, roomName } from '../languages.ts';
import type { Server } from '../server.ts';
import { pageFolder, pageHtml } from './html.ts';
import { latestOnly } from './latestOnly.ts';
import { readMessage } from './messages.ts';

/** From here on a person notices that they wait. */
const BUSY_AFTER_MS = 500;

export class SheetPane {
  readonly panel: vscode.WebviewPanel;
  readonly #server: Server;
  readonly #disposables: vscode.Disposable[] = [];
  #uri: vscode.Uri | null;
  #isReady = false;
  /** Whether it stays on its room while other rooms become active. */
  isKept = false;
  /** One change after another: each is worked out on the text that the one before has left. */
  #edits: Promise<void> = Promise.resolve();

  constructor(
    panel: vscode.WebviewPanel,
    extensionUri: vscode.Uri,
    server: Server,
    uri: vscode.Uri | null,
  ) {
    this.panel = panel;
    this.#server = server;
    this.#uri = uri;
    panel.iconPath = {
      light: vscode.Uri.joinPath(extensionUri, 'extension/media/room-light.svg'),
      dark: vscode.Uri.joinPath(extensionUri, 'extension/media/room-dark.svg'),
    };
    panel.webview.options = { enableScripts: true, localResourceRoots: [pageFolder(extensionUri)] };
    panel.webview.onDidReceiveMessage(
      (message) => this.#receive(readMessage(message)),
      undefined,
      this.#disposables,
    );
    panel.onDidChangeViewState(() => this.#onVisibility(), undefined, this.#disposables);
    panel.onDidDispose(() => vscode.Disposable.from(...this.#disposables).dispose());
    panel.webview.html = pageHtml(panel.webview, extensionUri);
    this.#entitle();
  }

  get uri(): vscode.Uri | null {
    return this.#uri;
  }

  isAbout(uri: vscode.Uri): boolean {
    return this.#uri?.toString() === uri.toString();
  }

  /** Shows another room; nothing happens where it is shown already. */
  show(uri: vscode.Uri): void {
    if (this.isAbout(uri)) return;
    this.#uri = uri;
    this.#entitle();
    this.refresh();
  }

  keep(isKept: boolean): void {
    this.isKept = isKept;
    this.#entitle();
  }

  /** Asks for the setup and draws it; while one answer is awaited, further calls lead to one more question only. */
  readonly refresh: () => void = latestOnly(async () => {
    if (!this.#isReady) return;
    const uri = this.#uri;
    if (!uri) return this.#say({ kind: 'none', why: vscode.l10n.t('No room file is open.') });
    if (!this.#server.isRunning) {
      return this.#say({ kind: 'none', why: vscode.l10n.t('The language server is not running.') });
    }
    const label = vscode.workspace.asRelativePath(uri);
    const waiting = setTimeout(() => this.#say({ kind: 'busy', label }), BUSY_AFTER_MS);
    try {
      await vscode.workspace.openTextDocument(uri); // What no editor shows is known to the server only while it is open.
      const answer = await this.#server.setup(uri);
      if (!this.isAbout(uri)) return;
      this.#say({ kind: 'setup', answer, label });
      this.#sayPlace();
    } catch (error) {
      const why = error instanceof Error ? error.message : String(error);
      if (this.isAbout(uri)) this.#say({ kind: 'none', why });
    } finally {
      clearTimeout(waiting);
    }
  });

  /** Points out what the cursor stands on; null where it stands on nothing of this room. */
  highlight(position: vscode.Position): void {
    this.#cursor = position;
    this.#pointOut();
  }

  /** Brings a place of the room into view, once it is drawn. */
  bringIntoView(place: readonly string[]): void {
    this.#place = place;
    if (this.#isReady) this.refresh();
  }

  #place: readonly string[] | null = null;
  #sayPlace(): void {
    if (this.#place) this.#say({ kind: 'jump', path: this.#place });
    this.#place = null;
  }

  #cursor: vscode.Position | null = null;
  readonly #pointOut: () => void = latestOnly(async () => {
    const uri = this.#uri;
    if (!this.#isReady || !uri || !this.#cursor || !this.#server.isRunning) return;
    const path = await this.#server.pathAt(uri, this.#cursor);
    if (this.isAbout(uri)) this.#say({ kind: 'highlight', path });
  });

  #receive(message: PaneToHost | null): void {
    switch (message?.kind) {
      case 'ready':
        this.#isReady = true;
        this.refresh();
        return;
      case 'reveal':
        void this.#reveal(message.path);
        return;
      case 'edit':
        this.#edits = this.#edits.then(() => this.#edit(message));
        return;
      case 'search':
        void this.#search(message);
        return;
      case 'stop':
        this.#stop?.cancel();
        return;
      case 'try':
        void this.#try(message);
        return;
      case 'ask':
        void this.#ask(message);
        return;
    }
  }

  #onVisibility(): void {
    if (!this.panel.visible) this.#isReady = false; // The page is gone; the next one says `ready` itself.
  }

  async #reveal(path: readonly string[]): Promise<void> {
    const uri = this.#uri;
    if (!uri) return;
    const selection = await this.#server.rangeOf(uri, path);
    await showSource(uri, selection ?? undefined);
  }

  async #edit({ version, edits }: Extract<PaneToHost, { kind: 'edit' }>): Promise<void> {
    const uri = this.#uri;
    if (!uri) return;
    try {
      const document = await vscode.workspace.openTextDocument(uri);
      if (isRoom(document) && (await makeEdits(this.#server, document, version, edits))) return;
      this.#say({ kind: 'refused', why: vscode.l10n.t('The text has changed in the meantime.') });
    } catch (error) {
      this.#say({ kind: 'refused', why: error instanceof Error ? error.message : String(error) });
    }
    this.refresh();
  }

  /** Of the search that runs; a pane runs one at a time. */
  #stop: vscode.CancellationTokenSource | null = null;
  async #search(wanted: Extract<PaneToHost, { kind: 'search' }>): Promise<void> {
    const uri = this.#uri;
    if (!uri) return;
    const stop = new vscode.CancellationTokenSource();
    this.#stop = stop;
    try {
      const isFound = await this.#server.search(uri, wanted, stop.token);
      const why = isFound ? null : vscode.l10n.t('Stopped, or nothing was found.');
      this.#say({ kind: 'searched', why });
    } catch (error) {
      const isStopped = stop.token.isCancellationRequested;
      const why = error instanceof Error ? error.message : String(error);
      this.#say({ kind: 'searched', why: isStopped ? vscode.l10n.t('Stopped.') : why });
    } finally {
      stop.dispose();
      if (this.#stop === stop) this.#stop = null;
    }
  }

  async #try({ trial, version, edits }: Extract<PaneToHost, { kind: 'try' }>): Promise<void> {
    const uri = this.#uri;
    if (!uri) return;
    const answer = await this.#server.tryOut(uri, version, edits).catch(() => null);
    this.#say({ kind: 'tried', trial, answer });
  }

  async #ask({ number, version, ask }: Extract<PaneToHost, { kind: 'ask' }>): Promise<void> {
    const uri = this.#uri;
    const answer = uri ? await this.#server.lowEnd(uri, version, ask).catch(() => null) : null;
    this.#say({ kind: 'answered', number, answer });
  }

  #say(message: HostToPane): void {
    if (this.#isReady) void this.panel.webview.postMessage(message);
  }

  #entitle(): void {
    const name = this.#uri ? roomName(this.#uri) : '';
    this.panel.title = this.isKept
      ? vscode.l10n.t('Setup: {0} (kept)', name)
      : vscode.l10n.t('Setup: {0}', name);
  }
}

/** Goes to a room's text where it is shown, or opens it in the first column. */
export async function showSource(uri: vscode.Uri, selection?: vscode.Range): Promise<void> {
  const shown = vscode.window.visibleTextEditors.find(
    ({ document }) => document.uri.toString() === uri.toString(),
  );
  await vscode.window.showTextDocument(uri, {
    viewColumn: shown?.viewColumn ?? vscode.ViewColumn.One,
    ...(selection && { selection }),
  });
}
