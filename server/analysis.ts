// An analysis: everything the server knows of one file at one version. Features and the command line read nothing else.

import type { TextDocument } from 'vscode-languageserver-textdocument';
import type { Setup } from '../core/setup.ts';
import type { ParsedFile } from '../schema/model/parsedFile.ts';
import type { Reference } from '../schema/model/resolved.ts';
import type { GearResponses } from './gearResponses.ts';
import type { Remark } from './remarks/remark.ts';

/** A file's text at one version and what reading it yielded. Never changes: a new version is a new source. */
export interface Source {
  readonly uri: string;
  /** null where it was read from a disk. */
  readonly version: number | null;
  readonly text: TextDocument;
  readonly parsed: ParsedFile;
}

/** The files that a room stands among. */
export interface Surroundings {
  /** The nearest `facility.yaml` upwards. */
  readonly facility: Source | null;
  /** The gear files that apply, in the facility's order. */
  readonly gear: readonly Source[];
  /** The facility's rooms. */
  readonly rooms: readonly Source[];
  /** What the response files of gear tell, by the gear file's URI; a gear file that names none is not in it. */
  readonly responses?: ReadonlyMap<string, GearResponses>;
  /** The folder that no path of the file may lead out of. */
  readonly fence: string;
}

export interface Analysis {
  readonly source: Source;
  readonly surroundings: Surroundings;
  /** Words that refer to something, in all three kinds of file. */
  readonly references: readonly Reference[];
  /** Rooms only. */
  readonly setup: Setup | null;
  /** The low end in it is that of the version before: the new one is being worked out. */
  readonly isFieldOlder?: boolean;
  /** Faults and findings in one list, in the file's order. */
  readonly remarks: readonly Remark[];
}

/** The source behind a name that resolve was given; the analysed file itself for null. */
export function sourceNamed(analysis: Analysis, file: string | null): Source | null {
  if (file === null || file === analysis.source.uri) return analysis.source;
  const { facility, gear, rooms } = analysis.surroundings;
  if (facility?.uri === file) return facility;
  return [...gear, ...rooms].find(({ uri }) => uri === file) ?? null;
}
