// The response files that gear files name: found from the gear file's folder, inside the fence, read once until they change.

import type { GearResponseReading, ResponseMeaning } from '../core/measure/gearResponse.ts';
import type { GearResponse, ResponseFile } from '../schema/model/gear.ts';
import { readGearFile } from '../schema/resolve/gearLibrary.ts';
import { responseKey } from '../schema/resolve/gearResponses.ts';
import type { ResponseFault } from '../schema/resolve/responseProblem.ts';
import type { Source } from './analysis.ts';
import type { Files } from './files/files.ts';
import { folderOf, isBelow, join } from './files/uri.ts';

/** What the response files of one gear file tell. */
export interface GearResponses {
  /** By `responseKey`. */
  readonly responses: ReadonlyMap<string, GearResponse>;
  readonly faults: readonly ResponseFault[];
}

export interface GearResponseReader {
  /**
   * By the gear file's URI, those that name any; each the very same object while the files say the same.
   *
   * @param users only the files of models whose name stands in one of them are read; a gear file uses its own
   */
  readonly all: (
    sources: readonly Source[],
    fence: string,
    users: readonly Source[],
  ) => Promise<ReadonlyMap<string, GearResponses>>;
  /** Files came, went or changed. */
  readonly forget: () => void;
}

/** No gear file has more models than this with files of their own; what is beyond is not read. */
const MOST_FILES = 500;
/** More of a file than so many faults nobody reads here. */
const MOST_FAULTS = 3;
/** A phase that falls like this much delay and more holds something that the loudspeaker does not. */
const MOST_DELAY_S = 0.001;

export function createGearResponses(files: Files): GearResponseReader {
  const fresh = new Map<
    string,
    { readonly key: readonly unknown[]; readonly read: Promise<GearResponses> }
  >();
  const last = new Map<string, { readonly text: string; readonly value: GearResponses }>();

  async function read(
    gear: Source,
    fence: string,
    named: readonly ResponseFile[],
  ): Promise<GearResponses> {
    const responses = new Map<string, GearResponse>();
    const faults: ResponseFault[] = [];
    for (const one of named.slice(0, MOST_FILES)) {
      const told = await readOne(files, gear.uri, fence, one);
      faults.push(...told.faults);
      if (told.response) responses.set(responseKey(one), told.response);
    }
    const value = { responses, faults };
    const text = JSON.stringify([[...responses], faults]);
    const before = last.get(gear.uri);
    if (before?.text === text) return before.value;
    last.set(gear.uri, { text, value });
    return value;
  }

  function of(
    gear: Source,
    fence: string,
    users: readonly Source[],
  ): Promise<GearResponses> | null {
    const named = filesNamed(gear, users);
    if (named.length === 0) return null;
    const known = fresh.get(gear.uri);
    const key = [gear.parsed, fence, ...named];
    if (known?.key.length === key.length && known.key.every((part, i) => part === key[i]))
      return known.read;
    const reading = read(gear, fence, named);
    fresh.set(gear.uri, { key, read: reading });
    return reading;
  }

  return {
    async all(sources, fence, users) {
      const found = new Map<string, GearResponses>();
      for (const source of sources) {
        const reading = of(source, fence, users);
        if (reading !== null) found.set(source.uri, await reading);
      }
      return found;
    },
    forget: () => fresh.clear(),
  };
}

/** A name that stands in a text may be no more than a word of it: then a file too many is read. */
function filesNamed({ parsed }: Source, users: readonly Source[]): readonly ResponseFile[] {
  if (parsed.kind !== 'gear' || !/\bresponses?:/.test(parsed.text)) return [];
  return [...readGearFile(parsed).models].flatMap(([id, { gear }]) => {
    const files = gear?.responseFiles ?? [];
    const isUsed = (user: Source) => user.parsed === parsed || user.parsed.text.includes(id);
    return 0 < files.length && users.some(isUsed) ? files : [];
  });
}

interface One {
  readonly response: GearResponse | null;
  readonly faults: readonly ResponseFault[];
}

async function readOne(
  files: Files,
  gearUri: string,
  fence: string,
  { file, path, of }: ResponseFile,
): Promise<One> {
  const uri = join(folderOf(gearUri), file);
  const fault = (
    message: string,
    severity: ResponseFault['severity'] = 'error',
  ): ResponseFault => ({
    path,
    isMissing: false,
    severity,
    message,
  });
  if (!isBelow(uri, fence))
    return none(fault(`\`${file}\` lies outside the facility's folder: it is not read`));
  const exists = files.exists(uri, fence);
  const text = exists === false ? null : await files.read(uri);
  if (text === null && exists !== true)
    return none({ ...fault(`There is no file \`${file}\``), isMissing: true });
  if (text === null) return none(fault(`\`${file}\` cannot be read, or is too large`));
  // Loaded with the first file: few rooms have one.
  const { readResponse } = await import('./measure/readResponse.ts');
  const { gearResponse } = await import('../core/measure/gearResponse.ts');
  const { data, faults } = readResponse(text);
  const told = faults.slice(0, MOST_FAULTS).map(({ line, message, severity }) => {
    const where = line === null ? '' : `, line ${line}`;
    return fault(`\`${file}\`${where}: ${message}`, severity);
  });
  if (data === null) return { response: null, faults: told };
  const meaning: ResponseMeaning = of.kind === 'control' ? 'change' : 'natural';
  const read = gearResponse(data, meaning);
  if (read === null)
    return none(...told, fault(`\`${file}\` covers less than an octave of the low end`));
  return {
    response: read.response,
    faults: [...told, ...doubts(read, file, of).map((message) => fault(message, 'warning'))],
  };
}

function none(...faults: readonly ResponseFault[]): One {
  return { response: null, faults };
}

/** What can be read and is hardly meant. */
function doubts(
  { response, excessDelay_s }: GearResponseReading,
  file: string,
  { kind }: ResponseFile['of'],
): readonly string[] {
  const late_ms = 1000 * (excessDelay_s ?? 0);
  const [from_hz, to_hz] = response.known_hz;
  const end = kind === 'low_end' ? response.low : response.high;
  return [
    ...(1000 * MOST_DELAY_S < Math.abs(late_ms)
      ? [
          `\`${file}\`: its phase falls as by a delay of ${late_ms.toFixed(1)} ms; time of flight to the microphone does not belong in it`,
        ]
      : []),
    ...(kind !== 'control' && end === null
      ? [
          `\`${file}\` is nowhere 6 dB down at its ${kind === 'low_end' ? 'lower' : 'upper'} end: its ${kind === 'low_end' ? `lowest frequency, ${from_hz} Hz, is taken` : `last frequency, ${to_hz} Hz, is not taken for one`}`,
        ]
      : []),
  ];
}
