// A long job in a thread of its own, as an editor sees it: told while it lasts, and ended where a person has enough of it.

import type { CancellationToken } from 'vscode-languageserver';
import type { Worker } from '../threads/worker.ts';
import type { Told } from './progress.ts';

/** @returns null where it was stopped */
export function doneInThread<Message, Reply>(
  worker: Pick<Worker<Message, Reply>, 'work' | 'end'>,
  job: Message,
  { token }: Told,
  asked: CancellationToken,
): Promise<Reply | null> {
  return new Promise((resolve) => {
    const stops = [asked, token].flatMap((one) =>
      one === null ? [] : [one.onCancellationRequested(() => finish(null))],
    );
    let isOver = false;
    function finish(reply: Reply | null): void {
      if (isOver) return;
      isOver = true;
      for (const stop of stops) stop.dispose();
      worker.end();
      resolve(reply);
    }
    if (asked.isCancellationRequested || token?.isCancellationRequested) finish(null);
    else worker.work(job, finish);
  });
}
