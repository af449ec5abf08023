// The paths inside a model: `in_left -> high_pass -> out_left` as port, stages and port, with wrong names told.

import { type GearPath, STAGES } from '../model/gear.ts';
import { type Word, wordsOfArrow } from './arrow.ts';
import type { Place } from './place.ts';
import { itemsOf, scalarOf } from './place.ts';
import { isFaulty, type Reading, tellAt } from './reading.ts';
import { unknownName } from './unknownName.ts';

/** What a path may name. `inputs` and `outputs` are null where the model does not say what it has. */
export interface PathNames {
  readonly inputs: readonly string[] | null;
  readonly outputs: readonly string[] | null;
  readonly buses: readonly string[];
  /** Names of the model's controls; null where it says nothing of controls. */
  readonly controls: readonly string[] | null;
  readonly hasDriver: boolean;
}

/** The paths that could be read whole; a path with a wrong word is told at that word and left out. */
export function readPaths(reading: Reading, place: Place, names: PathNames): readonly GearPath[] {
  const paths: GearPath[] = [];
  for (const item of itemsOf(place)) {
    const scalar = scalarOf(item);
    if (scalar === null || isFaulty(reading, item.path)) continue;
    const path = readPath(reading, item, wordsOfArrow(scalar, reading.file.text, 'path'), names);
    if (path !== null) paths.push(path);
  }
  return paths;
}

function readPath(
  reading: Reading,
  item: Place,
  words: readonly Word[],
  names: PathNames,
): GearPath | null {
  const first = words[0];
  const last = words.at(-1);
  if (first === undefined || last === undefined) return null;
  const stages = words.slice(1, -1);
  const startIsKnown = checkEnd(reading, item, first, 'start', names);
  const stagesAreKnown = stages.map((stage) => checkStage(reading, item, stage, names));
  const endIsKnown = checkEnd(reading, item, last, 'end', names);
  if (!startIsKnown || !endIsKnown || stagesAreKnown.includes(false)) return null;
  return { from: first.text, stages: stages.map(({ text }) => text), to: last.text };
}

function checkEnd(
  reading: Reading,
  item: Place,
  word: Word,
  end: 'start' | 'end',
  names: PathNames,
): boolean {
  const ports = end === 'start' ? names.inputs : names.outputs;
  const drivers = end === 'end' && names.hasDriver ? ['driver'] : [];
  const known = [...(ports ?? []), ...drivers, ...names.buses];
  if (known.includes(word.text)) return true;
  const other = (end === 'start' ? names.outputs : names.inputs) ?? [];
  if (other.includes(word.text)) {
    tellAt(reading, item.path, word.range, {
      code: 'reference/direction',
      message:
        end === 'start'
          ? `\`${word.text}\` is an output; a path starts at an input or a bus`
          : `\`${word.text}\` is an input; a path ends at an output, a bus or \`driver\``,
    });
    return false;
  }
  if (ports === null) return true;
  const lead = end === 'start' ? 'No input or bus is called' : 'No output or bus is called';
  tellAt(reading, item.path, word.range, () =>
    unknownName({
      code: 'reference/port',
      lead,
      name: word.text,
      range: word.range,
      known,
      plural: end === 'start' ? 'inputs and buses' : 'outputs and buses',
    }),
  );
  return false;
}

function checkStage(reading: Reading, item: Place, word: Word, names: PathNames): boolean {
  const { controls } = names;
  if (STAGES.some((stage) => stage === word.text) || controls === null) return true;
  if (controls.includes(word.text)) return true;
  tellAt(reading, item.path, word.range, () =>
    unknownName({
      code: 'reference/stage',
      lead: 'No stage is called',
      name: word.text,
      range: word.range,
      known: [...STAGES, ...controls],
      plural: 'stages',
    }),
  );
  return false;
}
