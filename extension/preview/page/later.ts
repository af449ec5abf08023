// What takes too long to be drawn at once: worked out when the page rests, kept until what it depends on is another.

import { useEffect, useState } from 'preact/hooks';

/** Longer than a hand rests while it drags or types. */
const REST_MS = 400;

/** @returns the last answer, which may be an older one; null before the first */
export function useLater<Answer>(make: () => Answer, dependsOn: readonly unknown[]): Answer | null {
  const [answer, setAnswer] = useState<{ readonly value: Answer } | null>(null);
  useEffect(() => {
    const timer = setTimeout(() => setAnswer({ value: make() }), REST_MS);
    return () => clearTimeout(timer);
    // What is made depends on what is named, and on nothing else.
  }, [...dependsOn]);
  return answer?.value ?? null;
}
