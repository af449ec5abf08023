// Lays the wiring out in layers, sources first: who feeds whom reads from left to right.
//
// The usual steps for layered drawings (Sugiyama, Tagawa, Toda 1981): layers by longest path, stand-ins where a wire
// passes a layer, a few sweeps of barycentres against crossings, then places. Rooms have tens of wires: clarity over speed.

export interface Link {
  readonly from: string;
  readonly to: string;
}

/** A node, or a stand-in (id null) through which a long wire passes its layer. */
export interface Slot {
  readonly key: string;
  readonly id: string | null;
}

export interface Layers {
  readonly layers: readonly (readonly Slot[])[];
  /** For each link, in order: the keys of the slots from its start to its end. Wires that run back keep their two ends. */
  readonly routes: readonly (readonly string[])[];
}

export function layersOf(nodes: readonly string[], links: readonly Link[]): Layers {
  const known = links.map((link) => ({ ...link, isBack: false }));
  const forward = withoutLoops(nodes, known);
  const depth = depths(nodes, forward);
  const slots = new Map<number, Slot[]>();
  const put = (layer: number, slot: Slot): void => {
    const list = slots.get(layer);
    if (list === undefined) slots.set(layer, [slot]);
    else list.push(slot);
  };
  for (const id of nodes) put(depth.get(id) ?? 0, { key: id, id });
  const routes = links.map((link, index) => {
    const start = depth.get(link.from) ?? 0;
    const end = depth.get(link.to) ?? 0;
    const passed = Array.from({ length: Math.max(0, end - start - 1) }, (_, step) => ({
      layer: start + 1 + step,
      key: `${index}>${start + 1 + step}`,
    }));
    for (const { layer, key } of passed) put(layer, { key, id: null });
    return [link.from, ...passed.map(({ key }) => key), link.to];
  });
  const count = Math.max(0, ...slots.keys()) + 1;
  const layers = Array.from({ length: count }, (_, layer) => slots.get(layer) ?? []);
  return { layers: untangled(layers, routes), routes };
}

/** Links that do not run back into what feeds them. */
function withoutLoops(nodes: readonly string[], links: readonly Link[]): readonly Link[] {
  const state = new Map<string, 'open' | 'done'>();
  const kept: Link[] = [];
  const outOf = (id: string): readonly Link[] => links.filter(({ from }) => from === id);
  for (const root of nodes) {
    if (state.has(root)) continue;
    const stack = [{ id: root, rest: [...outOf(root)] }];
    state.set(root, 'open');
    for (let top = stack.at(-1); top !== undefined; top = stack.at(-1)) {
      const link = top.rest.shift();
      if (link === undefined) {
        state.set(top.id, 'done');
        stack.pop();
        continue;
      }
      if (state.get(link.to) === 'open') continue;
      kept.push(link);
      if (!state.has(link.to)) {
        state.set(link.to, 'open');
        stack.push({ id: link.to, rest: [...outOf(link.to)] });
      }
    }
  }
  return kept;
}

/** Longest way from a source. */
function depths(nodes: readonly string[], links: readonly Link[]): ReadonlyMap<string, number> {
  const depth = new Map(nodes.map((id) => [id, 0]));
  for (let pass = 0; pass < nodes.length; pass += 1) {
    let changed = false;
    for (const { from, to } of links) {
      const wanted = (depth.get(from) ?? 0) + 1;
      if ((depth.get(to) ?? 0) < wanted) {
        depth.set(to, wanted);
        changed = true;
      }
    }
    if (!changed) break;
  }
  return depth;
}

const SWEEPS = 6;

function untangled(
  layers: readonly (readonly Slot[])[],
  routes: readonly (readonly string[])[],
): readonly (readonly Slot[])[] {
  const before = new Map<string, string[]>();
  const after = new Map<string, string[]>();
  for (const route of routes) {
    for (const [index, key] of route.entries()) {
      const next = route[index + 1];
      if (next === undefined) continue;
      after.set(key, [...(after.get(key) ?? []), next]);
      before.set(next, [...(before.get(next) ?? []), key]);
    }
  }
  let sorted = layers.map((layer) => [...layer]);
  for (let sweep = 0; sweep < SWEEPS; sweep += 1) {
    const neighbours = sweep % 2 === 0 ? before : after;
    const place = placesIn(sorted);
    sorted = sorted.map((layer) => byBarycentre(layer, neighbours, place));
  }
  return sorted;
}

function placesIn(layers: readonly (readonly Slot[])[]): ReadonlyMap<string, number> {
  return new Map(
    layers.flatMap((layer) =>
      layer.map(({ key }, index): [string, number] => [key, (index + 0.5) / layer.length]),
    ),
  );
}

function byBarycentre(
  layer: readonly Slot[],
  neighbours: ReadonlyMap<string, readonly string[]>,
  place: ReadonlyMap<string, number>,
): Slot[] {
  const weight = new Map(
    layer.map((slot) => {
      const places = (neighbours.get(slot.key) ?? []).flatMap((key) => place.get(key) ?? []);
      const own = place.get(slot.key) ?? 0;
      const mean = places.reduce((sum, one) => sum + one, 0) / places.length;
      return [slot.key, places.length === 0 ? own : mean];
    }),
  );
  return [...layer].sort((one, other) => (weight.get(one.key) ?? 0) - (weight.get(other.key) ?? 0));
}
