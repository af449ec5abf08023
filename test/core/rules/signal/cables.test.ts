// Rules of cables: each where it fires, and next to it where it does not. References: the geometry itself; limits with their sources.

import { describe, expect, test } from 'vitest';
import type { Cable, CableEnd } from '../../../../schema/model/room.ts';
import { told } from '../../../support/findingsOf.ts';
import { subRoom } from '../../../support/wiredRooms.ts';
import { findingsWith, worked } from '../../../support/worked.ts';

function end(text: string): CableEnd {
  const [device = '', port = null] = text.split('.');
  return { device, port };
}

function cable(from: string, to: string, more: Partial<Cable> = {}): Cable {
  return {
    id: 'run',
    from: end(from),
    to: end(to),
    length_m: null,
    kind: null,
    label: null,
    ...more,
  };
}

function found(code: string, ...cables: readonly Cable[]): readonly string[] {
  return told(findingsWith(worked(subRoom({ cables })), code));
}

describe('signal/cable-short', () => {
  const { speakers, subwoofers } = subRoom();
  const [left, sub] = [speakers[0]?.at, subwoofers[0]?.at];
  const apart_m = Math.hypot(
    (left?.x_m ?? 0) - (sub?.x_m ?? 0),
    (left?.y_m ?? 0) - (sub?.y_m ?? 0),
    (left?.z_m ?? 0) - (sub?.z_m ?? 0),
  );

  test('shorter than the straight line', () => {
    const short = cable('sub.out_left', 'left.in', { length_m: apart_m - 0.05, label: 'W-03' });
    const [said] = found('signal/cable-short', short);
    expect(said).toMatch(
      /^cables\.run\.length: run \(W-03\) is .* long; sub and left are .* apart/,
    );
  });

  test('as long, of unknown length, or to a thing without a place', () => {
    expect(
      found(
        'signal/cable-short',
        cable('sub.out_left', 'left.in', { length_m: apart_m + 0.001 }),
        cable('sub', 'left'),
        cable('desk', 'sub', { length_m: 0.1 }),
      ),
    ).toEqual([]);
  });
});

// Network: 100 m, the channel of copper pairs in ISO/IEC 11801. Digital: 100 m, balanced AES3 without equalisation. Both from memory.
// Unbalanced: 10 m, common practice, no source.
test.each([
  ['network', 100, 101],
  ['digital', 100, 101],
  ['unbalanced', 10, 10.5],
] as const)('signal/cable-long: %s', (kind, bears_m, not_m) => {
  expect(found('signal/cable-long', cable('desk', 'sub', { kind, length_m: bears_m }))).toEqual([]);
  expect(found('signal/cable-long', cable('desk', 'sub', { kind, length_m: not_m }))).toHaveLength(
    1,
  );
});

test('signal/cable-long: other kinds have no limit', () => {
  expect(
    found('signal/cable-long', cable('desk', 'sub', { kind: 'balanced', length_m: 300 })),
  ).toEqual([]);
  expect(found('signal/cable-long', cable('desk', 'sub', { length_m: 300 }))).toEqual([]);
});

describe('signal/cable-unwired', () => {
  test('between things, or ports, that no connection joins', () => {
    expect(found('signal/cable-unwired', cable('desk', 'left'))).toEqual([
      'cables.run: run runs from desk to left, and no line of `wiring` does',
    ]);
    expect(found('signal/cable-unwired', cable('sub.out_left', 'right.in'))).toHaveLength(1);
    expect(found('signal/cable-unwired', cable('left', 'sub'))).toHaveLength(1);
  });

  test('wired, by name or by port; a mains lead carries no signal', () => {
    expect(
      found(
        'signal/cable-unwired',
        cable('desk', 'sub'),
        cable('sub.out_left', 'left.in'),
        cable('desk', 'left', { kind: 'mains' }),
      ),
    ).toEqual([]);
  });
});
