// The ends of an arrow under the cursor: `desk.main_left -> sub.in_left` in wiring, stage after stage in a gear's paths.

import { CompletionItemKind } from 'vscode-languageserver';
import { STAGES } from '../../../schema/model/gear.ts';
import type { Path } from '../../../schema/model/path.ts';
import type { Analysis, Source } from '../../analysis.ts';
import { gearOf, thingsOf } from '../../gearOf.ts';
import { entriesOf, placeOf } from '../../places.ts';
import { type Item, valueItem } from './item.ts';

/** @param typed the whole arrow before the cursor; every item keeps what stands before its own end */
export function arrowItems(
  analysis: Analysis,
  path: Path,
  kind: 'wire' | 'path',
  typed: string,
): readonly Item[] {
  const arrow = typed.lastIndexOf('->');
  const fixed = arrow === -1 ? '' : `${typed.slice(0, arrow).trimEnd()} -> `;
  const ends =
    kind === 'wire' ? portsToWire(analysis, arrow !== -1) : stages(analysis.source, path);
  const rest = typed.slice(arrow === -1 ? 0 : arrow + 2).trim();
  if (arrow === -1 && kind === 'wire' && ends.includes(rest))
    return [
      valueItem('->', CompletionItemKind.Operator, {
        text: `${rest} -> `,
        filter: typed,
        asksAgain: true,
      }),
    ];
  return ends.map((end) =>
    valueItem(end, CompletionItemKind.Field, {
      text: fixed + end,
      filter: fixed === '' ? end : `${typed.slice(0, arrow + 2)} ${end}`,
    }),
  );
}

/** Outputs on the left of the arrow, inputs on its right, of everything whose gear is known. */
function portsToWire(analysis: Analysis, isTarget: boolean): readonly string[] {
  return thingsOf(analysis.source).flatMap(({ id }) => {
    const gear = gearOf(analysis, id);
    if (gear === null) return [];
    const side = isTarget ? 'inputs' : 'outputs';
    const ports = placeOf(gear.source.parsed, ['models', gear.model, side])?.value;
    if (ports?.kind !== 'list') return [];
    return ports.items.flatMap((port) => (port?.kind === 'scalar' ? [`${id}.${port.text}`] : []));
  });
}

/** What a path of a gear model may go through: its ports, buses and switches, the fixed stages, and `driver`. */
function stages({ parsed }: Source, path: Path): readonly string[] {
  const model = path.slice(0, 2);
  const names = ['inputs', 'outputs'].flatMap((side) => {
    const list = placeOf(parsed, [...model, side])?.value;
    return list?.kind === 'list'
      ? list.items.flatMap((item) => (item?.kind === 'scalar' ? [item.text] : []))
      : [];
  });
  const own = ['buses', 'controls'].flatMap((section) =>
    entriesOf(placeOf(parsed, [...model, section])?.value).map(({ key }) => key),
  );
  const known = [...names, ...own, ...STAGES, 'driver'];
  return [...new Set(known)].filter((name) => !NO_STAGES.has(name));
}

/** Controls that are no stage of their own. */
const NO_STAGES: ReadonlySet<string> = new Set(['crossover', 'each_port', 'standby']);
