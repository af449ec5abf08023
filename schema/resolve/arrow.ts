// Arrows: `a -> b -> c` taken apart into words with their exact ranges, for wiring and for paths of gear.

import { readArrow } from '../arrow.ts';
import type { LocatedScalar, Range } from '../model/located.ts';

export interface Word {
  readonly text: string;
  readonly range: Range;
}

/**
 * @param text the whole file
 * @returns the words between the arrows; none where the scalar is no arrow, which the parse has told
 */
export function wordsOfArrow(
  scalar: LocatedScalar,
  text: string,
  kind: 'wire' | 'path',
): readonly Word[] {
  const ends = readArrow(scalar.text, kind) ?? [];
  return ends.map((end) => wordIn(scalar, text, end.range.start, end.text));
}

/** `sub.in_left` as its device and its port; null where there is no dot with something on both sides. */
export function deviceAndPort(word: Word): { readonly device: Word; readonly port: Word } | null {
  const dot = word.text.indexOf('.');
  if (dot <= 0 || dot === word.text.length - 1) return null;
  return { device: part(word, 0, dot), port: part(word, dot + 1, word.text.length) };
}

/** `net.12` as the port `net` and its channel `12`; other ports have no channel. */
export function portAndChannel(port: Word): {
  readonly port: Word;
  readonly channel: string | null;
} {
  const dot = port.text.indexOf('.');
  if (dot < 0) return { port, channel: null };
  return { port: part(port, 0, dot), channel: port.text.slice(dot + 1) };
}

/** A word inside a scalar; the whole scalar's range where quotes' escapes or folding moved its letters. */
export function wordIn(scalar: LocatedScalar, text: string, at: number, word: string): Word {
  const quote = scalar.style === 'plain' ? 0 : 1;
  const start = scalar.range.start + quote;
  const inPlace =
    scalar.style !== 'block' && text.startsWith(scalar.text, start)
      ? { start: start + at, end: start + at + word.length }
      : scalar.range;
  return { text: word, range: inPlace };
}

function part(word: Word, from: number, to: number): Word {
  const exact = word.range.end - word.range.start === word.text.length;
  const range = exact ? { start: word.range.start + from, end: word.range.start + to } : word.range;
  return { text: word.text.slice(from, to), range };
}
