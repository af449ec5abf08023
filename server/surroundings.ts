// Finds what a file stands among: the nearest facility upwards, the gear and rooms that it names, and the fence around them.

import type { Source, Surroundings } from './analysis.ts';
import { gearGlobs } from './files/globsOf.ts';
import { folderOf, isBelow, join, upwards } from './files/uri.ts';
import type { Sources } from './sources.ts';

/**
 * Without the facility's rooms, which few things depend on and which take the longest to read.
 *
 * @param folders of the workspace
 */
export async function surroundingsOf(
  uri: string,
  folders: readonly string[],
  sources: Sources,
): Promise<Omit<Surroundings, 'rooms'>> {
  const facility = await nearestFacility(uri, sources);
  const workspace = folders.find((folder) => isBelow(uri, folder));
  const fence = facility ? folderOf(facility.uri) : (workspace ?? folderOf(uri));
  const globs = gearGlobs(facility?.parsed ?? null, workspace !== undefined);
  const gear = await sources.below(fence, globs, 'gear');
  return { facility, gear, fence };
}

async function nearestFacility(uri: string, sources: Sources): Promise<Source | null> {
  for (const folder of upwards(folderOf(uri))) {
    const source = await sources.at(join(folder, 'facility.yaml'));
    if (source) return source;
  }
  return null;
}
