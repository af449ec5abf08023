// Analyses one file: from its source and surroundings to everything that follows. Pure; the session decides when.

import type { Setup } from '../core/setup.ts';
import type { WorkOut } from '../core/workOut.ts';
import type { ParsedFile } from '../schema/model/parsedFile.ts';
import type { Problem } from '../schema/model/problem.ts';
import type { NamedFile, ResolveContext } from '../schema/model/resolved.ts';
import type { Room } from '../schema/model/room.ts';
import { checkFacility } from '../schema/resolve/checkFacility.ts';
import { type Checked, checkGear } from '../schema/resolve/checkGear.ts';
import { createResolver, type Resolve } from '../schema/resolve/resolver.ts';
import { responseProblem } from '../schema/resolve/responseProblem.ts';
import type { Analysis, Source, Surroundings } from './analysis.ts';
import type { Files } from './files/files.ts';
import { folderOf, isBelow, join } from './files/uri.ts';
import { rangeToShow } from './places.ts';
import type { Settings } from './protocol/settings.ts';
import { remarksOf } from './remarks/remarksOf.ts';

export interface AnalyseOptions {
  readonly settings: Settings;
  /** An ISO date. */
  readonly today: string;
  /** This file's own worker, which keeps what did not change. */
  readonly workOut: WorkOut;
  readonly exists: Files['exists'];
  /** Problems that only show beside the facility's other rooms. */
  readonly crossing: readonly Problem[];
}

export function analyse(
  source: Source,
  surroundings: Surroundings,
  options: AnalyseOptions,
): Analysis {
  const { parsed } = source;
  if (parsed.kind !== 'room') {
    const { problems, references } = checked(source, surroundings, options);
    const remarks = remarksOf(parsed, [...parsed.problems, ...problems], null);
    return { source, surroundings, references, setup: null, remarks };
  }
  const resolve = resolverBeside(options.workOut);
  const resolved = resolve(parsed, contextOf(source, surroundings, options));
  const { setup, faults } = workedOut(resolved.room, parsed, options);
  const { problems, references } = resolved;
  const all = [...parsed.problems, ...problems, ...options.crossing, ...faults];
  return { source, surroundings, references, setup, remarks: remarksOf(parsed, all, setup) };
}

// A file's resolver goes with its worker: the two keep what the same versions of the file said, and are forgotten together.
const resolvers = new WeakMap<WorkOut, Resolve>();

function resolverBeside(workOut: WorkOut): Resolve {
  const resolve = resolvers.get(workOut) ?? createResolver();
  resolvers.set(workOut, resolve);
  return resolve;
}

/** A fault of ours in the computations is told at the file's first key; what was read of the text is not lost by it. */
function workedOut(
  room: Room,
  parsed: ParsedFile,
  { workOut, today, settings }: AnalyseOptions,
): { readonly setup: Setup | null; readonly faults: readonly Problem[] } {
  try {
    const defaultTemperature_k = settings.temperature_c + ZERO_CELSIUS_k;
    return { setup: workOut(room, { today, defaultTemperature_k }), faults: [] };
  } catch (error) {
    const fault: Problem = {
      code: 'groundbass/fault',
      severity: 'error',
      path: [],
      range: rangeToShow(parsed, []),
      message: `The room could not be worked out, by a fault of groundbass itself: ${error instanceof Error ? error.message : error}`,
      fixes: [],
    };
    return { setup: null, faults: [fault] };
  }
}

const ZERO_CELSIUS_k = 273.15;

/** Gear is held against the other gear files, a facility against its gear. */
function checked(source: Source, surroundings: Surroundings, options: AnalyseOptions): Checked {
  const { parsed } = source;
  if (parsed.kind === 'facility')
    return checkFacility(parsed, contextOf(source, surroundings, options));
  const others = surroundings.gear.filter(({ uri }) => uri !== source.uri);
  const { problems, references } = checkGear(parsed, others.map(named));
  const faults = surroundings.responses?.get(source.uri)?.faults ?? [];
  const told = faults.map((fault) => responseProblem(fault, rangeToShow(parsed, fault.path)));
  return { problems: [...problems, ...told], references };
}

function contextOf(
  { uri }: Source,
  { facility, gear, fence, responses }: Surroundings,
  { settings, exists }: AnalyseOptions,
): ResolveContext {
  return {
    gear: gear.map((one) => {
      const told = responses?.get(one.uri)?.responses;
      return told ? { ...named(one), responses: told } : named(one);
    }),
    facility: facility && named(facility),
    defaultSampleRate_hz: settings.sampleRate_hz,
    fileExists: (relativePath) => {
      const file = join(folderOf(uri), relativePath);
      return isBelow(file, fence) ? exists(file, fence) : false;
    },
  };
}

export function named({ uri, parsed }: Source): NamedFile {
  return { file: uri, parsed };
}
