// The real-editor tests of one mode (server, web or web-min): the demo facility in a real VS Code, driven as a person would.
//
//   tsx test/editor/run.ts server [room]

import assert from 'node:assert/strict';
import { readdirSync } from 'node:fs';
import { checkHints } from './hints.ts';
import { checkLooks } from './looks.ts';
import { checkMistakes } from './mistakes.ts';
import { checkDialIn, checkEdit, checkPolicy, checkReveal, checkSheet } from './sheet.ts';
import { ROOT } from './support/paths.ts';
import { type Mode, startSession } from './support/session.ts';
import { Steps } from './support/steps.ts';
import { checkTakes } from './takes.ts';
import { checkTrials } from './trials.ts';
import { checkWalkthrough } from './walkthrough.ts';

const MODES: readonly Mode[] = ['server', 'web', 'web-min'];
const mode = MODES.find((one) => one === process.argv[2]) ?? 'server';

const rooms = readdirSync(`${ROOT}examples/rooms`)
  .filter((name) => name.endsWith('.room.yaml'))
  .map((name) => name.replace('.room.yaml', ''));
/**
 * The desktop shows every room. In a browser's worker the same server works out the same figures: a room of each kind shows that they come,
 * a box, the largest, and one of finite elements. The oldest version shows that it works at all.
 */
const SHOWN: Readonly<Record<Mode, readonly string[]>> = {
  server: rooms,
  web: ['heron', 'osprey', 'wren'],
  'web-min': ['heron'],
};
const only = process.argv[3];
const shownRooms = only === undefined ? SHOWN[mode] : [only];

const steps = new Steps();
const session = await startSession(mode);
try {
  for (const room of shownRooms) {
    if (!(await checkHints(session, steps, room))) continue;
    await checkSheet(session, steps, room);
    await session.shot(room);
    if (room !== 'heron') continue;
    await checkEdit(session, steps);
    await checkReveal(session, steps);
    await checkDialIn(session, steps);
    await checkTrials(session, steps);
    await checkTakes(session, steps);
    await checkPolicy(session, steps);
  }
  if (mode !== 'web-min') await checkMistakes(session, steps);
  if (mode === 'server') {
    await checkLooks(session, steps);
    await checkWalkthrough(session, steps);
  }
  await session.shot('last');
  await steps.step('nothing was asked for outside this machine', async () => {
    // What the sheet was made to ask for was stopped before it became a request.
    assert.deepEqual(session.outside, []);
  });
  if (steps.failed > 0) console.log(session.logs(), session.complaints.slice(-20));
} finally {
  await session.close();
}
console.log(steps.summary());
process.exitCode = steps.failed === 0 ? 0 : 1;
