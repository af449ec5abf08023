// A small invented facility for feature tests: one gear file, one facility, and a room that the test writes.

import type { Analysis } from '../../../server/analysis.ts';
import { fieldAtOnce } from '../../../server/field/fieldPhase.ts';
import { createSession, type Session } from '../../../server/session.ts';
import { memoryFiles } from './memoryFiles.ts';

export const FOLDER = 'file:///facility';
export const ROOM: string = `${FOLDER}/rooms/test.room.yaml`;
export const GEAR: string = `${FOLDER}/gear/test.gear.yaml`;
export const FACILITY: string = `${FOLDER}/facility.yaml`;

export const GEAR_TEXT = `gear: 1
models:
  tern_5:
    kind: loudspeaker
    maker: Placeholder Audio
    low_end: { minus_6_db: 55 Hz, slope: 24 dB/oct, kind: vented }
    latency: 1.0 ms
    inputs: [in]
    paths: [in -> level -> driver]
    controls:
      level: { min: -12 dB, max: 6 dB, step: 0.5 dB }
  plover_10:
    kind: subwoofer
    low_end: { minus_6_db: 25 Hz, slope: 24 dB/oct, kind: vented }
    latency: 1.0 ms
    inputs: [in_left, in_right]
    outputs: [out_left, out_right]
    buses: { bass: { sum: -6 dB } }
    paths:
      - in_left -> high_pass -> delay -> out_left
      - in_right -> high_pass -> delay -> out_right
      - in_left -> low_pass -> bass
      - in_right -> low_pass -> bass
      - bass -> delay -> polarity -> level -> driver
    controls:
      crossover: { sets: [high_pass, low_pass], kind: linkwitz_riley, frequency: { min: 50 Hz, max: 120 Hz, step: 5 Hz }, slope: { choices: [24 dB/oct] }, bypass: true }
      each_port: { delay: { told_as: time, step: 0.1 ms, max: 20 ms } }
      polarity: { choices: [normal, inverted] }
      level: { min: -20 dB, max: 6 dB, step: 0.5 dB }
  rail_2:
    kind: interface
    latency: 1.0 ms
    outputs: [main_left, main_right]
`;

export const FACILITY_TEXT = `facility: 1
name: Test Post (invented)
gear: ["gear/*.gear.yaml"]
rooms: ["rooms/*.room.yaml"]
policies:
  mix: { reference_level: 79 dBC, layouts: [0+2+0] }
items:
  plover_a: { gear: plover_10, serial: "7" }
`;

/** A whole small room; tests change single lines of it. */
export const ROOM_TEXT = `room: 1
name: Test room
policy: mix
space:
  size: { width: 4.20 m, depth: 5.60 m, height: 2.70 m }
  air: { temperature: 20 °C, humidity: 50 % }
  decay_time: { 125 Hz: 0.30 s, 250 Hz: 0.30 s, 500 Hz: 0.30 s }
seats:
  mix: { at: { x: 2.10 m, y: 2.10 m, z: 1.20 m }, role: reference }
speakers:
  left: { gear: tern_5, channel: L, at: { x: 1.40 m, y: 0.89 m, z: 1.20 m }, aim: mix }
  right: { gear: tern_5, channel: R, at: { x: 2.80 m, y: 0.89 m, z: 1.20 m }, aim: mix }
subwoofers:
  sub: { item: plover_a, at: { x: 1.70 m, y: 0.60 m, z: 0.25 m } }
devices:
  desk: { gear: rail_2 }
wiring:
  - desk.main_left -> sub.in_left
  - desk.main_right -> sub.in_right
  - sub.out_left -> left.in
  - sub.out_right -> right.in
settings:
  sub:
    crossover: { frequency: 80 Hz, slope: 24 dB/oct }
    polarity: normal
    level: -3.0 dB
    ports:
      driver: { delay: 1.0 ms }
      out_left: { delay: 0.0 ms }
      out_right: { delay: 0.0 ms }
targets:
  layout: 0+2+0
  reference_level: 79 dBC
`;

export const TODAY = '2026-11-25';

/** A session over the small facility with this room open in the editor. */
export function sessionWith(room: string, more: Readonly<Record<string, string>> = {}): Session {
  const texts = new Map([
    [GEAR, GEAR_TEXT],
    [FACILITY, FACILITY_TEXT],
    [ROOM, room],
    ...Object.entries(more),
  ]);
  const field = fieldAtOnce(() => undefined);
  const session = createSession(memoryFiles(texts), () => TODAY, null, field);
  session.setFolders([FOLDER]);
  session.open(ROOM, 1, room, 'groundbass-room');
  return session;
}

export async function analysisOf(
  room: string,
  more: Readonly<Record<string, string>> = {},
): Promise<Analysis> {
  const analysis = await sessionWith(room, more).analysis(ROOM);
  if (analysis === null) throw new RangeError('the room was not read');
  return analysis;
}

/** The same with its low end. */
export async function wholeAnalysisOf(room: string): Promise<Analysis> {
  const analysis = await sessionWith(room).whole(ROOM);
  if (analysis === null) throw new RangeError('the room was not read');
  return analysis;
}
