// The editor's side as the page sees it: one typed way out, one typed way in, and a small memory.

import type { HostToPane, PaneState, PaneToHost } from '../../../server/protocol/pane.ts';

interface VsCodeApi {
  readonly postMessage: (message: PaneToHost) => void;
  readonly getState: () => PaneState | undefined;
  readonly setState: (state: PaneState) => void;
}

declare const acquireVsCodeApi: () => VsCodeApi;

export interface Host {
  readonly say: (message: PaneToHost) => void;
  readonly remembered: () => PaneState | null;
  readonly remember: (state: PaneState) => void;
  /** Calls back for each message; the answer ends it. */
  readonly listen: (heard: (message: HostToPane) => void) => () => void;
}

/** The editor hands its side out once a page: to be called once. */
export function connectHost(): Host {
  const api = acquireVsCodeApi();
  return {
    say: (message) => api.postMessage(message),
    remembered: () => api.getState() ?? null,
    remember: (state) => api.setState(state),
    listen: (heard) => {
      // Only the editor can post into a webview's own window.
      const receive = (event: MessageEvent<HostToPane>): void => heard(event.data);
      window.addEventListener('message', receive);
      return () => window.removeEventListener('message', receive);
    },
  };
}
