// Analyses one file: from its source and surroundings to everything that follows. Pure; the session decides when.

import type { WorkOut } from '../core/workOut.ts';
import type { Problem } from '../schema/model/problem.ts';
import type { NamedFile, ResolveContext } from '../schema/model/resolved.ts';
import { checkFacility } from '../schema/resolve/checkFacility.ts';
import { type Checked, checkGear } from '../schema/resolve/checkGear.ts';
import { resolveRoom } from '../schema/resolve/resolveRoom.ts';
import type { Analysis, Source, Surroundings } from './analysis.ts';
import type { Files } from './files/files.ts';
import { folderOf, isBelow, join } from './files/uri.ts';
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
  const resolved = resolveRoom(parsed, contextOf(source, surroundings, options));
  const setup = options.workOut(resolved.room, {
    today: options.today,
    defaultTemperature_k: options.settings.temperature_c + ZERO_CELSIUS_k,
  });
  const { problems, references } = resolved;
  const all = [...parsed.problems, ...problems, ...options.crossing];
  return { source, surroundings, references, setup, remarks: remarksOf(parsed, all, setup) };
}

const ZERO_CELSIUS_k = 273.15;

/** Gear is held against the other gear files, a facility against its gear. */
function checked(source: Source, surroundings: Surroundings, options: AnalyseOptions): Checked {
  const { parsed } = source;
  if (parsed.kind === 'facility')
    return checkFacility(parsed, contextOf(source, surroundings, options));
  const others = surroundings.gear.filter(({ uri }) => uri !== source.uri);
  return checkGear(parsed, others.map(named));
}

function contextOf(
  { uri }: Source,
  { facility, gear, fence }: Surroundings,
  { settings, exists }: AnalyseOptions,
): ResolveContext {
  return {
    gear: gear.map(named),
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
