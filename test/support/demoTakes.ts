// The demo rooms' takes, read from their files as the server reads them.

import { readFileSync } from 'node:fs';
import type { MeasuredFigures, MeasuredTake } from '../../core/measured/measuredFigures.ts';
import { measuredFigures } from '../../core/measured/measuredOf.ts';
import type { Setup } from '../../core/setup.ts';
import { readTake } from '../../server/measured/readTake.ts';
import { demoRooms } from './demoRooms.ts';

const ROOMS = new URL('../../examples/rooms/', import.meta.url);

export interface DemoTakes {
  readonly setup: Setup;
  readonly measured: MeasuredFigures;
}

const kept = new Map<string, DemoTakes>();

/** Read once a run. @throws without such a room, or where it has no takes */
export function demoTakes(name: string): DemoTakes {
  const found = kept.get(name) ?? read(name);
  kept.set(name, found);
  return found;
}

/** @throws without such a take in the room's first session */
export function demoTake(room: string, id: string): MeasuredTake {
  const take = demoTakes(room).measured.sessions[0]?.takes.find((one) => one.take === id);
  if (take === undefined) throw new RangeError(`no take ${id} in ${room}`);
  return take;
}

function read(name: string): DemoTakes {
  const setup = demoRooms().find((one) => one.name === name)?.setup;
  if (setup === undefined) throw new RangeError(`no room ${name}`);
  const bytes = (file: string) => new Uint8Array(readFileSync(new URL(file, ROOMS)));
  const measured = measuredFigures(setup.room, (recording) => {
    if (!('drive' in recording)) return null;
    const { file, sweep, channel, loopback, timing } = recording;
    return readTake({
      file: bytes(file ?? ''),
      sweep: sweep ? bytes(sweep) : null,
      corrections: [],
      channel: channel ?? 1,
      loopback: loopback ?? null,
      timing,
    });
  });
  if (measured === null) throw new RangeError(`no takes in ${name}`);
  return { setup, measured };
}
