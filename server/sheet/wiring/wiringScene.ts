// Places for the wiring's drawing: a box a device with its wired ports, a curve a wire.

import type { Path } from '../../../schema/model/path.ts';
import type { Room } from '../../../schema/model/room.ts';
import { textWidth } from '../plan/labels.ts';
import { layersOf, type Slot } from './layers.ts';

export interface NodeBox {
  readonly id: string;
  readonly kind: 'device' | 'subwoofer' | 'speaker';
  readonly path: Path;
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
  readonly inputs: readonly Port[];
  readonly outputs: readonly Port[];
}

export interface Port {
  readonly name: string;
  readonly y: number;
}

export interface Wire {
  /** The wire's place in the file's list. */
  readonly index: number;
  readonly label: string;
  readonly points: readonly { readonly x: number; readonly y: number }[];
}

export interface WiringScene {
  readonly width: number;
  readonly height: number;
  readonly nodes: readonly NodeBox[];
  readonly wires: readonly Wire[];
}

const PORT_PX = 15;
const HEAD_PX = 21;
const GAP_PX = 12;
const COLUMN_GAP_PX = 64;
const EDGE_PX = 6;
const PORT_SIZE = 9.5;
const NAME_SIZE = 12;

export function wiringScene(room: Room): WiringScene {
  const ids = [...new Set(room.wiring.flatMap(({ from, to }) => [from.device, to.device]))];
  const { layers, routes } = layersOf(
    ids,
    room.wiring.map(({ from, to }) => ({ from: from.device, to: to.device })),
  );
  const sizes = new Map(ids.map((id) => [id, sizeOf(room, id)]));
  const heights = layers.map((layer) => layerHeight(layer, sizes));
  const height = Math.max(0, ...heights);
  const nodes: NodeBox[] = [];
  const passing = new Map<string, { readonly x: number; readonly y: number }>();
  let x = EDGE_PX;
  for (const [index, layer] of layers.entries()) {
    const width = Math.max(0, ...layer.map(({ id }) => sizes.get(id ?? '')?.width ?? 0));
    let y = EDGE_PX + (height - (heights[index] ?? 0)) / 2;
    for (const slot of layer) {
      const size = slot.id === null ? undefined : sizes.get(slot.id);
      if (slot.id === null || size === undefined) {
        passing.set(slot.key, { x: x + width / 2, y: y + GAP_PX / 2 });
        y += GAP_PX;
        continue;
      }
      nodes.push(nodeAt(room, slot.id, { x, y, width, height: size.height }));
      y += size.height + GAP_PX;
    }
    x += width + COLUMN_GAP_PX;
  }
  const boxes = new Map(nodes.map((node) => [node.id, node]));
  const wires = room.wiring.map(({ index, from, to }, wireIndex) => ({
    index,
    label: `${from.device}.${from.port} → ${to.device}.${to.port}`,
    points: [
      portPoint(boxes.get(from.device), from.port, 'outputs'),
      ...(routes[wireIndex] ?? []).flatMap((key) => passing.get(key) ?? []),
      portPoint(boxes.get(to.device), to.port, 'inputs'),
    ],
  }));
  return { width: x - COLUMN_GAP_PX + EDGE_PX, height: height + 2 * EDGE_PX, nodes, wires };
}

interface Size {
  readonly width: number;
  readonly height: number;
}

function portsOf(
  room: Room,
  id: string,
): { readonly inputs: string[]; readonly outputs: string[] } {
  const inputs = room.wiring.filter(({ to }) => to.device === id).map(({ to }) => to.port);
  const outputs = room.wiring.filter(({ from }) => from.device === id).map(({ from }) => from.port);
  return { inputs: [...new Set(inputs)], outputs: [...new Set(outputs)] };
}

function sizeOf(room: Room, id: string): Size {
  const { inputs, outputs } = portsOf(room, id);
  const rows = Math.max(inputs.length, outputs.length, 1);
  const widest = (names: readonly string[]): number =>
    Math.max(0, ...names.map((name) => textWidth(name, PORT_SIZE)));
  const ports = widest(inputs) + widest(outputs) + 26;
  return {
    width: Math.max(70, textWidth(id, NAME_SIZE) + 20, ports),
    height: HEAD_PX + rows * PORT_PX + 5,
  };
}

function layerHeight(layer: readonly Slot[], sizes: ReadonlyMap<string, Size>): number {
  const total = layer.reduce((sum, { id }) => {
    const size = id === null ? undefined : sizes.get(id);
    return sum + (size === undefined ? GAP_PX : size.height + GAP_PX);
  }, 0);
  return total - (layer.at(-1)?.id === null ? 0 : GAP_PX);
}

function nodeAt(
  room: Room,
  id: string,
  box: { readonly x: number; readonly y: number; readonly width: number; readonly height: number },
): NodeBox {
  const { inputs, outputs } = portsOf(room, id);
  const placed = (names: readonly string[]): readonly Port[] =>
    names.map((name, index) => ({
      name,
      y: box.y + HEAD_PX + (index + 0.5) * PORT_PX,
    }));
  const kind = kindOf(room, id);
  return {
    id,
    kind,
    path: [`${kind}s`, id],
    ...box,
    inputs: placed(inputs),
    outputs: placed(outputs),
  };
}

function kindOf(room: Room, id: string): NodeBox['kind'] {
  if (room.subwoofers.some((sub) => sub.id === id)) return 'subwoofer';
  return room.speakers.some((speaker) => speaker.id === id) ? 'speaker' : 'device';
}

function portPoint(
  node: NodeBox | undefined,
  port: string,
  side: 'inputs' | 'outputs',
): { readonly x: number; readonly y: number } {
  if (node === undefined) return { x: 0, y: 0 };
  const y = node[side].find(({ name }) => name === port)?.y ?? node.y + HEAD_PX;
  return { x: side === 'inputs' ? node.x : node.x + node.width, y };
}
