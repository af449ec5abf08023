// What the facility asks of a room, with the room's own targets laid over it.

import type { Severity } from '../model/problem.ts';
import type { Policy, Targets } from '../model/room.ts';
import { referLayout } from './channels.ts';
import { below, entriesOf, itemsOf, type NamedPlace, type Place, textOf } from './place.ts';
import { isFaulty, type Reading, refer, startReading, type Told, tellAt } from './reading.ts';
import type { Scope } from './scope.ts';
import type { SiDimension } from './si.ts';
import { siOf } from './si.ts';
import { referenceLevel } from './targets.ts';
import { unknownName } from './unknownName.ts';

/** A month of the mean Gregorian year, in which periods are told. */
const MONTH_S = 31_556_952 / 12;

const TOLERANCE_DIMENSIONS: Readonly<Record<string, SiDimension>> = {
  distance: 'length',
  height: 'length',
  symmetry: 'length',
  azimuth: 'angle',
  elevation: 'angle',
  arrival: 'time',
  pair_arrival: 'time',
  decay_time: 'ratio',
};

const SEVERITIES: readonly (Severity | 'off')[] = [
  'error',
  'warning',
  'information',
  'hint',
  'off',
];

export function readPolicy(reading: Reading, root: Place, targets: Targets, scope: Scope): Policy {
  const place = policyPlace(reading, below(root, 'policy'), scope);
  const own = below(root, 'targets');
  checkFindingCodes(reading, below(own, 'severity'), scope.context.findingCodes);
  if (place === null || scope.facility === null) {
    return {
      id: null,
      layouts: [],
      referenceLevel: targets.referenceLevel,
      recheck_months: null,
      tolerances: tolerances(below(own, 'tolerances')),
      severity: severities(below(own, 'severity')),
    };
  }
  const theirs = startReading(scope.facility.file.parsed, null);
  return {
    id: place.name,
    layouts: readLayouts(theirs, place, scope),
    referenceLevel:
      targets.referenceLevel ?? referenceLevel(theirs, below(place, 'reference_level'), 'optional'),
    recheck_months: months(below(place, 'recheck')),
    tolerances: {
      ...tolerances(below(place, 'tolerances')),
      ...tolerances(below(own, 'tolerances')),
    },
    severity: { ...severities(below(place, 'severity')), ...severities(below(own, 'severity')) },
  };
}

/** A period in months; null where there is none. */
export function months(place: Place): number | null {
  const text = textOf(place);
  const period_s = text === null ? null : (siOf(text, ['period'])?.value ?? null);
  return period_s === null ? null : period_s / MONTH_S;
}

/** Codes of findings that are keys; what is no code is told where the codes are known. */
export function checkFindingCodes(
  reading: Reading,
  place: Place,
  known: readonly string[] | undefined,
): void {
  for (const entry of entriesOf(place)) {
    refer(reading, 'finding', { id: entry.name, range: entry.key, path: entry.path }, null);
    if (known === undefined || known.includes(entry.name)) continue;
    tellAt(reading, entry.path, entry.key, () => unknownFinding(entry.name, entry.key, known));
  }
}

export function unknownFinding(
  name: string,
  range: NamedPlace['key'],
  known: readonly string[],
): Told {
  return unknownName({
    code: 'reference/finding',
    lead: 'No finding has the code',
    name,
    range,
    known,
    plural: 'findings',
  });
}

function policyPlace(reading: Reading, place: Place, scope: Scope): NamedPlace | null {
  const id = isFaulty(reading, place.path) ? null : textOf(place);
  const range = place.value?.range;
  if (id === null || range === undefined) return null;
  const policies = scope.facility === null ? [] : entriesOf(below(scope.facility.root, 'policies'));
  const found = policies.find(({ name }) => name === id) ?? null;
  const target =
    found === null || scope.facility === null
      ? null
      : { file: scope.facility.file.file, path: found.path };
  refer(reading, 'policy', { id, range, path: place.path }, target);
  if (found !== null) return found;
  const told =
    scope.facility === null
      ? {
          code: 'reference/policy',
          message: `\`${id}\` cannot be looked up: no facility.yaml was found above this room`,
        }
      : () =>
          unknownName({
            code: 'reference/policy',
            lead: 'The facility has no policy called',
            name: id,
            range,
            known: policies.map(({ name }) => name),
            plural: 'policies',
          });
  tellAt(reading, place.path, range, told);
  return null;
}

function readLayouts(theirs: Reading, place: Place, scope: Scope): readonly string[] {
  return itemsOf(below(place, 'layouts'))
    .map((item) => referLayout(theirs, item, scope.context, 'optional'))
    .filter((layout) => layout !== null);
}

function tolerances(place: Place): Readonly<Record<string, number>> {
  const read: Record<string, number> = {};
  for (const entry of entriesOf(place)) {
    const text = textOf(entry);
    const dimension = TOLERANCE_DIMENSIONS[entry.name] ?? 'gain';
    const value = text === null ? null : siOf(text, [dimension]);
    if (value !== null) read[entry.name] = value.value;
  }
  return read;
}

function severities(place: Place): Readonly<Record<string, Severity | 'off'>> {
  const read: Record<string, Severity | 'off'> = {};
  for (const entry of entriesOf(place)) {
    const severity = SEVERITIES.find((candidate) => candidate === textOf(entry));
    if (severity !== undefined) read[entry.name] = severity;
  }
  return read;
}
