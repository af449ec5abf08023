// Work out: from a room in SI to its Setup, part by part, each recomputed only when what it depends on has changed.

import type { Room } from '../schema/model/room.ts';
import { crossoverAdvice } from './parts/advice/crossovers.ts';
import { levelAdvice } from './parts/advice/levels.ts';
import { type AdvicePart, advicePart, withAdvice } from './parts/advice.ts';
import { airPart } from './parts/air.ts';
import { type AnglesPart, anglesPart } from './parts/angles.ts';
import { type ArrivalsPart, arrivalsPart } from './parts/arrivals.ts';
import { noisePart } from './parts/backgroundNoise.ts';
import { createBoundariesPart } from './parts/boundaries.ts';
import { cautionsPart } from './parts/cautions.ts';
import { createCrossoversPart } from './parts/crossovers.ts';
import { layoutPart } from './parts/layout.ts';
import { createLevelReachPart, type LevelReach } from './parts/levelReach.ts';
import { gearsOf } from './parts/levels/noise.ts';
import { pathBands } from './parts/levels/pathBands.ts';
import { levelsPart } from './parts/levels.ts';
import { memoLast, memoPart } from './parts/memo.ts';
import { placementPart } from './parts/placement.ts';
import { powerPart } from './parts/power.ts';
import { createRecordPart } from './parts/record.ts';
import { referenceSeat } from './parts/referenceSeat.ts';
import { seatDelaysPart } from './parts/seatDelays.ts';
import { createSpacePart } from './parts/space.ts';
import { createSteadyRoom, type SteadyRoom } from './parts/steadyRoom.ts';
import { createRuleRunner } from './rules/run.ts';
import type { LevelFigures, Note, SeatFigures, SettingAdvice, Setup } from './setup.ts';
import { showFor } from './show.ts';
import { ways } from './signal/heard.ts';
import { signalPath, type TracedPath, trace } from './signal/traced.ts';

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
  const runRules = createRuleRunner();
  const show = memoLast(showFor);
  const workOut = memoLast(
    (room: SteadyRoom, today: string | null, defaultTemperature_k: number): Setup => {
      const setup = setupOf(parts, room, defaultTemperature_k, today);
      return {
        ...setup,
        findings: runRules(setup, show(setup.room.habits), { today }, room.wired),
      };
    },
  );
  return (given, { today, defaultTemperature_k }) =>
    workOut(steady(given), today, defaultTemperature_k);
}

/** Every part, each over exactly the fields that it depends on. */
function createParts() {
  const sources = ['speakers', 'subwoofers'] as const;
  return {
    air: memoPart(['air', 'habits'], airPart),
    space: memoPart(['space', 'seats', ...sources], createSpacePart()),
    background: memoPart(['space'], noisePart),
    angles: memoPart(['seats', ...sources], anglesPart),
    layout: memoPart(['seats', 'sets', 'targets', 'policy', ...sources], layoutPart),
    placement: memoPart(['space', ...sources], placementPart),
    boundaries: memoPart(['space', 'seats', ...sources], createBoundariesPart()),
    trace: memoPart(['devices', 'wiring', 'settings', 'sets', ...sources], trace),
    ways: memoPart(['sets', 'settings', ...sources], ways),
    arrivals: memoPart(['devices', 'seats', ...sources], arrivalsPart),
    crossovers: memoPart([...sources], createCrossoversPart()),
    levelAdvice: memoPart(['devices', 'wiring', ...sources], levelAdvice),
    crossoverAdvice: memoPart(['devices'], crossoverAdvice),
    standingAdvice: memoLast(
      (levels: readonly SettingAdvice[], crossovers: readonly SettingAdvice[]) => [
        ...levels,
        ...crossovers,
      ],
    ),
    advice: memoPart(['devices', 'settings', ...sources], advicePart),
    levels: memoPart(['devices', 'wiring', 'sets', 'targets', 'policy', ...sources], levelsPart),
    pathBands: memoPart([...sources], pathBands),
    gears: memoPart(['devices', ...sources], gearsOf),
    levelReach: memoPart(
      ['devices', 'seats', 'targets', 'policy', ...sources],
      createLevelReachPart(),
    ),
    withReach: memoLast((levels: LevelFigures, reach: LevelReach) => ({ ...levels, ...reach })),
    power: memoPart(['devices', 'wiring', 'circuits', ...sources], powerPart),
    seats: memoPart(['seats'], seatsOf),
    seatDelays: memoLast(seatDelaysPart),
    signalPaths: memoLast((paths: readonly TracedPath[]) => paths.map(signalPath)),
    record: createRecordPart(),
    cautions: memoPart(['devices', 'circuits', 'seats', ...sources], cautionsPart),
    notes: memoLast((...lists: readonly (readonly Note[])[]) => lists.flat()),
  };
}

/** The same list each time. */
const NO_CHAINS: NonNullable<LevelFigures['chains']> = [];

function setupOf(
  parts: ReturnType<typeof createParts>,
  { room, wired: sources }: SteadyRoom,
  defaultTemperature_k: number,
  today: string | null,
): Setup {
  const wired = { ...room, ...sources };
  const { air, notes: airNotes } = parts.air(room, defaultTemperature_k);
  const { space, notes: spaceNotes } = parts.space(room, air);
  const { background, notes: noiseNotes } = parts.background(room);
  const angles = parts.angles(room);
  const layout = parts.layout(room, angles);
  const boundaries = parts.boundaries(room, air);
  const traced = parts.trace(wired);
  const ways = parts.ways(wired, traced.paths);
  const arrivals = parts.arrivals(room, traced.paths, ways, air.speedOfSound_m_s);
  const crossovers = parts.crossovers(wired, traced.paths, arrivals.heard);
  const standing = parts.standingAdvice(
    parts.levelAdvice(wired, traced.paths),
    parts.crossoverAdvice(room, crossovers.judged),
  );
  const advice = parts.advice(wired, standing, arrivals.needs, crossovers);
  const levels = parts.levels(wired, traced.paths, space?.volume_m3 ?? null);
  const bands = parts.pathBands(wired, traced.paths);
  const chains = levels.chains ?? NO_CHAINS;
  const reach = parts.levelReach(room, traced.paths, chains, bands, parts.gears(wired));
  const seats = parts.seats(room, angles, arrivals, advice);
  const reference = referenceSeat(room)?.id ?? null;
  return {
    room,
    air,
    space,
    background,
    referenceSeat: reference,
    seats,
    signalPaths: parts.signalPaths(traced.paths),
    crossovers: crossovers.crossovers,
    seatDelays: parts.seatDelays(seats, crossovers.crossovers, reference),
    layouts: layout.layouts,
    boundaries: boundaries.boundaries,
    placement: parts.placement(room, layout.layouts).placement,
    levels: parts.withReach(levels, reach),
    power: parts.power(wired),
    advice: advice.advice,
    record: parts.record(room, sources, today),
    cautions: parts.cautions(room),
    findings: [],
    notes: parts.notes(
      airNotes,
      spaceNotes,
      noiseNotes,
      layout.notes,
      traced.notes,
      arrivals.notes,
      crossovers.notes,
    ),
  };
}

/** The answers of two parts, seat by seat. */
function seatsOf(
  room: Pick<Room, 'seats'>,
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
