// Which gear and room files belong together: the facility's globs, or what stands for them where nobody gave any.

import type { ParsedFile } from '../../schema/model/parsedFile.ts';
import { staysBelow } from './files.ts';

/** Every gear file below the fence. */
const EVERYWHERE = ['**/*.gear.yaml'];
/** For a file opened on its own: no walk through whatever folder it happens to lie in. */
const NEARBY = ['*.gear.yaml', 'gear/*.gear.yaml'];

export function gearGlobs(facility: ParsedFile | null, inWorkspace: boolean): readonly string[] {
  if (facility === null) return inWorkspace ? EVERYWHERE : NEARBY;
  return listed(facility, 'gear') ?? EVERYWHERE;
}

/** None without a facility: nothing says that rooms have anything to do with one another. */
export function roomGlobs(facility: ParsedFile | null): readonly string[] {
  if (facility === null) return [];
  return listed(facility, 'rooms') ?? ['**/*.room.yaml'];
}

function listed({ root }: ParsedFile, key: string): readonly string[] | null {
  const given = root?.kind === 'map' ? root.entries.get(key)?.value : null;
  if (given?.kind !== 'list') return null;
  return given.items
    .flatMap((item) => (item?.kind === 'scalar' ? [item.text] : []))
    .filter(staysBelow);
}
