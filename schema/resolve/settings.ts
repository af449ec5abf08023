// Settings: what is dialled in on each thing, matched against the controls that its gear has.

import type { Control } from '../model/gear.ts';
import type { DeviceSettings, SettingValue } from '../model/room.ts';
import { controlTarget } from './gearLibrary.ts';
import {
  below,
  entriesOf,
  itemsOf,
  type NamedPlace,
  type Place,
  scalarOf,
  textOf,
} from './place.ts';
import { referAnyPort } from './ports.ts';
import { isFaulty, type Reading, refer, tell, tellAt } from './reading.ts';
import { referByKey } from './referTo.ts';
import type { Scope } from './scope.ts';
import { readSetting } from './settingValue.ts';
import { siOf } from './si.ts';
import { listed, unknownName } from './unknownName.ts';
import type { User } from './users.ts';
import { si } from './values.ts';

/** Where a setting stands: for the whole device, for one port, for one set. */
interface Under {
  readonly port: string | null;
  readonly set: string | null;
}

export function readSettings(
  reading: Reading,
  place: Place,
  scope: Scope,
): readonly DeviceSettings[] {
  const all: DeviceSettings[] = [];
  for (const entry of entriesOf(place)) {
    const isKnown = referByKey(reading, entry, scope.userNames.any);
    const user = scope.users.get(entry.name);
    // Of a thing that is not there nothing more is told.
    if (!isKnown || user === undefined) continue;
    const sampleRate_hz = sampleRate(reading, below(entry, 'sample_rate'), user);
    const values = readUnder(reading, entry, { port: null, set: null }, scope, user, sampleRate_hz);
    all.push({ device: entry.name, sampleRate_hz, values });
  }
  return all;
}

function readUnder(
  reading: Reading,
  place: Place,
  under: Under,
  scope: Scope,
  user: User,
  rate_hz: number | null,
): readonly SettingValue[] {
  const values: SettingValue[] = [];
  for (const entry of entriesOf(place)) {
    if (entry.name === 'sample_rate' && under.port === null) continue;
    if (entry.name === 'ports' && under.port === null) {
      for (const port of entriesOf(entry)) {
        const word = { text: port.name, range: port.key };
        if (!referAnyPort(reading, port, user, word)) continue;
        const inner = { ...under, port: port.name };
        values.push(...readUnder(reading, port, inner, scope, user, rate_hz));
      }
    } else if (entry.name === 'sets' && under.port === null && under.set === null) {
      for (const set of entriesOf(entry)) {
        const isKnown = referByKey(reading, set, setNames(scope));
        const inner = { ...under, set: set.name };
        if (isKnown) values.push(...readUnder(reading, set, inner, scope, user, rate_hz));
      }
    } else {
      const value = readOne(reading, entry, under, user, rate_hz);
      const { port, set } = under;
      if (value !== null)
        values.push({ control: entry.name, port, set, path: entry.path, ...value });
    }
  }
  return values;
}

function setNames({ sets }: Scope) {
  return {
    code: 'reference/set',
    kind: 'set',
    lead: 'No set is called',
    plural: 'sets',
    known: sets,
  } as const;
}

function readOne(
  reading: Reading,
  entry: NamedPlace,
  under: Under,
  user: User,
  rate_hz: number | null,
) {
  const known = knownControls(user);
  if (user.model === null || known === null) return readSetting(reading, entry, null, rate_hz);
  const { name, key } = entry;
  refer(
    reading,
    'control',
    { id: name, range: key, path: entry.path },
    controlTarget(user.model, name),
  );
  const named = known.filter((control) => control.name === name);
  if (named.length === 0) {
    // A key that is no switch's has been told by the parse where it holds more than a switch can.
    if (!isFaulty(reading, entry.path)) tellUnknownControl(reading, entry, user, known);
    return null;
  }
  const control = named.find(({ eachPort }) => eachPort === (under.port !== null)) ?? null;
  if (control === null) {
    tellWrongLevel(reading, entry, user, under);
    return null;
  }
  return readSetting(reading, entry, control, rate_hz);
}

/** null where the gear is unknown, or says nothing of its controls. */
function knownControls(user: User): readonly Control[] | null {
  const model = user.model;
  if (model === null || model.gear === null) return null;
  return below(model.place, 'controls').key === null ? null : model.gear.controls;
}

function tellUnknownControl(
  reading: Reading,
  entry: NamedPlace,
  user: User,
  known: readonly Control[],
): void {
  tellAt(reading, entry.path, entry.key, () =>
    unknownName({
      code: 'reference/control',
      lead: `\`${user.id}\` (${user.gearId ?? ''}) has no control called`,
      name: entry.name,
      range: entry.key,
      known: known.map(({ name }) => name),
      plural: 'controls',
    }),
  );
}

function tellWrongLevel(reading: Reading, entry: NamedPlace, user: User, under: Under): void {
  const gear = user.gearId ?? '';
  tellAt(reading, entry.path, entry.key, {
    code: 'reference/control-level',
    message:
      under.port === null
        ? `\`${gear}\` has its \`${entry.name}\` port by port: it stands under \`ports\``
        : `\`${gear}\` has one \`${entry.name}\` for all ports: it stands beside \`ports\``,
  });
}

function sampleRate(reading: Reading, place: Place, user: User): number | null {
  const model = user.model;
  const rate_hz = si(reading, place, 'frequency', 'optional');
  if (rate_hz === null || model === null) return rate_hz ?? model?.gear?.sampleRate_hz ?? null;
  const offered = itemsOf(below(model.place, 'sample_rates')).flatMap((item) => {
    const text = textOf(item);
    const value_hz = text === null ? null : (siOf(text, ['frequency'])?.value ?? null);
    return text === null || value_hz === null ? [] : [{ text, value_hz }];
  });
  const isOffered = offered.some(({ value_hz }) => Math.abs(value_hz - rate_hz) < 0.5);
  const scalar = scalarOf(place);
  if (offered.length !== 0 && !isOffered && scalar !== null && !isFaulty(reading, place.path)) {
    const texts = offered.map(({ text }) => text);
    tell(reading, place, {
      code: 'reference/choice',
      message: `\`${model.id}\` runs at ${listed(texts, 'or')}`,
      fixes: texts.map((text) => ({
        title: `Change \`${scalar.text}\` to \`${text}\``,
        edits: [{ range: scalar.range, text }],
        safe: false,
      })),
    });
  }
  return rate_hz;
}
