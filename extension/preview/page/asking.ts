// Questions about the low end to the server, through the host: for rooms whose modes are too dear to be found in the page.

import { type Context, createContext } from 'preact';
import { useMemo } from 'preact/hooks';
import type { LowEndAnswer, LowEndParams } from '../../../server/protocol/lowEnd.ts';
import type { Host } from './host.ts';

export type Question = Pick<LowEndParams, 'version' | 'ask'>;

/** null where there is no answer to it any more. */
export type Asking = (question: Question) => Promise<LowEndAnswer | null>;

/** One question at a time: while one is open, only the newest of those that follow is kept. */
export interface NewestOnly {
  /** What was answered last is not asked again. */
  readonly want: (question: Question) => void;
}

/** For the page's parts; answers nothing outside a pane. */
export const AskingContext: Context<AskingOf> = createContext<AskingOf>({
  ask: () => Promise.resolve(null),
  version: 0,
});

interface AskingOf {
  readonly ask: Asking;
  readonly version: number;
}

export function useAsking(host: Host): Asking {
  return useMemo(() => createAsking(host), [host]);
}

function createAsking(host: Host): Asking {
  let number = 0;
  const open = new Map<number, (answer: LowEndAnswer | null) => void>();
  host.listen((message) => {
    if (message.kind !== 'answered') return;
    open.get(message.number)?.(message.answer);
    open.delete(message.number);
  });
  return (question) =>
    new Promise((done) => {
      number += 1;
      open.set(number, done);
      host.say({ kind: 'ask', number, ...question });
    });
}

/** @param told hears every answer, with its question */
export function newestOnly(
  ask: Asking,
  told: (answer: LowEndAnswer, question: Question) => void,
): NewestOnly {
  let isOpen = false;
  let next: Question | null = null;
  let last = '';
  const go = async (question: Question): Promise<void> => {
    isOpen = true;
    const answer = await ask(question);
    isOpen = false;
    if (answer !== null) told(answer, question);
    else if (next === null) last = ''; // It may be asked again.
    const following = next;
    next = null;
    if (following !== null) void go(following);
  };
  return {
    want(question) {
      const key = JSON.stringify(question);
      if (key === last) return;
      last = key;
      if (isOpen) next = question;
      else void go(question);
    },
  };
}
