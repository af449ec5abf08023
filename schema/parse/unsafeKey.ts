// Keys that programs trip over: whole numbers are put into another order, and some words reach into the program itself.

const PROTOTYPE_WORDS: ReadonlySet<string> = new Set(['__proto__', 'constructor', 'prototype']);

/** What is wrong with the key, in words; null where nothing is. */
export function unsafeKey(key: string): string | null {
  if (/^(?:0|[1-9]\d*)$/.test(key)) {
    return `\`${key}\` cannot be a key: a name starts with a letter, and a quantity has a unit`;
  }
  if (!PROTOTYPE_WORDS.has(key)) return null;
  return `\`${key}\` cannot be a key: it is a word that programs use inside`;
}
