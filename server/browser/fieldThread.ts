// A web worker below the server's own that works out the low end, so that the server stays free for typing.
//
// It runs the script that this worker runs, started a second time under a name of its own: a worker cannot always tell where its
// script came from, but it can always start itself again.

import type { FieldReply } from '../field/fieldJob.ts';
import {
  createFieldAnswers,
  type StartFieldThread,
  type ToFieldThread,
} from '../field/fieldWorkers.ts';

const NAME = 'groundbass field';
const scope = globalThis as unknown as DedicatedWorkerGlobalScope;

/** True in the nested worker: then its script does nothing but `serveField`. */
export function isFieldThread(): boolean {
  return scope.name === NAME;
}

export const startFieldThread: StartFieldThread = (answer, failed) => {
  const worker = new Worker(scope.location.href, { name: NAME });
  worker.onmessage = ({ data }: MessageEvent<FieldReply>) => answer(data);
  worker.onerror = ({ message }) => failed(message);
  return {
    post: (message) => worker.postMessage(message),
    end: () => worker.terminate(),
  };
};

/** The nested worker's own side: answers every job, in order, until it is ended. */
export function serveField(): void {
  const answerTo = createFieldAnswers();
  scope.onmessage = async ({ data }: MessageEvent<ToFieldThread>) => {
    const reply = await answerTo(data);
    if (reply !== null) scope.postMessage(reply);
  };
}
