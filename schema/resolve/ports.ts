// Ports of the gear that someone uses: whether it has them, which way they face, and where they are named.

import type { Range } from '../model/located.ts';
import { portAndChannel, type Word } from './arrow.ts';
import { portTarget, type Side } from './gearLibrary.ts';
import { hasDriver } from './gearModel.ts';
import type { Place } from './place.ts';
import { type Reading, refer, tellAt } from './reading.ts';
import { unknownName } from './unknownName.ts';
import type { User } from './users.ts';

/** Which way a port faces; `either` where the gear is unknown, or does not say; null where it has no such port. */
export function sideOf({ model }: User, port: string): Side | null {
  if (model === null || model.ports === null) return 'either';
  return model.ports.get(port) ?? null;
}

/**
 * Records the reference to a port and tells one that is not there.
 *
 * @param wanted which ports are offered in its place
 */
export function referPort(
  reading: Reading,
  item: Place,
  user: User,
  word: Word,
  wanted: Side,
): boolean {
  const { port } = portAndChannel(word);
  const target = user.model === null ? null : portTarget(user.model, port.text);
  refer(reading, 'port', { id: port.text, range: port.range, path: item.path }, target);
  if (sideOf(user, port.text) !== null) return true;
  tellUnknownPort(reading, item, user, port.text, port.range, wanted);
  return false;
}

/** Ports under `settings`, `channels` and `latency`: any of them, and the driver. */
export function referAnyPort(reading: Reading, place: Place, user: User, word: Word): boolean {
  const gear = user.model?.gear ?? null;
  if (word.text === 'driver' && (gear === null || hasDriver(gear.kind))) return true;
  return referPort(reading, place, user, word, 'either');
}

function tellUnknownPort(
  reading: Reading,
  item: Place,
  user: User,
  name: string,
  range: Range,
  wanted: Side,
): void {
  const gear = user.model?.gear ?? null;
  const inputs = wanted === 'output' ? [] : (gear?.inputs ?? []);
  const outputs = wanted === 'input' ? [] : (gear?.outputs ?? []);
  const driver = wanted === 'either' && gear !== null && hasDriver(gear.kind) ? ['driver'] : [];
  const kind = wanted === 'either' ? 'port' : wanted;
  tellAt(reading, item.path, range, () =>
    unknownName({
      code: 'reference/port',
      lead: `\`${user.id}\` (${user.gearId ?? ''}) has no ${kind} called`,
      name,
      range,
      known: [...inputs, ...outputs, ...driver],
      plural: `${kind}s`,
    }),
  );
}
