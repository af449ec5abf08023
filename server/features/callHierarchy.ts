// Call hierarchy: the signal's way as callers and callees: what feeds a thing or a port, and what it feeds.

import {
  type CallHierarchyIncomingCall,
  type CallHierarchyItem,
  type CallHierarchyOutgoingCall,
  type Range as LspRange,
  SymbolKind,
} from 'vscode-languageserver';
import type { Analysis } from '../analysis.ts';
import { toRange } from '../lsp/convert.ts';
import { nameAt } from '../names.ts';
import { pathAt } from '../pathAt.ts';
import { nameRange, placeOf } from '../places.ts';
import { pathOfThing } from '../things.ts';
import { type SignalNode, type SignalStep, signalSteps } from './signalSteps.ts';

/** The thing whose name is under the cursor, or the port at an end of an arrow of `wiring`. */
export function prepareCallHierarchy(analysis: Analysis, offset: number): CallHierarchyItem[] {
  const node = portUnder(analysis, offset) ?? thingUnder(analysis, offset);
  const item = node && itemOf(analysis, node);
  return item ? [item] : [];
}

/** What feeds it: for an output also the inputs whose signal leaves there. */
export function incomingCalls(analysis: Analysis, data: unknown): CallHierarchyIncomingCall[] {
  return neighbours(analysis, data, 'to').map(([from, fromRanges]) => ({ from, fromRanges }));
}

/** What it feeds: for an input also the outputs by which its signal leaves, or the driver. */
export function outgoingCalls(analysis: Analysis, data: unknown): CallHierarchyOutgoingCall[] {
  return neighbours(analysis, data, 'from').map(([to, fromRanges]) => ({ to, fromRanges }));
}

/** Each neighbour once, with every arrow by which it is met; `end` is the end at which the node itself stands. */
function neighbours(
  analysis: Analysis,
  data: unknown,
  end: 'from' | 'to',
): readonly (readonly [CallHierarchyItem, LspRange[]])[] {
  const node = nodeOf(data);
  if (node === null || analysis.setup === null) return [];
  const found = new Map<string, [CallHierarchyItem, LspRange[]]>();
  for (const step of signalSteps(analysis.setup, node.port === null)) {
    if (nameOf(step[end]) !== nameOf(node)) continue;
    const other = step[end === 'to' ? 'from' : 'to'];
    const known = found.get(nameOf(other));
    const item = known?.[0] ?? itemOf(analysis, other);
    if (item === null) continue;
    found.set(nameOf(other), [item, [...(known?.[1] ?? []), ...wireRange(analysis, step)]]);
  }
  return [...found.values()];
}

function wireRange({ source }: Analysis, { connection }: SignalStep): LspRange[] {
  const range = placeOf(source.parsed, ['wiring', String(connection)])?.range;
  return range ? [toRange(source.text, range)] : [];
}

function thingUnder(analysis: Analysis, offset: number): SignalNode | null {
  const [section, id] = nameAt(analysis, offset)?.named.path ?? [];
  const isThing = section === 'speakers' || section === 'subwoofers' || section === 'devices';
  return isThing && id !== undefined ? { id, port: null } : null;
}

/** In `- desk.main_left -> sub.in_left` the ports; a device's own name stands for all of it. */
function portUnder({ source, setup }: Analysis, offset: number): SignalNode | null {
  const path = pathAt(source.parsed, offset);
  if (setup === null || path?.[0] !== 'wiring' || path[1] === undefined) return null;
  const wire = setup.room.wiring.find(({ index }) => String(index) === path[1]);
  const range = placeOf(source.parsed, path.slice(0, 2))?.range;
  if (wire === undefined || range === undefined) return null;
  const text = source.parsed.text.slice(range.start, range.end);
  const arrow = text.indexOf('->');
  const end = offset - range.start <= arrow ? wire.from : wire.to;
  const start = range.start + text.indexOf(`${end.device}.`, end === wire.to ? arrow : 0);
  return offset <= start + end.device.length ? null : { id: end.device, port: end.port };
}

function itemOf({ source, setup }: Analysis, node: SignalNode): CallHierarchyItem | null {
  const path = setup && pathOfThing(setup, node.id);
  const whole = path && placeOf(source.parsed, path)?.range;
  const name = path && nameRange(source.parsed, path);
  if (!setup || !whole || !name) return null;
  const { speakers, subwoofers, devices } = setup.room;
  const thing = [...speakers, ...subwoofers, ...devices].find(({ id }) => id === node.id);
  const port = node.port;
  const isOutput =
    port !== null && (thing?.gear?.outputs.includes(port.split('.')[0] ?? '') ?? false);
  return {
    name: nameOf(node),
    detail: port === null ? (thing?.gearId ?? '') : isOutput ? 'output' : 'input',
    kind: port === null ? SymbolKind.Object : SymbolKind.Interface,
    uri: source.uri,
    range: toRange(source.text, whole),
    selectionRange: toRange(source.text, name),
    data: node,
  };
}

function nameOf({ id, port }: SignalNode): string {
  return port === null ? id : `${id}.${port}`;
}

/** What an item carries from one request to the next comes back from the client: it is looked at before it is used. */
function nodeOf(data: unknown): SignalNode | null {
  if (typeof data !== 'object' || data === null) return null;
  const { id, port } = data as Partial<Record<'id' | 'port', unknown>>;
  if (typeof id !== 'string' || (port !== null && typeof port !== 'string')) return null;
  return { id, port };
}
