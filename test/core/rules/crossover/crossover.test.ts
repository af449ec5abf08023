// Rules of the crossover and of polarity: limits on both sides, and quiet where the sum has nothing against it.

import { describe, expect, test } from 'vitest';
import { told } from '../../../support/findingsOf.ts';
import { choice, crossover, ms, subRoomWith } from '../../../support/wiredRooms.ts';
import { findingsWith, worked } from '../../../support/worked.ts';

const ALIGNED = { 'out_left:delay': ms(2.55), 'out_right:delay': ms(2.55) };

test('crossover/dip: mains aligned, polarity the wrong way: a hole, told with its figure', () => {
  const wrong = worked(subRoomWith({ ...ALIGNED, crossover: crossover(65) }));
  const [finding] = findingsWith(wrong, 'crossover/dip');
  expect(finding?.message).toMatch(
    /^Predicted dip of \d+\.\d dB at [67]\d.* Hz, beside the crossover at 65 Hz$/,
  );
  const right = worked(
    subRoomWith({ ...ALIGNED, crossover: crossover(65), polarity: choice('inverted') }),
  );
  expect(findingsWith(right, 'crossover/dip')).toEqual([]);
});

test('crossover/phase: warning above 60°, information above 30°, aligned by phase nothing', () => {
  const severities = (delay_ms: number) =>
    findingsWith(
      worked(
        subRoomWith({
          ...ALIGNED,
          crossover: crossover(85),
          polarity: choice('inverted'),
          'driver:delay': ms(delay_ms),
        }),
      ),
      'crossover/phase',
    ).map(({ severity }) => severity);
  // 0.6 ms align it by phase; each further ms is 30.6° at 85 Hz (360 × 85 × 1 ms), by hand.
  expect(severities(0.6)).toEqual([]);
  expect(severities(2)).toEqual(['information']);
  expect(severities(3.5)).toEqual(['warning']);
});

test('its fix aligns by phase, and what it sets has no finding any more', () => {
  const setup = worked(
    subRoomWith({ ...ALIGNED, crossover: crossover(85), 'driver:delay': ms(3.5) }),
  );
  const edits = findingsWith(setup, 'crossover/phase')[0]?.fixes[0]?.edits ?? [];
  expect(edits.map(({ path }) => path.join('.'))).toEqual([
    'settings.sub.ports.driver.delay',
    'settings.sub.polarity',
  ]);
});

describe('crossover/located', () => {
  test('beyond 120 Hz it is a warning, beyond 80 Hz a word', () => {
    const severity = (frequency_hz: number) =>
      findingsWith(
        worked(subRoomWith({ ...ALIGNED, crossover: crossover(frequency_hz) })),
        'crossover/located',
      ).map((finding) => finding.severity);
    expect(severity(80)).toEqual([]);
    expect(severity(110)).toEqual(['information']);
    expect(severity(125)).toEqual(['warning']);
  });
});

test('crossover/too-low: below 1.5 times the -6 dB point, where the sum has better to offer', () => {
  const low = worked(
    subRoomWith({ ...ALIGNED, crossover: crossover(50), polarity: choice('inverted') }),
  );
  expect(told(findingsWith(low, 'crossover/too-low'))[0]).toMatch(
    /^settings\.sub\.crossover: 50 Hz is 0\.77 times the mains' -6 dB point \(65 Hz\)/,
  );
  const enough = worked(
    subRoomWith({ ...ALIGNED, crossover: crossover(100), polarity: choice('inverted') }),
  );
  expect(findingsWith(enough, 'crossover/too-low')).toEqual([]);
});

test('crossover/start-differs: both answers are told while the choice is open', () => {
  const open = worked(subRoomWith({ ...ALIGNED, crossover: crossover(65) }));
  expect(told(findingsWith(open, 'crossover/start-differs'))[0]).toMatch(
    /: Practice begins at 65 Hz, 24 dB\/oct; by the sum .* is \d\.\d dB more even/,
  );
  const chosen = worked(subRoomWith({ ...ALIGNED, crossover: crossover(85) }));
  expect(findingsWith(chosen, 'crossover/start-differs')).toEqual([]);
});

test('polarity/other: 3 dB and more', () => {
  const wrong = worked(subRoomWith({ ...ALIGNED }));
  const [finding] = findingsWith(wrong, 'polarity/other');
  expect(finding?.path).toEqual(['settings', 'sub', 'polarity']);
  expect(finding?.fixes[0]?.edits).toEqual([
    { do: 'set', path: ['settings', 'sub', 'polarity'], value: 'inverted' },
  ]);
  expect(
    findingsWith(worked(subRoomWith({ ...ALIGNED, polarity: choice('inverted') })), 'polarity/'),
  ).toEqual([]);
});
