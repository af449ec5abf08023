// Real editor: each demo room opens, and beside every loudspeaker stands the distance, time and angle that school geometry gives.

import assert from 'node:assert/strict';
import type { Session } from './support/session.ts';
import type { Steps } from './support/steps.ts';
import { metres, type Place, TIME_TOLERANCE, truthOf } from './support/truth.ts';

/** Half of the last digit shown: metres and millimetres to 5 mm, eighths of an inch to 1/16 in. */
const LENGTH_TOLERANCE_M = 0.005;
/** 0.05°, half of the last digit. */
const ANGLE_TOLERANCE_DEG = 0.05 + 1e-9;
/** Half of the last digit of a time in ms. */
const DIGIT_MS = 0.005;

/** @returns whether it opened: without that there is nothing more to try */
export async function checkHints(session: Session, steps: Steps, room: string): Promise<boolean> {
  const { editor } = session;
  if (!(await steps.step(`${room}: opens`, () => session.openRoom(room)))) return false;
  const truth = truthOf(session.textOf(room));
  const hasHints = await steps.step(
    `${room}: distance, time of flight and angle beside every source`,
    async () => {
      for (const place of truth.places) await checkPlace(session, place);
      return `${truth.places.length} sources`;
    },
  );
  const { volume_m3 } = truth;
  if (volume_m3 === null || !hasHints) return hasHints;
  await steps.step(`${room}: volume beside its size`, async () => {
    const line =
      session
        .textOf(room)
        .split('\n')
        .findIndex((text) => text.startsWith('  size:')) + 1;
    await editor.goTo(line);
    const hints = await editor.waitForHints('  size:', /\d m³|\d ft³/);
    const [, shown = '', unit] = /([\d.]+) (m³|ft³)/.exec(hints) ?? [];
    // 1 ft = 0.3048 m exactly.
    const want = unit === 'ft³' ? volume_m3 / 0.3048 ** 3 : volume_m3;
    const digit = unit === 'ft³' ? 0.5 : 0.05;
    assert.ok(Math.abs(Number(shown) - want) <= digit + 1e-9, `${hints}: ${want} wanted`);
    return hints;
  });
  return true;
}

async function checkPlace({ editor }: Session, place: Place): Promise<void> {
  await editor.goTo(place.line);
  const hints = await editor.waitForHints(`  ${place.id}:`, / (m|mm|in)\b/);
  const length = /([\d./]+(?: [\d./]+)* (?:mm|m|ft[^·]*?in|in))(?![a-z])/.exec(hints)?.[1] ?? '';
  assert.ok(
    Math.abs(metres(length) - place.distance_m) <= LENGTH_TOLERANCE_M,
    `${place.id}: ${hints}, but ${place.distance_m.toFixed(4)} m by hand`,
  );
  checkTime(place, hints);
  if (!place.isSub) checkAngle(place, hints);
}

/** A subwoofer's line may have no room for it beside its dip and peak: an editor shows 43 characters of hints a line. */
function checkTime({ id, isSub, flight_s }: Place, hints: string): void {
  const [, shown_ms] = /([\d.]+) ms/.exec(hints) ?? [];
  if (isSub && shown_ms === undefined) return;
  const want_ms = flight_s * 1000;
  assert.ok(
    Math.abs(Number(shown_ms) - want_ms) <= want_ms * TIME_TOLERANCE + DIGIT_MS,
    `${id}: ${hints}, but ${want_ms.toFixed(3)} ms by hand`,
  );
}

function checkAngle({ id, azimuth_deg }: Place, hints: string): void {
  const [, side = '', degrees] = /(?:([LR]) )?([\d.]+)°/.exec(hints) ?? [];
  const shown_deg = Number(degrees) * (side === 'R' ? -1 : 1);
  assert.ok(
    Math.abs(shown_deg - azimuth_deg) <= ANGLE_TOLERANCE_DEG,
    `${id}: ${hints}, but ${azimuth_deg.toFixed(2)}° by hand`,
  );
}
