// Noise of the electronics on the sheet and in figures: beside each point of the gain table, its sum beside the background, and trims.

import { expect, test } from 'vitest';
import type { Setup } from '../../core/setup.ts';
import { levelFigures } from '../../server/figures/levelFigures.ts';
import { renderSheet } from '../../server/sheet/renderSheet.tsx';
import { demoRooms } from '../support/demoRooms.ts';
import { LOUD, loudRoom } from '../support/loudRoom.ts';
import { worked } from '../support/worked.ts';

const DEMO = demoRooms();

function demo(name: string): Setup {
  const found = DEMO.find((room) => room.name === name);
  if (found === undefined) throw new Error(`no room ${name}`);
  return found.setup;
}

/** The gain table and what stands below it, as a reader sees it. */
function gainText(setup: Setup): string {
  const html = renderSheet(setup, []);
  const after = html.slice(html.indexOf('Gain from the source to each driver'));
  return (after.split('</details>')[0] ?? '').replace(/<[^>]*>/g, ' ').replace(/\s+/g, ' ');
}

// heron: heath_6 has 7 dBA at 1 m, 2.101 m away: 7 − 6.45 = 0.55 dBA. sub.out_left: 110 − 3.01 − 6 − 6.45 = 94.54 dB for +18 dBu,
// −86 dBu are 104 dB below: −9.46 dBA.
test('what each point of heron’s ways comes to', () => {
  const text = gainText(demo('heron'));
  expect(text).toContain('noise at the seat');
  expect(text).toMatch(/driver of left .{0,40}0\.6.dBA/);
  expect(text).toMatch(/sub\.out_left .{0,60}−9\.5.dBA/);
  expect(text).toContain('All noise at the seat');
  expect(demo('heron').findings.filter(({ code }) => code === 'levels/noise')).toEqual([]);
});

test('dunlin’s amplifier could be turned down, its controller up', () => {
  expect(gainText(demo('dunlin'))).toMatch(
    /far_left, far: level of amp 13\.0.dB lower and the monitor control as much higher \(with all of the set alike\) leaves level and clip points, and takes \d/,
  );
  expect(gainText(demo('dunlin'))).toMatch(/at least, as the noise of .*amp.* is not recorded/);
});

test('nothing recorded: no column, no sum', () => {
  const text = gainText(worked(loudRoom(79)));
  expect(text).toContain('takes at most');
  expect(text).not.toContain('noise at the seat');
});

test('the same in figures', () => {
  const own = worked(loudRoom(79, {}, { ...LOUD, selfNoise_dba: 9.0206 }));
  expect(levelFigures(own)).toMatchObject({
    noise: {
      background: { level_dba: 20, from: 'asked' },
      sets: [
        { set: null, sources: [{ at: 'left', kind: 'driver', through: 'left' }, { at: 'right' }] },
      ],
    },
    noise_trims: [],
  });
});
