// Tells a person what takes long, and lets them stop it, where the editor can show that.

import type { Connection, WorkDoneProgressReporter } from 'vscode-languageserver';

/** @returns ends the telling */
export function tellLong(
  connection: Pick<Connection, 'window'>,
  title: string,
  stop: () => void,
): () => void {
  let isOver = false;
  const progress = connection.window.createWorkDoneProgress();
  progress
    .then((told) => {
      if (isOver) return;
      told.begin(title, undefined, undefined, true);
      told.token.onCancellationRequested(stop);
    })
    .catch(() => null); // A client that shows none, or has gone.
  return () => {
    isOver = true;
    progress.then((told: WorkDoneProgressReporter) => told.done()).catch(() => null);
  };
}
