// The session: which files are open, what lies around them, and the last analysis of each.
//
// The one place of the server that holds state (with the sources that it owns). Nothing is analysed before it is asked for, and
// nothing twice: an analysis holds as long as every source that it was made from is still the same one.

import { createWorkOut, type WorkOut } from '../core/workOut.ts';
import { checkFacilityRooms } from '../schema/resolve/checkFacilityRooms.ts';
import { analyse, named } from './analyse.ts';
import type { Analysis } from './analysis.ts';
import { type FieldPhase, NO_FIELD } from './field/fieldPhase.ts';
import { type Files, MEASUREMENT_GLOBS, OUR_GLOBS } from './files/files.ts';
import { folderOf, isBelow, relativeTo, sameUri } from './files/uri.ts';
import { createGearResponses } from './gearResponses.ts';
import { type MeasuredPhase, NO_MEASURED } from './measured/measuredPhase.ts';
import { type Background, createNeighbours } from './neighbours.ts';
import { DEFAULT_SETTINGS, type Settings } from './protocol/settings.ts';
import { createSources, type Sources } from './sources.ts';
import { surroundingsOf } from './surroundings.ts';

export interface Session {
  readonly settings: () => Settings;
  readonly setSettings: (settings: Settings) => void;
  readonly folders: () => readonly string[];
  readonly setFolders: (folders: readonly string[]) => void;
  readonly isInFolders: (uri: string) => boolean;
  /** A file was opened or its text changed in the editor. */
  readonly open: Sources['open'];
  readonly close: (uri: string) => void;
  /** Files came, went or changed outside the editor. */
  readonly changedOnDisk: (uris: readonly string[]) => void;
  readonly opened: () => readonly { readonly uri: string; readonly version: number }[];
  /** null where there is no such file, or it is none of ours. */
  readonly analysis: (uri: string) => Promise<Analysis | null>;
  /** The same, once the low end and the takes are in it too. */
  readonly whole: (uri: string) => Promise<Analysis | null>;
  /** Open files and every file of ours below the workspace's folders. */
  readonly all: () => Promise<readonly Analysis[]>;
  /** Measurements and corrections below a file's folder, relative to it. */
  readonly filesBeside: (uri: string) => Promise<readonly string[]>;
}

/** An analysis with everything that it was made from. */
interface Made {
  readonly inputs: readonly unknown[];
  readonly analysis: Analysis;
}

/**
 * @param files how the disk is reached
 * @param today an ISO date, asked at every analysis
 * @param field how the second phase is worked out: the low end
 * @param measured how the third phase is worked out: the takes
 * @param background where the facility's other rooms are read without a first answer waiting for them; null where it waits
 */
export function createSession(
  files: Files,
  today: () => string,
  background: Background | null = null,
  field: FieldPhase = NO_FIELD,
  measured: MeasuredPhase = NO_MEASURED,
): Session {
  const sources = createSources(files);
  const analyses = new Map<string, Made>();
  const workOuts = new Map<string, WorkOut>();
  const neighbours = createNeighbours(sources, background);
  const gearResponses = createGearResponses(files);
  let settings = DEFAULT_SETTINGS;
  let folders: readonly string[] = [];

  /** The first phase: everything but the low end. */
  async function quickAnalysis(given: string): Promise<Analysis | null> {
    const uri = sameUri(given);
    const first = await sources.at(uri);
    if (first === null) return null;
    const around = await surroundingsOf(uri, folders, sources);
    const users = around.facility === null ? [first] : [first, around.facility];
    const responses = await gearResponses.all([first, ...around.gear], around.fence, users);
    const rooms = await neighbours.of(around);
    // The text may have moved on while files were read: always the newest counts.
    const source = await sources.at(uri);
    if (source === null) return null;
    const { facility, gear } = around;
    const crossing = checkFacilityRooms(rooms.map(named)).get(uri) ?? [];
    const date = today();
    const texts = [source, facility, ...gear, ...responses.values()];
    const inputs = [...texts, JSON.stringify(crossing), settings, date];
    const last = analyses.get(uri);
    if (last && sameItems(last.inputs, inputs)) return last.analysis;
    const workOut = workOutOf(workOuts, uri);
    const options = { settings, today: date, workOut, exists: files.exists, crossing };
    const made = analyse(source, { ...around, rooms, responses }, options);
    analyses.set(uri, { inputs, analysis: made });
    return made;
  }

  const analysis: Session['analysis'] = async (uri) => {
    const quick = await quickAnalysis(uri);
    const date = today();
    return quick === null ? null : measured.known(field.known(quick, date), date);
  };

  const whole: Session['whole'] = async (uri) => {
    const quick = await quickAnalysis(uri);
    const date = today();
    return quick === null ? null : measured.whole(await field.whole(quick, date), date);
  };

  return {
    settings: () => settings,
    setSettings: (given) => {
      settings = given;
    },
    folders: () => folders,
    setFolders: (given) => {
      folders = given.map(sameUri);
    },
    isInFolders: (given) => folders.some((folder) => isBelow(sameUri(given), folder)),
    open: (uri, ...rest) => sources.open(sameUri(uri), ...rest),
    close: (given) => {
      const uri = sameUri(given);
      sources.close(uri);
      for (const kept of [workOuts, analyses]) kept.delete(uri);
      field.forget(uri);
      measured.forget(uri);
    },
    changedOnDisk: (uris) => {
      sources.changedOnDisk(uris.map(sameUri));
      measured.changedOnDisk(uris.map(sameUri));
      neighbours.forget();
      gearResponses.forget();
      analyses.clear(); // A measurement file may have come or gone, which no source tells.
    },
    opened: () => sources.opened().map(({ uri, version }) => ({ uri, version: version ?? 0 })),
    analysis,
    whole,
    filesBeside: async (uri) => {
      const folder = folderOf(sameUri(uri));
      const found = await files.find(folder, MEASUREMENT_GLOBS);
      return found.flatMap((one) => relativeTo(folder, one) ?? []);
    },
    all: async () => {
      const made: Analysis[] = [];
      for (const uri of await ourUris(sources, folders)) {
        const one = await analysis(uri);
        if (one) made.push(one);
      }
      return made;
    },
  };
}

function workOutOf(workOuts: Map<string, WorkOut>, uri: string): WorkOut {
  const workOut = workOuts.get(uri) ?? createWorkOut();
  workOuts.set(uri, workOut);
  return workOut;
}

/** Open files and those below the folders, each once, in order. */
async function ourUris(sources: Sources, folders: readonly string[]): Promise<readonly string[]> {
  const uris = new Set(sources.opened().map(({ uri }) => uri));
  for (const folder of folders)
    for (const glob of OUR_GLOBS) for (const uri of await sources.find(folder, glob)) uris.add(uri);
  return [...uris].sort();
}

function sameItems(one: readonly unknown[], other: readonly unknown[]): boolean {
  return one.length === other.length && one.every((item, index) => item === other[index]);
}
