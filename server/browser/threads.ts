// Web workers below the server's own for what takes long, so that the server stays free for typing.
//
// Each runs the script that this worker runs, started once more under a name of its own: a worker cannot always tell where its script
// came from, but it can always start itself again.

import { answersUnder } from '../threads/kinds.ts';
import type { StartThread } from '../threads/worker.ts';

const scope = globalThis as unknown as DedicatedWorkerGlobalScope;

export function startThread<Message, Reply>(name: string): StartThread<Message, Reply> {
  return (answer, failed) => {
    const worker = new Worker(scope.location.href, { name });
    worker.onmessage = ({ data }: MessageEvent<Reply>) => answer(data);
    worker.onerror = ({ message }) => failed(message);
    return {
      post: (message) => worker.postMessage(message),
      end: () => worker.terminate(),
    };
  };
}

/** In such a worker: answers every message, in order, until it is ended. @returns whether this is one */
export function serveAsThread(): boolean {
  const answers = answersUnder(scope.name);
  if (answers === null) return false;
  scope.onmessage = async ({ data }: MessageEvent<unknown>) => {
    const reply = await answers(data);
    if (reply !== null) scope.postMessage(reply);
  };
  return true;
}
