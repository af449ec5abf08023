// Tells a person that the low end takes long, and lets them stop it, where the editor can show that.

import type { Connection, WorkDoneProgressReporter } from 'vscode-languageserver';
import { baseName } from '../files/uri.ts';

/** @returns ends the telling */
export function tellLongField(
  connection: Pick<Connection, 'window'>,
  uri: string,
  stop: () => void,
): () => void {
  let isOver = false;
  const progress = connection.window.createWorkDoneProgress();
  progress
    .then((told) => {
      if (isOver) return;
      told.begin(`Working out the low end of ${baseName(uri)}`, undefined, undefined, true);
      told.token.onCancellationRequested(stop);
    })
    .catch(() => null); // A client that shows none, or has gone.
  return () => {
    isOver = true;
    progress.then((told: WorkDoneProgressReporter) => told.done()).catch(() => null);
  };
}
