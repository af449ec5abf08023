// A small gear file and a small facility for the tests of this folder; and the one way they resolve a room.

import type { NamedFile, ResolveContext, Resolved } from '../../schema/model/resolved.ts';
import { parseFile } from '../../schema/parse/parseFile.ts';
import { resolveRoom } from '../../schema/resolve/resolveRoom.ts';
import { expectMarked } from './marked.ts';

export const GEAR = `gear: 1
models:
  heath_6:
    kind: loudspeaker
    low_end: { minus_6_db: 48 Hz, slope: 24 dB/oct, kind: vented }
    latency: 1.1 ms
    inputs: [in]
    paths: [in -> level -> tilt -> driver]
    controls:
      level: { min: -20 dB, max: 0 dB, step: 0.5 dB }
      tilt: { choices: [flat, desk, wall] }
  moor_12:
    kind: subwoofer
    low_end: { minus_6_db: 21 Hz, slope: 24 dB/oct, kind: vented }
    latency: { driver: 0.8 ms, out_left: 0.8 ms, out_right: 0.8 ms }
    inputs: [in_left, in_right, in_lfe]
    outputs: [out_left, out_right]
    buses: { bass: { sum: -6 dB } }
    paths:
      - in_left -> input_sensitivity -> high_pass -> delay -> out_left
      - in_left -> input_sensitivity -> low_pass -> bass
      - bass -> eq -> phase -> delay -> polarity -> level -> driver
    controls:
      input_sensitivity: { choices: [4 dBu, 10 dBu, 18 dBu] }
      crossover: { sets: [high_pass, low_pass], kind: linkwitz_riley, frequency: { min: 40 Hz, max: 130 Hz, step: 5 Hz }, slope: { choices: [12 dB/oct, 24 dB/oct] } }
      each_port: { delay: { told_as: time, step: 0.05 ms, max: 25 ms } }
      phase: { choices: [0°, 90°], at: 80 Hz }
      polarity: { choices: [normal, inverted] }
      level: { min: -30 dB, max: 10 dB, step: 0.25 dB }
      eq: { bands: 1, frequency: { min: 18 Hz, max: 250 Hz }, gain: { min: -15 dB, max: 3 dB }, q: { min: 0.5, max: 12 } }
      standby: { choices: [off, 30 min, 4 h] }
  quay_8: { kind: interface, outputs: [main_left, main_right, net], full_level_output: 18 dBu }
  sluice:
    kind: processor
    sample_rates: [48 kHz, 96 kHz]
    inputs: [in_1]
    outputs: [out_1]
    paths: [in_1 -> delay -> out_1]
    controls: { delay: { told_as: samples, step: 1 samples, max: 4800 samples } }
`;

export const FACILITY = `facility: 1
policies:
  mix: { reference_level: 79 dBC, layouts: [0+2+0], recheck: 12 months, tolerances: { height: 50 mm, azimuth: 2° }, severity: { layout/height: warning } }
items:
  moor_a: { gear: moor_12, serial: "1" }
`;

export function context(more: Partial<ResolveContext> = {}): ResolveContext {
  return {
    gear: [named('small.gear.yaml', 'gear', GEAR)],
    facility: named('facility.yaml', 'facility', FACILITY),
    defaultSampleRate_hz: null,
    fileExists: null,
    ...more,
  };
}

export function named(file: string, kind: 'gear' | 'facility' | 'room', text: string): NamedFile {
  return { file, parsed: parseFile(kind, text) };
}

/** Resolves a room's text, of which the tests leave out the first line. */
export function resolveText(text: string, more: Partial<ResolveContext> = {}): Resolved {
  return resolveRoom(parseFile('room', `room: 1${text}`), context(more));
}

/** All problems of a room, the parse's and resolve's together, against the marks in its text. */
export function check(text: string, more: Partial<ResolveContext> = {}): void {
  const whole = `room: 1${text}`;
  const parsed = parseFile('room', whole);
  const { problems } = resolveRoom(parsed, context(more));
  expectMarked(whole, [...parsed.problems, ...problems]);
}

/** A room's text after the first fix of its only problem. */
export function fixed(text: string, more: Partial<ResolveContext> = {}): string {
  const [problem, ...others] = resolveText(text, more).problems;
  const [fix] = problem?.fixes ?? [];
  if (fix === undefined || others.length !== 0)
    throw new Error('not exactly one problem with a fix');
  let whole = `room: 1${text}`;
  for (const { range, text: put } of fix.edits.toSorted((a, b) => b.range.start - a.range.start))
    whole = whole.slice(0, range.start) + put + whole.slice(range.end);
  return whole.slice('room: 1'.length);
}
