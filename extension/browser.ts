// The extension in a browser: the server is a web worker.

import { type ExtensionContext, Uri } from 'vscode';
import {
  BrowserMessageReader,
  BrowserMessageWriter,
  LanguageClient,
  type MessageTransports,
} from 'vscode-languageclient/browser';
import { CLIENT_ID, CLIENT_NAME } from './client.ts';
import { start } from './start.ts';

export function activate(context: ExtensionContext): void {
  const script = Uri.joinPath(context.extensionUri, 'dist/server/browser.js').toString(true);
  let worker: Worker | undefined;
  // The two ends, not the worker: editors put a class of their own in the place of `Worker`, which the client would not know again.
  const connect = async (): Promise<MessageTransports> => {
    worker?.terminate(); // A restart leaves no second one behind.
    worker = new Worker(script);
    return { reader: new BrowserMessageReader(worker), writer: new BrowserMessageWriter(worker) };
  };
  context.subscriptions.push({ dispose: () => worker?.terminate() });
  start(context, (options) => new LanguageClient(CLIENT_ID, CLIENT_NAME, connect, options));
}
