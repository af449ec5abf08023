// All setup sheets of a window: opens them, lets them follow the active room and the text, and brings them back after a reload.

import * as vscode from 'vscode';
import { isRoom } from '../languages.ts';
import type { Server } from '../server.ts';
import { readStateUri } from './messages.ts';
import { SheetPane } from './pane.ts';

export const SHEET_VIEW = 'groundbass.sheet';
/** Key in the workspace's memory: rooms whose sheets are kept on them. */
const KEPT = 'groundbass.keptSheets';

export class Sheets {
  readonly #context: vscode.ExtensionContext;
  readonly #server: Server;
  readonly #panes = new Set<SheetPane>();

  constructor(context: vscode.ExtensionContext, server: Server) {
    this.#context = context;
    this.#server = server;
  }

  get active(): SheetPane | undefined {
    return [...this.#panes].find(({ panel }) => panel.active);
  }

  /**
   * Brings a room's sheet to the front: its own, else the one that follows, else a new one beside.
   *
   * @param place what of it is to be brought into view; null for the sheet as it stands
   */
  open(uri: vscode.Uri, place: readonly string[] | null): void {
    const panes = [...this.#panes];
    const pane = panes.find((one) => one.isAbout(uri)) ?? panes.find(({ isKept }) => !isKept);
    if (pane) {
      pane.show(uri);
      pane.panel.reveal(undefined, true);
    } else this.#openBeside(uri);
    const opened = pane ?? [...this.#panes].find((one) => one.isAbout(uri));
    if (place) opened?.bringIntoView(place);
  }

  #openBeside(uri: vscode.Uri): void {
    const column = { viewColumn: vscode.ViewColumn.Beside, preserveFocus: true };
    this.adopt(vscode.window.createWebviewPanel(SHEET_VIEW, '', column, {}), uri);
  }

  /** Makes a panel a sheet; a restored one may have lost its room. */
  adopt(panel: vscode.WebviewPanel, uri: vscode.Uri | null): void {
    const pane = new SheetPane(panel, this.#context.extensionUri, this.#server, uri);
    if (uri && this.#context.workspaceState.get<string[]>(KEPT, []).includes(uri.toString())) {
      pane.keep(true);
    }
    this.#panes.add(pane);
    panel.onDidChangeViewState(() => this.#tellContext());
    panel.onDidDispose(() => {
      this.#panes.delete(pane);
      this.#tellContext();
    });
    this.#tellContext();
  }

  keepActive(isKept: boolean): void {
    const pane = this.active ?? [...this.#panes][0];
    pane?.keep(isKept);
    const kept = [...this.#panes].filter((one) => one.isKept).map(({ uri }) => String(uri));
    void this.#context.workspaceState.update(KEPT, kept);
    this.#tellContext();
    const { activeTextEditor } = vscode.window;
    if (!isKept) this.follow(activeTextEditor);
  }

  follow(editor: vscode.TextEditor | undefined): void {
    if (!isRoom(editor?.document)) return;
    for (const pane of this.#panes) if (!pane.isKept) pane.show(editor.document.uri);
  }

  refresh(uri?: string): void {
    for (const pane of this.#panes) if (!uri || pane.uri?.toString() === uri) pane.refresh();
  }

  highlight({ document, selection }: vscode.TextEditor): void {
    for (const pane of this.#panes)
      if (pane.isAbout(document.uri)) pane.highlight(selection.active);
  }

  #tellContext(): void {
    const isKept = (this.active ?? [...this.#panes][0])?.isKept ?? false;
    void vscode.commands.executeCommand('setContext', 'groundbass.sheetKept', isKept);
  }
}

export function registerSheets(context: vscode.ExtensionContext, server: Server): Sheets {
  const sheets = new Sheets(context, server);
  const settingOf = <T>(name: string, uri: vscode.Uri) =>
    vscode.workspace.getConfiguration('groundbass.sheet', uri).get<T>(name);
  const followsTyping = (uri: vscode.Uri) => settingOf('update', uri) !== 'save';
  context.subscriptions.push(
    server.onSetupChange((uri) => {
      if (followsTyping(vscode.Uri.parse(uri))) sheets.refresh(uri);
    }),
    server.onStateChange(() => sheets.refresh()),
    vscode.workspace.onDidSaveTextDocument(({ uri }) => {
      if (!followsTyping(uri)) sheets.refresh(uri.toString());
    }),
    vscode.window.onDidChangeActiveTextEditor((editor) => sheets.follow(editor)),
    vscode.window.onDidChangeTextEditorSelection(({ textEditor }) => {
      const { uri } = textEditor.document;
      if (isRoom(textEditor.document) && settingOf('followCursor', uri))
        sheets.highlight(textEditor);
    }),
    vscode.window.registerWebviewPanelSerializer(SHEET_VIEW, {
      deserializeWebviewPanel: async (panel, state) => {
        const uri = readStateUri(state);
        sheets.adopt(panel, uri ? vscode.Uri.parse(uri) : null);
      },
    }),
  );
  return sheets;
}
