// Work out: from a room in SI to its Setup, part by part, each recomputed only when what it depends on has changed.

import type { Room } from '../schema/model/room.ts';
import { type AdvicePart, advicePart, withAdvice } from './parts/advice.ts';
import { airPart } from './parts/air.ts';
import { type AnglesPart, anglesPart } from './parts/angles.ts';
import { type ArrivalsPart, arrivalsPart } from './parts/arrivals.ts';
import { boundariesPart } from './parts/boundaries.ts';
import { cautionsPart } from './parts/cautions.ts';
import { createCrossoversPart } from './parts/crossovers.ts';
import { layoutPart } from './parts/layout.ts';
import { levelsPart } from './parts/levels.ts';
import { memoPart } from './parts/memo.ts';
import { placementPart } from './parts/placement.ts';
import { powerPart } from './parts/power.ts';
import { referenceSeat } from './parts/referenceSeat.ts';
import { spacePart } from './parts/space.ts';
import { createSteadyRoom, type SteadyRoom } from './parts/steadyRoom.ts';
import { runRules } from './rules/run.ts';
import type { SeatFigures, Setup } from './setup.ts';
import { showFor } from './show.ts';
import { signalPath, trace } from './signal/traced.ts';

export interface WorkOutOptions {
  /** ISO date, for acceptances and re-checks that end; null where nobody knows. */
  readonly today: string | null;
  /** Where the file gives no temperature. */
  readonly defaultTemperature_k: number;
}

/** Works rooms out; keeps the last answer of each part, so that one worker serves one file. */
export type WorkOut = (room: Room, options: WorkOutOptions) => Setup;

/** A worker for one file. */
export function createWorkOut(): WorkOut {
  const steady = createSteadyRoom();
  const parts = createParts();
  return (given, { today, defaultTemperature_k }) => {
    const setup = setupOf(parts, steady(given), defaultTemperature_k);
    return { ...setup, findings: runRules(setup, showFor(setup.room.habits), { today }) };
  };
}

/** Every part, each over exactly the fields that it depends on. */
function createParts() {
  const sources = ['speakers', 'subwoofers'] as const;
  return {
    air: memoPart(['air', 'habits'], airPart),
    space: memoPart(['space', 'seats', ...sources], spacePart),
    angles: memoPart(['seats', ...sources], anglesPart),
    layout: memoPart(['seats', 'sets', 'targets', 'policy', ...sources], layoutPart),
    placement: memoPart(['space', ...sources], placementPart),
    boundaries: memoPart(['space', 'seats', ...sources], boundariesPart),
    trace: memoPart(['devices', 'wiring', 'settings', 'sets', ...sources], trace),
    arrivals: memoPart(['devices', 'seats', 'sets', 'settings', ...sources], arrivalsPart),
    crossovers: memoPart([...sources], createCrossoversPart()),
    advice: memoPart(['devices', 'wiring', 'settings', ...sources], advicePart),
    levels: memoPart(['devices', 'wiring', 'sets', 'targets', 'policy', ...sources], levelsPart),
    power: memoPart(['devices', 'wiring', 'circuits', ...sources], powerPart),
  };
}

function setupOf(
  parts: ReturnType<typeof createParts>,
  { room, wired: sources }: SteadyRoom,
  defaultTemperature_k: number,
): Setup {
  const wired = { ...room, ...sources };
  const { air, notes: airNotes } = parts.air(room, defaultTemperature_k);
  const { space, notes: spaceNotes } = parts.space(room, air);
  const angles = parts.angles(room);
  const layout = parts.layout(room, angles);
  const boundaries = parts.boundaries(room, air);
  const traced = parts.trace(wired);
  const arrivals = parts.arrivals(room, traced.paths, air.speedOfSound_m_s);
  const crossovers = parts.crossovers(wired, traced.paths, arrivals.heard);
  const advice = parts.advice(wired, traced.paths, arrivals.needs, crossovers);
  return {
    room,
    air,
    space,
    referenceSeat: referenceSeat(room)?.id ?? null,
    seats: seatsOf(room, angles, arrivals, advice),
    signalPaths: traced.paths.map(signalPath),
    crossovers: crossovers.crossovers,
    layouts: layout.layouts,
    boundaries: boundaries.boundaries,
    placement: parts.placement(room, layout.layouts).placement,
    levels: parts.levels(wired, traced.paths, space?.volume_m3 ?? null),
    power: parts.power(wired),
    advice: advice.advice,
    cautions: cautionsPart(room),
    findings: [],
    notes: [
      ...airNotes,
      ...spaceNotes,
      ...layout.notes,
      ...traced.notes,
      ...arrivals.notes,
      ...crossovers.notes,
    ],
  };
}

/** The answers of two parts, seat by seat. */
function seatsOf(
  room: Room,
  angles: AnglesPart,
  arrivals: ArrivalsPart,
  { delayOf }: AdvicePart,
): readonly SeatFigures[] {
  const reference = referenceSeat(room)?.id;
  return room.seats.map(({ id }) => {
    const heard = arrivals.seats.find(({ seat }) => seat === id)?.arrivals ?? [];
    return {
      id,
      arrivals: id === reference ? withAdvice(heard, delayOf) : heard,
      angles: angles.seats.find(({ seat }) => seat === id)?.angles ?? [],
    };
  });
}
