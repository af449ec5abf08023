// The gear library: every model of every gear file by its id, each resolved once per version of its file.

import type { Gear, GearKind } from '../model/gear.ts';
import type { ParsedFile } from '../model/parsedFile.ts';
import type { Path } from '../model/path.ts';
import type { NamedFile } from '../model/resolved.ts';
import { controlPlaces } from './gearControls.ts';
import { portsOf, readModel } from './gearModel.ts';
import { withResponses } from './gearResponses.ts';
import { below, entriesOf, itemsOf, type NamedPlace, rootPlace, scalarOf } from './place.ts';
import { type Reading, startReading } from './reading.ts';

export type Side = 'input' | 'output' | 'either';

/** What a gear file has to say about one model, ready to be looked up. */
export interface ModelReading {
  readonly place: NamedPlace;
  /** null where the model is too damaged to be used. */
  readonly gear: Gear | null;
  /** Which way each port faces; null where the model says nothing of ports. */
  readonly ports: ReadonlyMap<string, Side> | null;
  /** Where each port and each control stands in the file. */
  readonly portPaths: ReadonlyMap<string, Path>;
  readonly controlPaths: ReadonlyMap<string, Path>;
}

export interface Model extends ModelReading {
  readonly id: string;
  readonly file: string;
}

/** What one gear file yields: its models and what was wrong with them. */
export interface GearFileReading {
  readonly models: ReadonlyMap<string, ModelReading>;
  readonly reading: Reading;
}

export type GearLibrary = ReadonlyMap<string, Model>;

// A gear file changes far more rarely than the rooms that use it. The key is the parsed file itself, which is never
// changed in place, so an entry can neither grow stale nor outlive its file.
const readings = new WeakMap<ParsedFile, GearFileReading>();

export function readGearFile(file: ParsedFile): GearFileReading {
  const known = readings.get(file);
  if (known !== undefined) return known;
  const reading = startReading(file, null);
  const models = new Map<string, ModelReading>();
  for (const place of entriesOf(below(rootPlace(file.root), 'models')))
    models.set(place.name, readOne(reading, place));
  const read = { models, reading };
  readings.set(file, read);
  return read;
}

/** Where two files have a model of the same id, the first one counts; `checkGear` tells the second. */
export function gearLibrary(files: readonly NamedFile[]): GearLibrary {
  const library = new Map<string, Model>();
  for (const { file, parsed, responses } of files)
    for (const [id, model] of readGearFile(parsed).models)
      if (!library.has(id))
        library.set(id, { id, file, ...model, gear: withResponses(model.gear, responses) });
  return library;
}

function readOne(reading: Reading, place: NamedPlace): ModelReading {
  const gear = readModel(reading, place);
  return {
    place,
    gear,
    ports: gear === null ? null : portSides(place, gear.kind),
    portPaths: new Map(
      ['inputs', 'outputs'].flatMap((side) =>
        itemsOf(below(place, side)).map((item) => [scalarOf(item)?.text ?? '', item.path] as const),
      ),
    ),
    controlPaths: new Map(
      controlPlaces(below(place, 'controls')).map(({ name, path }) => [name, path] as const),
    ),
  };
}

function portSides(place: NamedPlace, kind: GearKind): ReadonlyMap<string, Side> | null {
  const { inputs, outputs } = portsOf(place, kind);
  if (inputs === null || outputs === null) return null;
  const sides = new Map<string, Side>(inputs.map((port) => [port, 'input']));
  for (const port of outputs) sides.set(port, sides.has(port) ? 'either' : 'output');
  return sides;
}

/** Where a model's port is named in its file; null for `driver`, which is nowhere named. */
export function portTarget({ file, portPaths }: Model, port: string): Target | null {
  const path = portPaths.get(port);
  return path === undefined ? null : { file, path };
}

/** Where a model's control is described in its file. */
export function controlTarget({ file, controlPaths }: Model, control: string): Target | null {
  const path = controlPaths.get(control);
  return path === undefined ? null : { file, path };
}

interface Target {
  readonly file: string;
  readonly path: Path;
}
