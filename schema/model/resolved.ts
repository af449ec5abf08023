// What joining one room with its gear and facility yields: the room in SI, what was wrong, and which words refer to what.

import type { GearResponse } from './gear.ts';
import type { Range } from './located.ts';
import type { ParsedFile } from './parsedFile.ts';
import type { Path } from './path.ts';
import type { Problem } from './problem.ts';
import type { Room } from './room.ts';

/** A file of the facility, under the name by which its reader knows it (an URI, a path). */
export interface NamedFile {
  readonly file: string;
  readonly parsed: ParsedFile;
  /** Of a gear file: what the response files that it names tell, by `responseKey`; the same object while they say the same. */
  readonly responses?: ReadonlyMap<string, GearResponse>;
}

export interface ResolveContext {
  /** All gear files that apply, in the facility's order. */
  readonly gear: readonly NamedFile[];
  /** The nearest `facility.yaml` upwards. */
  readonly facility: NamedFile | null;
  /** Used where a sample rate is needed and the file names none. */
  readonly defaultSampleRate_hz: number | null;
  /** Whether a file named in the room (relative to it) exists; null where nobody can say. */
  readonly fileExists: ((relativePath: string) => boolean | null) | null;
  /** The codes that findings have; not given: codes are not checked. */
  readonly findingCodes?: readonly string[];
  /** The names of the materials that are known; not given: names are not checked. */
  readonly materials?: readonly string[];
  /** Channel labels and layouts that are known beyond those of ITU-R BS.2051. */
  readonly channels?: readonly string[];
  readonly layouts?: readonly string[];
}

export type ReferenceKind =
  | 'gear'
  | 'item'
  | 'seat'
  | 'speaker'
  | 'device'
  | 'port'
  | 'wall'
  | 'fixture'
  | 'set'
  | 'control'
  | 'policy'
  | 'take'
  | 'finding'
  | 'file';

/** One word in a room file that refers to something: drives go to definition, references, highlights and rename. */
export interface Reference {
  readonly kind: ReferenceKind;
  readonly id: string;
  /** Where the word stands, exactly (only `sub` in `sub.in_left`). */
  readonly range: Range;
  readonly path: Path;
  /** Where it is defined; `file` null means in the room file itself. null where nothing of that name was found. */
  readonly target: { readonly file: string | null; readonly path: Path } | null;
}

export interface Resolved {
  readonly room: Room;
  /** Wrong references, physically impossible values, policy faults; the parse's own problems are not repeated. */
  readonly problems: readonly Problem[];
  readonly references: readonly Reference[];
}
