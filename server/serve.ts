// The one wrapper around every feature: finds the analysis, minds cancellation, and answers a fallback where a feature fails.

import { type CancellationToken, LSPErrorCodes, ResponseError } from 'vscode-languageserver';
import type { Analysis } from './analysis.ts';
import type { Session } from './session.ts';

export type Log = (message: string) => void;

interface AboutDocument {
  readonly textDocument: { readonly uri: string };
}

/**
 * @param name of the feature, for the log
 * @param fallback the answer for a file that is none of ours, and where the feature fails
 */
export function serve(session: Session, log: Log) {
  return <Params extends AboutDocument, Answer>(
    name: string,
    fallback: Answer,
    feature: (analysis: Analysis, params: Params) => Answer | Promise<Answer>,
  ): ((params: Params, token: CancellationToken) => Promise<Answer>) =>
    guarded(log, name, fallback, async (params) => {
      const analysis = await session.analysis(params.textDocument.uri);
      return analysis === null ? fallback : feature(analysis, params);
    });
}

/** The same for requests that are about no single document. */
export function guarded<Params, Answer>(
  log: Log,
  name: string,
  fallback: Answer,
  answer: (params: Params) => Answer | Promise<Answer>,
): (params: Params, token: CancellationToken) => Promise<Answer> {
  return async (params, token) => {
    if (token.isCancellationRequested)
      throw new ResponseError(LSPErrorCodes.RequestCancelled, `${name}: cancelled`);
    try {
      return await answer(params);
    } catch (error) {
      if (error instanceof ResponseError) throw error;
      log(`${name} failed: ${error instanceof Error ? (error.stack ?? error.message) : error}`);
      return fallback;
    }
  };
}
