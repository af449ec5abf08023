// The language server as a browser runs it: the web bundle in a worker below another worker, as below an editor's extension host.
//
// The bundle is served by this machine to a page of Chromium; its messages go through the page to a client here. Threads that it
// starts say so over a channel, by a line put in front of the script: who started, and who answered.

import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { build } from 'esbuild';
import type { Browser } from 'playwright-core';
import {
  AbstractMessageReader,
  AbstractMessageWriter,
  createMessageConnection,
  type DataCallback,
  type Message,
} from 'vscode-jsonrpc/node';
import { BUNDLES, buildOptions } from '../../../extension/build/bundles.ts';
import { type Client, type ClientOptions, clientOver } from './client.ts';

export interface WebServer {
  readonly client: Client;
  /** `start groundbass field`, `answer groundbass field` …, as they came. */
  readonly told: readonly string[];
  readonly close: () => Promise<void>;
}

export async function webServer(browser: Browser, options: ClientOptions): Promise<WebServer> {
  const script = WITNESS + (await bundle());
  const site = createServer(({ url }, response) => {
    response.setHeader('content-type', url === '/' ? 'text/html' : 'text/javascript');
    response.end(url === '/' ? '<!doctype html><title>server</title>' : script);
  });
  await new Promise<void>((resolve) => site.listen(0, '127.0.0.1', resolve));
  const origin = `http://127.0.0.1:${(site.address() as AddressInfo).port}`;
  const page = await browser.newPage();
  const told: string[] = [];
  const reader = new PageReader();
  await page.exposeFunction('heard', (message: Message) => reader.heard(message));
  await page.exposeFunction('witnessed', (line: string) => told.push(line));
  await page.goto(origin);
  await page.evaluate(startBelowHost, `${origin}/browser.js`);
  const writer = new PageWriter((message) => page.evaluate(send, message));
  const client = await clientOver(createMessageConnection(reader, writer), options);
  return {
    client,
    told,
    close: async () => {
      await page.close();
      await new Promise((resolve) => site.close(resolve));
    },
  };
}

/** In front of the bundle: whoever has a name of ours tells that it runs, and that it answers. */
const WITNESS = `{
  const name = self.name;
  if (name.startsWith('groundbass')) {
    const channel = new BroadcastChannel('witness');
    const post = self.postMessage.bind(self);
    channel.postMessage('start ' + name);
    self.postMessage = (...all) => { channel.postMessage('answer ' + name); post(...all); };
  }
}
`;

/** As the build makes it. */
async function bundle(): Promise<string> {
  const found = BUNDLES.find(({ name }) => name === 'server-browser');
  if (found === undefined) throw new RangeError('no bundle of the server for browsers');
  const { outputFiles } = await build({ ...buildOptions(found), write: false });
  return outputFiles[0]?.text ?? '';
}

interface ServerPage {
  heard: (message: unknown) => void;
  witnessed: (line: string) => void;
  toServer: (message: unknown) => void;
}

/**
 * Runs in the page: a worker like an editor's extension host, which starts the server below itself by a script that imports it, as
 * editors do: the server cannot see where it came from.
 */
function startBelowHost(script: string): void {
  const page = window as unknown as ServerPage;
  const bootstrap = `importScripts(${JSON.stringify(script)})`;
  const host = `
    const blob = new Blob([${JSON.stringify(bootstrap)}], { type: 'text/javascript' });
    const server = new Worker(URL.createObjectURL(blob), { name: 'host -> browser.js' });
    server.onmessage = ({ data }) => postMessage(data);
    server.onerror = ({ message }) => postMessage({ jsonrpc: '2.0', method: 'failed', params: { message } });
    onmessage = ({ data }) => server.postMessage(data);
  `;
  const worker = new Worker(URL.createObjectURL(new Blob([host], { type: 'text/javascript' })));
  worker.onmessage = ({ data }) => page.heard(data);
  page.toServer = (message) => worker.postMessage(message);
  new BroadcastChannel('witness').onmessage = ({ data }) => page.witnessed(data);
}

/** Runs in the page. */
function send(message: unknown): void {
  (window as unknown as ServerPage).toServer(message);
}

class PageReader extends AbstractMessageReader {
  #callback: DataCallback | null = null;
  readonly #early: Message[] = [];

  heard(message: Message): void {
    if (this.#callback) this.#callback(message);
    else this.#early.push(message);
  }

  listen(callback: DataCallback): { dispose: () => void } {
    this.#callback = callback;
    for (const message of this.#early.splice(0)) callback(message);
    return { dispose: () => undefined };
  }
}

class PageWriter extends AbstractMessageWriter {
  readonly #send: (message: Message) => Promise<void>;
  #last: Promise<void> = Promise.resolve();

  constructor(send: (message: Message) => Promise<void>) {
    super();
    this.#send = send;
  }

  /** One after the other: they must arrive in their order. */
  write(message: Message): Promise<void> {
    this.#last = this.#last.then(() => this.#send(message));
    return this.#last;
  }

  end(): void {}
}
