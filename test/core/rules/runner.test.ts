// A runner that keeps findings gives what one without memory gives, whatever changes in the room from one time to the next.

import fc from 'fast-check';
import { expect, test } from 'vitest';
import { RULES } from '../../../core/rules/index.ts';
import { createRuleRunner, runRules } from '../../../core/rules/run.ts';
import type { Setup } from '../../../core/setup.ts';
import { showFor } from '../../../core/show.ts';
import { createWorkOut } from '../../../core/workOut.ts';
import type { Severity } from '../../../schema/model/problem.ts';
import type { Room } from '../../../schema/model/room.ts';
import { demoRooms } from '../../support/demoRooms.ts';
import { expectSame } from '../../support/expectSame.ts';

const TODAY = '2026-11-25';
const OPTIONS = { today: TODAY, defaultTemperature_k: 293.15 };
const ROOMS = demoRooms();

/** One value somewhere in the room becomes another one. */
interface Change {
  readonly field: number;
  readonly leaf: number;
  readonly factor: number;
}

const changes = fc.array(
  fc.record({
    field: fc.nat(),
    leaf: fc.nat(),
    factor: fc.constantFrom(-1, 0, 0.3, 0.99, 1.01, 3),
  }),
  { minLength: 8, maxLength: 16 },
);

test.each(ROOMS)('$name, value by value', ({ setup: { room } }) => {
  fc.assert(
    fc.property(changes, (all) => {
      const workOut = createWorkOut();
      let now = room;
      for (const change of [...all, ...all.slice(0, 3)]) {
        now = changed(now, change);
        const { findings, ...kept } = workOut(now, OPTIONS);
        const { findings: fresh, ...whole } = createWorkOut()(now, OPTIONS);
        expectSame(findings, fresh, plain);
        expectSame<object>(kept, whole, plain);
      }
    }),
    { numRuns: 4, endOnFailure: true },
  );
});

test.each(ROOMS)('$name, the accepted findings and the policy one by one', ({ setup }) => {
  const run = createRuleRunner();
  const show = showFor(setup.room.habits); // one for all: another one would make every rule run again
  const check = (now: Setup) => {
    const findings = run(now, show, { today: TODAY });
    expectSame(findings, runRules(now, show, { today: TODAY }));
    return findings;
  };
  const first = check(setup);
  for (const { code, path } of first) {
    const acceptance = { finding: code, about: path.join('.'), because: 'x', until: null };
    const accepted = [{ id: 'a', ...acceptance }];
    const policyWith = (severity: Severity | 'off') => ({
      ...setup.room.policy,
      severity: { [code]: severity },
    });
    check(withRoom(setup, { accepted }));
    check(withRoom(setup, { accepted, policy: policyWith('error') }));
    check(withRoom(setup, { accepted, policy: policyWith('hint') }));
    check(withRoom(setup, { accepted, policy: policyWith('off') })); // now it covers nothing any more
  }
  expect(check(setup)).toEqual(first);
});

test('what did not change is not run again', () => {
  let count = 0;
  const counted = RULES.map((rule) => ({
    ...rule,
    find: (...inputs: Parameters<typeof rule.find>) => {
      count += 1;
      return rule.find(...inputs);
    },
  }));
  const run = createRuleRunner(counted);
  const [one] = ROOMS;
  if (one === undefined) throw new RangeError('no demo rooms');
  const show = showFor(one.setup.room.habits);
  const runs = (setup: Setup): number => {
    count = 0;
    run(setup, show, { today: TODAY });
    return count;
  };
  expect(runs(one.setup)).toBe(RULES.length);
  expect(runs({ ...one.setup })).toBeLessThan(RULES.length / 10); // only those that look at other findings
  const away = { ...one.setup, cautions: [], notes: [] };
  expect(runs(away)).toBeLessThan(RULES.length / 10);
  const moved = withRoom(one.setup, { seats: [] });
  expect(runs(moved)).toBeGreaterThan(RULES.length / 10);
});

/** As it crosses to the preview: JSON knows no -0. */
function plain(value: unknown): unknown {
  return JSON.parse(JSON.stringify(value));
}

function withRoom(setup: Setup, room: Partial<Room>): Setup {
  return { ...setup, room: { ...setup.room, ...room } };
}

function changed(room: Room, { field, leaf, factor }: Change): Room {
  const entries = Object.entries(room).filter(([, value]) => 0 < leaves(value).length);
  const entry = entries[field % entries.length];
  if (entry === undefined) return room;
  const [name, value] = entry;
  const paths = leaves(value);
  return { ...room, [name]: replaced(value, paths[leaf % paths.length] ?? [], factor) };
}

type Step = string | number;

/** Paths of all plain values; gear is a file of its own and stays. */
function leaves(value: unknown): readonly (readonly Step[])[] {
  if (typeof value !== 'object' || value === null) return value === null ? [] : [[]];
  const steps = Array.isArray(value) ? [...value.keys()] : Object.keys(value);
  return steps
    .filter((step) => step !== 'gear')
    .flatMap((step) =>
      leaves((value as Record<Step, unknown>)[step]).map((path) => [step, ...path]),
    );
}

function replaced(value: unknown, [step, ...rest]: readonly Step[], factor: number): unknown {
  if (step === undefined) return other(value, factor);
  if (Array.isArray(value))
    return value.map((item, index) => (index === step ? replaced(item, rest, factor) : item));
  const record = value as Record<Step, unknown>;
  return { ...record, [step]: replaced(record[step], rest, factor) };
}

function other(value: unknown, factor: number): unknown {
  if (typeof value === 'number') return Number.isInteger(value) ? value : value * factor;
  if (typeof value === 'boolean') return !value;
  return value;
}
