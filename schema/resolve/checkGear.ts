// A gear file on its own: what is wrong with its models, and which words in it refer to what.

import type { Range } from '../model/located.ts';
import type { ParsedFile } from '../model/parsedFile.ts';
import type { Path } from '../model/path.ts';
import type { Problem } from '../model/problem.ts';
import type { NamedFile, Reference } from '../model/resolved.ts';
import { withinCount } from '../parse/limits.ts';
import { type Word, wordsOfArrow } from './arrow.ts';
import { controlPlaces } from './gearControls.ts';
import { readGearFile } from './gearLibrary.ts';
import { hasDriver, portsOf } from './gearModel.ts';
import { below, entriesOf, itemsOf, type NamedPlace, type Place, scalarOf } from './place.ts';
import { unknownName } from './unknownName.ts';

export interface Checked {
  readonly problems: readonly Problem[];
  readonly references: readonly Reference[];
}

/**
 * @param gear a parsed gear file; its own problems are not repeated
 * @param others the facility's other gear files: an id that one of them has already is told here
 */
export function checkGear(gear: ParsedFile, others: readonly NamedFile[] = []): Checked {
  const { models, reading } = readGearFile(gear);
  const problems: Problem[] = [...reading.problems];
  const references: Reference[] = [...reading.references];
  for (const { place, gear: model } of models.values()) {
    problems.push(...doubleModel(place, gear, others));
    references.push(...pathReferences(place, gear.text));
    if (model === null) continue;
    const { inputs, outputs } = portsOf(place, model.kind);
    if (inputs === null && outputs === null) continue;
    const known = [
      ...(inputs ?? []),
      ...(outputs ?? []),
      ...(hasDriver(model.kind) ? ['driver'] : []),
    ];
    problems.push(...unknownLatencyPorts(place, known));
  }
  return {
    problems: withinCount(problems).toSorted((a, b) => a.range.start - b.range.start),
    references: references.toSorted((a, b) => a.range.start - b.range.start),
  };
}

function doubleModel(
  place: NamedPlace,
  gear: ParsedFile,
  others: readonly NamedFile[],
): readonly Problem[] {
  const other = others.find(
    ({ parsed }) => parsed !== gear && readGearFile(parsed).models.has(place.name),
  );
  if (other === undefined) return [];
  const message = `Another gear file has a model \`${place.name}\` too; which of them a room means cannot be told`;
  const related = { file: other.file, path: ['models', place.name], message: 'the other one' };
  return [
    problemAt(
      place.path,
      place.key,
      { code: 'reference/model-twice', message, fixes: [] },
      related,
    ),
  ];
}

function unknownLatencyPorts(model: NamedPlace, known: readonly string[]): readonly Problem[] {
  return entriesOf(below(model, 'latency'))
    .filter(({ name }) => !known.includes(name))
    .map(({ name, key, path }) => {
      const told = unknownName({
        code: 'reference/port',
        lead: `\`${model.name}\` has no port called`,
        name,
        range: key,
        known,
        plural: 'ports',
      });
      return problemAt(path, key, { ...told, fixes: told.fixes ?? [] });
    });
}

function problemAt(
  path: Path,
  range: Range,
  told: Pick<Problem, 'code' | 'message' | 'fixes'>,
  related?: NonNullable<Problem['related']>[number],
): Problem {
  const problem: Problem = { ...told, severity: 'error', path, range };
  return related === undefined ? problem : { ...problem, related: [related] };
}

/** Ports, buses and stages in a model's paths, with where the model names them. */
function pathReferences(model: NamedPlace, text: string): readonly Reference[] {
  const ports = new Map<string, Path>();
  for (const side of ['inputs', 'outputs'])
    for (const item of itemsOf(below(model, side)))
      ports.set(scalarOf(item)?.text ?? '', item.path);
  for (const { name, path } of entriesOf(below(model, 'buses'))) ports.set(name, path);
  const controls = controlsByStage(below(model, 'controls'));
  return itemsOf(below(model, 'paths')).flatMap((item) => {
    const scalar = scalarOf(item);
    const words = scalar === null ? [] : wordsOfArrow(scalar, text, 'path');
    return words.flatMap((word, index) => {
      const isEnd = index === 0 || index === words.length - 1;
      return isEnd
        ? reference('port', word, item.path, ports.get(word.text))
        : reference('control', word, item.path, controls.get(word.text));
    });
  });
}

function controlsByStage(controls: Place): ReadonlyMap<string, Path> {
  const stages = new Map<string, Path>();
  for (const control of controlPlaces(controls)) {
    for (const stage of itemsOf(below(control, 'sets')))
      stages.set(scalarOf(stage)?.text ?? '', control.path);
    stages.set(control.name, control.path);
  }
  return stages;
}

function reference(
  kind: 'port' | 'control',
  { text, range }: Word,
  path: Path,
  target: Path | undefined,
): readonly Reference[] {
  return target === undefined
    ? []
    : [{ kind, id: text, range, path, target: { file: null, path: target } }];
}
