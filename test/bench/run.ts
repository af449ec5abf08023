// `npm run bench`: every benchmark with its bound. Says what it ran on; a busy machine shows in the load beside it.

import { cpus, loadavg } from 'node:os';
import { equaliserBenches } from './equaliser.ts';
import { benches, benchNotes } from './field.ts';
import { keystrokeTimes } from './keystroke.ts';
import { LINE_COUNT } from './longRoom.ts';
import { placementBenches } from './placement.ts';
import { sizeLines } from './sizes.ts';
import { HEADING, line } from './statistics.ts';
import { type StdioTimes, stdioTimes } from './stdio.ts';

const KEY_COUNT = 200;
const START_COUNT = 7;

/** What a person at the keyboard does not notice (goal of the project). */
const KEY_BOUND = 'median < 5 ms, p95 < 15 ms';
const keepsKeyBound = ({ median_ms, p95_ms }: { median_ms: number; p95_ms: number }): boolean =>
  median_ms < 5 && p95_ms < 15;

const [processor] = cpus();
console.log(
  `Node ${process.version}, ${cpus().length} × ${processor?.model ?? 'unknown'}, load ${loadavg()[0]?.toFixed(1)}\n`,
);
console.log(HEADING);

const inProcess = await keystrokeTimes(KEY_COUNT);
console.log(`A room of ${LINE_COUNT} lines, in process`);
console.log(
  line(
    '  a key in the geometry → diagnostics + hints',
    inProcess.geometry_ms,
    KEY_BOUND,
    keepsKeyBound,
  ),
);
console.log(
  line('  a key in a comment → diagnostics + hints', inProcess.text_ms, KEY_BOUND, keepsKeyBound),
);
console.log(line('  hover', inProcess.hover_ms, 'p95 < 20 ms', ({ p95_ms }) => p95_ms < 20));
console.log(
  line('  completion', inProcess.completion_ms, 'p95 < 30 ms', ({ p95_ms }) => p95_ms < 30),
);

const runs: StdioTimes[] = [];
for (let index = 0; index < START_COUNT; index += 1) {
  const times = await stdioTimes(index === 0 ? KEY_COUNT : 1);
  if (times) runs.push(times);
}
const [first] = runs;
if (first) {
  console.log('The same over standard input and output (dist/server/node.cjs)');
  console.log(
    line(
      '  a key in the geometry → diagnostics + hints',
      first.keystroke_ms,
      KEY_BOUND,
      keepsKeyBound,
    ),
  );
  console.log(
    line(
      '  start → initialize answered',
      runs.map(({ initialize_ms }) => initialize_ms),
      'median < 250 ms',
      ({ median_ms }) => median_ms < 250,
    ),
  );
  console.log(
    line(
      '  start → first diagnostics',
      runs.map(({ firstDiagnostics_ms }) => firstDiagnostics_ms),
      'median < 400 ms',
      ({ median_ms }) => median_ms < 400,
    ),
  );
} else
  console.log('dist/server/node.cjs is not built: nothing measured over standard input and output');

console.log("The room's low end");
for (const { name, times_ms, bound, isKept } of benches())
  console.log(line(name, times_ms, bound, isKept));
for (const note of benchNotes()) console.log(note);

console.log('Searches');
for (const { name, times_ms, bound, isKept, note } of [
  ...placementBenches(),
  ...equaliserBenches(),
]) {
  console.log(line(name, times_ms, bound, isKept));
  if (note !== undefined) console.log(note);
}

console.log('\nBundles (extension + server for one host: 1500 kB is the start)');
for (const size of sizeLines()) console.log(size);
