// From a key to diagnostics and hints, in this process: parse, resolve, work out, and both features, nothing left out.

import { completion } from '../../server/features/completion/completion.ts';
import { diagnostics } from '../../server/features/diagnostics.ts';
import { hover } from '../../server/features/hover.ts';
import { inlayHints } from '../../server/features/inlayHints/inlayHints.ts';
import { fileUri, nodeFiles } from '../../server/node/nodeFiles.ts';
import { DEFAULT_SETTINGS } from '../../server/protocol/settings.ts';
import { createSession } from '../../server/session.ts';
import { afterKey, LONG_ROOM_FILE, longRoom } from './longRoom.ts';

const WHOLE = { start: { line: 0, character: 0 }, end: { line: 10_000, character: 0 } };

export interface KeystrokeTimes {
  readonly geometry_ms: readonly number[];
  /** Of the same keys: how long the processor was busy. */
  readonly geometryCpu_ms: readonly number[];
  readonly text_ms: readonly number[];
  readonly hover_ms: readonly number[];
  readonly completion_ms: readonly number[];
}

interface Pressed {
  readonly time_ms: number;
  readonly cpu_ms: number;
}

/** @param count keys pressed of each sort, after as many again to warm up */
export async function keystrokeTimes(count: number): Promise<KeystrokeTimes> {
  const uri = fileUri(LONG_ROOM_FILE.pathname);
  const session = createSession(nodeFiles, () => '2026-11-25');
  const text = longRoom();
  let version = 0;

  async function pressed(next: string): Promise<Pressed> {
    version += 1;
    const before = process.cpuUsage();
    const start_ms = performance.now();
    session.open(uri, version, next, 'groundbass-room');
    const analysis = await session.analysis(uri);
    if (analysis?.setup == null) throw new RangeError('the room was not worked out');
    diagnostics(analysis, null);
    inlayHints(analysis, WHOLE, DEFAULT_SETTINGS.hints);
    const time_ms = performance.now() - start_ms;
    const { user, system } = process.cpuUsage(before);
    return { time_ms, cpu_ms: (user + system) / 1000 };
  }

  async function series(change: (index: number) => string): Promise<readonly Pressed[]> {
    const keys: Pressed[] = [];
    for (let index = 0; index < 2 * count; index += 1) keys.push(await pressed(change(index)));
    return keys.slice(count);
  }

  const geometry = await series((index) => afterKey(text, index));
  const comment = await series((index) => `${text}# ${'x'.repeat(index % 40)}\n`);
  const analysis = await session.analysis(uri);
  if (analysis === null) throw new RangeError('the room was not read');
  const timed = (act: (offset: number) => unknown): readonly number[] =>
    Array.from({ length: count }, (_, index) => {
      const offset = Math.floor((index / count) * text.length);
      const start_ms = performance.now();
      act(offset);
      return performance.now() - start_ms;
    });
  return {
    geometry_ms: geometry.map(({ time_ms }) => time_ms),
    geometryCpu_ms: geometry.map(({ cpu_ms }) => cpu_ms),
    text_ms: comment.map(({ time_ms }) => time_ms),
    hover_ms: timed((offset) => hover(analysis, offset, null)),
    completion_ms: timed((offset) =>
      completion(analysis, offset, { takesSnippets: true, suggest: null }),
    ),
  };
}
