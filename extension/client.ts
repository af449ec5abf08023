// What the language client is told on both hosts: its documents, its settings, its log, and the files it reads for the server.

import * as vscode from 'vscode';
import type { BaseLanguageClient, LanguageClientOptions } from 'vscode-languageclient';
import { answerFileRequests } from './files.ts';
import { GROUNDBASS_SELECTOR, WATCHED_FILES } from './languages.ts';
import { toServerSettings } from './settings.ts';

/** Id of the client, and prefix of its setting `groundbass.trace.server`. */
export const CLIENT_ID = 'groundbass';
export const CLIENT_NAME = 'Groundbass';

/** What the server is told at its start: which of its offers this client can carry out, and where its pages lie. */
interface InitializationOptions {
  readonly commands: {
    readonly openSheet: string;
    readonly showProblems: string;
    readonly suggest: string;
  };
  readonly docs: string;
}

export type MakeClient = (options: LanguageClientOptions) => BaseLanguageClient;

/** Makes the client, not yet started; everything it watches ends with the extension. */
export function prepareClient(
  context: vscode.ExtensionContext,
  log: vscode.LogOutputChannel,
  make: MakeClient,
): BaseLanguageClient {
  const watchers = WATCHED_FILES.map((glob) => vscode.workspace.createFileSystemWatcher(glob));
  const client = make({
    documentSelector: GROUNDBASS_SELECTOR.map((filter) => ({ ...filter })) as {
      language: string;
    }[],
    outputChannel: log,
    initializationOptions: {
      commands: {
        openSheet: 'groundbass.openSheet',
        showProblems: 'workbench.actions.view.problems',
        suggest: 'editor.action.triggerSuggest',
      },
      docs: vscode.Uri.joinPath(context.extensionUri, 'docs', 'findings').toString(),
    } satisfies InitializationOptions,
    synchronize: { fileEvents: watchers },
    middleware: {
      workspace: {
        configuration: async (params, token, next) => {
          const answers = await next(params, token);
          if (!Array.isArray(answers)) return answers;
          return params.items.map(({ section }, index) =>
            section === CLIENT_ID ? toServerSettings(answers[index]) : answers[index],
          );
        },
      },
    },
  });
  context.subscriptions.push(...watchers, {
    dispose: () => (client.isRunning() ? client.stop() : undefined),
  });
  answerFileRequests(client);
  return client;
}
