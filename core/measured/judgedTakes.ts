// Which takes can be judged as what a listener hears: everything that a channel drives, at a seat, as the room is set.

import type { Path } from '../../schema/model/path.ts';
import type { MeasuringTake } from '../../schema/model/sessions.ts';
import type { Setup } from '../setup.ts';
import type { MeasuredResponse, MeasuredTake } from './measuredFigures.ts';

export interface JudgedTake {
  readonly session: string;
  readonly given: MeasuringTake;
  readonly measured: MeasuredTake;
}

/** All takes that were read, with what the file says of them. */
export function readTakes({ room, measured }: Setup): readonly JudgedTake[] {
  return (measured?.sessions ?? []).flatMap(({ session, takes }) => {
    const given = room.sessions?.find(({ id }) => id === session);
    return takes.flatMap((take) => {
      const told = given?.takes.find(({ id }) => id === take.take);
      return told === undefined || take.kind === null
        ? []
        : [{ session, given: told, measured: take }];
    });
  });
}

/** Whether nothing was set otherwise for it. */
export function isAsSet({ given }: JudgedTake): boolean {
  return given.bypassed.length === 0 && given.changed.length === 0;
}

/** A response at one place, with the name and path of the take or average that it is of. */
export interface WholeResponse {
  readonly session: string;
  readonly id: string;
  readonly path: Path;
  readonly channel: string;
  readonly seat: string;
  readonly response: MeasuredResponse;
}

/** Takes of whole channels at seats; with a main, for a subwoofer alone is half a channel. */
export function wholeResponses(setup: Setup): readonly WholeResponse[] {
  const mains = new Set(setup.room.speakers.map(({ id }) => id));
  return readTakes(setup).flatMap((one) => {
    const { session, given, measured } = one;
    const { drive, sounding, seat, at } = given;
    if (drive === null || seat === null || at !== null || !isAsSet(one)) return [];
    const driven = setup.signalPaths
      .filter(({ channel, source }) => (channel ?? `${source.device}.${source.port}`) === drive)
      .map(({ target }) => target);
    const targets = [...new Set(driven)];
    const isWhole = sounding.length === 0 || targets.every((target) => sounding.includes(target));
    const { response } = measured;
    return isWhole && response !== null && targets.some((target) => mains.has(target))
      ? [{ session, id: given.id, path: given.path, channel: drive, seat, response }]
      : [];
  });
}
