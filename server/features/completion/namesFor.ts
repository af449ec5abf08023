// The names that something may refer to at a place: gear, items, seats, ports, walls, materials, layouts, channels …

import { CompletionItemKind } from 'vscode-languageserver';
import { MATERIALS } from '../../../core/acoustics/materials.ts';
import { knownChannels } from '../../../core/layouts/channelNames.ts';
import { ITU_2051_LAYOUTS } from '../../../core/layouts/itu2051.ts';
import { RULES } from '../../../core/rules/index.ts';
import type { Path } from '../../../schema/model/path.ts';
import type { Analysis, Source } from '../../analysis.ts';
import { baseName } from '../../files/uri.ts';
import { gearOf, thingsOf } from '../../gearOf.ts';
import { entriesOf, placeOf } from '../../places.ts';
import { type Item, valueItem } from './item.ts';

/** @param path of the value or of the map whose keys refer */
export function namesFor(kind: string, analysis: Analysis, path: Path): readonly Item[] {
  const { source } = analysis;
  switch (kind) {
    case 'gear':
      return gearModels(analysis, path);
    case 'item':
      return keysAt(analysis.surroundings.facility, ['items'], 'gear');
    case 'policy':
      return keysAt(analysis.surroundings.facility, ['policies'], null);
    case 'seat':
      return keysAt(source, ['seats'], 'role');
    case 'speaker':
      return keysAt(source, ['speakers'], 'channel');
    case 'subwoofer':
      return keysAt(source, ['subwoofers'], 'gear');
    case 'source':
      return [
        ...keysAt(source, ['speakers'], 'channel'),
        ...keysAt(source, ['subwoofers'], 'gear'),
      ];
    case 'gear_user':
      return thingsOf(source).map(({ id, section }) =>
        valueItem(id, CompletionItemKind.Variable, { detail: section }),
      );
    case 'set':
      return keysAt(source, ['sets'], 'layout');
    case 'fixture':
      return keysAt(source, ['space', 'fixtures'], 'kind');
    case 'take':
      return keysAt(source, [...path.slice(0, 2), 'takes'], 'file');
    case 'wall':
      return words(walls(source), 'wall');
    case 'surface':
      return words([...walls(source), 'floor', 'ceiling'], 'surface');
    case 'port':
      return ports(analysis, path);
    case 'control':
      return controls(analysis, path);
    case 'material':
      return [...MATERIALS.keys()].map((name) =>
        valueItem(name, CompletionItemKind.EnumMember, { detail: 'material' }),
      );
    case 'layout':
      return ITU_2051_LAYOUTS.map(({ name }) =>
        valueItem(name, CompletionItemKind.EnumMember, { detail: 'ITU-R BS.2051' }),
      );
    case 'channel':
      return words(knownChannels(ITU_2051_LAYOUTS), 'channel');
    case 'finding':
      return RULES.map(({ code, title }) =>
        valueItem(code, CompletionItemKind.EnumMember, { detail: title }),
      );
    case 'path':
      return thingsOf(source).map(({ id, section }) =>
        valueItem(`${section}.${id}`, CompletionItemKind.Reference),
      );
    default:
      return [];
  }
}

/** Loudspeakers for speakers, subwoofers for subwoofers, the rest for devices: first, not only. */
function gearModels({ surroundings }: Analysis, path: Path): readonly Item[] {
  const wanted =
    path[0] === 'speakers' ? ['loudspeaker'] : path[0] === 'subwoofers' ? ['subwoofer'] : null;
  return surroundings.gear.flatMap((source) =>
    keysAt(source, ['models'], 'kind').map((item) => ({
      ...item,
      kind: CompletionItemKind.Class,
      rank: wanted === null || item.detail === null ? 1 : wanted.includes(item.detail) ? 0 : 2,
      documentation: baseName(source.uri),
    })),
  );
}

/** Names defined by the keys of a map, each with one of its facts beside it. */
function keysAt(source: Source | null, path: Path, fact: string | null): readonly Item[] {
  if (source === null) return [];
  return entriesOf(placeOf(source.parsed, path)?.value).map(({ key, value }) => {
    const told = value?.kind === 'map' && fact !== null ? value.entries.get(fact)?.value : null;
    const detail = told?.kind === 'scalar' ? told.text : null;
    return valueItem(key, CompletionItemKind.Variable, { detail });
  });
}

function walls({ parsed }: Source): readonly string[] {
  const plan = entriesOf(placeOf(parsed, ['space', 'plan'])?.value).map(({ key }) => key);
  return plan.length === 0 ? ['front', 'right', 'back', 'left'] : plan;
}

function ports(analysis: Analysis, path: Path): readonly Item[] {
  const own = path[0] === 'models' && path[1] !== undefined ? path[1] : null;
  const gear =
    own === null ? gearOf(analysis, path[1] ?? '') : { source: analysis.source, model: own };
  if (gear === null) return [];
  return ['inputs', 'outputs']
    .flatMap((side) => listAt(gear.source, ['models', gear.model, side]))
    .concat(placeOf(gear.source.parsed, ['models', gear.model, 'low_end']) ? ['driver'] : [])
    .map((name) => valueItem(name, CompletionItemKind.Field, { detail: `port of ${gear.model}` }));
}

function controls(analysis: Analysis, path: Path): readonly Item[] {
  const gear = gearOf(analysis, path[1] ?? '');
  return gear === null ? [] : keysAt(gear.source, ['models', gear.model, 'controls'], null);
}

function listAt({ parsed }: Source, path: Path): readonly string[] {
  const list = placeOf(parsed, path)?.value;
  if (list?.kind !== 'list') return [];
  return list.items.flatMap((item) => (item?.kind === 'scalar' ? [item.text] : []));
}

function words(names: readonly string[], detail: string): readonly Item[] {
  return names.map((name) => valueItem(name, CompletionItemKind.EnumMember, { detail }));
}
