// The extension in a browser: the server is a web worker.

import { type ExtensionContext, Uri } from 'vscode';
import { LanguageClient } from 'vscode-languageclient/browser';
import { CLIENT_ID, CLIENT_NAME } from './client.ts';
import { start } from './start.ts';

export function activate(context: ExtensionContext): void {
  const script = Uri.joinPath(context.extensionUri, 'dist/server/browser.js').toString(true);
  let worker: Worker | undefined;
  const replaceWorker = (): Promise<Worker> => {
    worker?.terminate(); // A restart leaves no second one behind.
    worker = new Worker(script);
    return Promise.resolve(worker);
  };
  context.subscriptions.push({ dispose: () => worker?.terminate() });
  start(context, (options) => new LanguageClient(CLIENT_ID, CLIENT_NAME, replaceWorker, options));
}
