// Which words the plan wants and where they would like to stand.

import type { Setup } from '../../../core/setup.ts';
import type { Show } from '../../../core/show.ts';
import { type Frame, round, type XY } from './frame.ts';
import {
  around,
  type Box,
  type LabelWish,
  overlap,
  type PlacedLabel,
  placeLabels,
  textWidth,
} from './labels.ts';
import { reachOf } from './thingMark.tsx';
import type { Thing } from './things.ts';

const NAME_SIZE = 12;
const FIGURE_SIZE = 10.5;

interface Wanted {
  readonly setup: Setup;
  readonly show: Show;
  readonly frame: Frame;
  readonly things: readonly Thing[];
  /** Boxes that no word may cover, beside the marks. */
  readonly taken: readonly Box[];
}

/** Names first, then the figures on the lines from the reference seat, which may be left out for want of room. */
export function planLabels(wanted: Wanted): readonly PlacedLabel[] {
  const { frame, things } = wanted;
  const marks = things.map((thing) => markBox(thing, frame));
  const field = { x: 2, y: 2, width: frame.width - 4, height: frame.height - 4 };
  const wishes = [...nameWishes(things, frame), ...lineWishes(wanted), ...fixtureWishes(wanted)];
  return placeLabels(wishes, [...marks, ...wanted.taken], field);
}

/** Things that lie on one another share one label. */
export function nameWishes(
  things: readonly Thing[],
  frame: Frame,
  placeOf: (thing: Thing) => { readonly centre: XY; readonly reach: number } = (thing) =>
    reachOf(thing, frame),
): readonly LabelWish[] {
  const groups: { readonly things: Thing[]; readonly centre: XY; readonly reach: number }[] = [];
  for (const thing of things) {
    const { centre, reach } = placeOf(thing);
    const group = groups.find(
      (one) => Math.hypot(one.centre.x - centre.x, one.centre.y - centre.y) < 5,
    );
    if (group === undefined) groups.push({ things: [thing], centre, reach });
    else group.things.push(thing);
  }
  return groups.map(({ things: [...members], centre, reach }) => {
    const text = members.map(({ id }) => id).join(', ');
    return {
      key: `name-${members[0]?.id ?? ''}`,
      text,
      size: NAME_SIZE,
      at: around(centre, reach, text, NAME_SIZE),
      of: centre,
      needed: true,
    };
  });
}

function lineWishes({ setup, show, frame, things }: Wanted): readonly LabelWish[] {
  const seat = things.find(({ kind, isReference }) => kind === 'seat' && isReference);
  const figures = setup.seats.find(({ id }) => id === seat?.id);
  if (seat === undefined || figures === undefined) return [];
  const edges = fixtureEdges({ setup, frame });
  return figures.arrivals.flatMap(({ source, distance_m }): readonly LabelWish[] => {
    const thing = things.find(({ id, kind }) => id === source && kind !== 'seat');
    if (thing === undefined) return [];
    const angle = figures.angles.find((one) => one.source === source);
    const text =
      thing.kind === 'speaker' && angle !== undefined
        ? `${show.length(distance_m)}, ${show.angle(Math.abs(angle.azimuth_rad))}`
        : show.length(distance_m);
    const from = frame.toDrawing(seat.at.x_m, seat.at.y_m);
    const to = frame.toDrawing(thing.at.x_m, thing.at.y_m);
    const along = [0.55, 0.45, 0.65, 0.38, 0.72, 0.3, 0.8, 0.6, 0.5, 0.68].map((share) => ({
      x: from.x + (to.x - from.x) * share,
      y: from.y + (to.y - from.y) * share,
    }));
    // Where an edge of a desk would run through the figure it stands only if there is no other place.
    const isClear = (middle: XY): boolean => {
      const width = textWidth(text, FIGURE_SIZE);
      const box = { x: middle.x - width / 2, y: middle.y - EDGE_PX, width, height: 2 * EDGE_PX };
      return edges.every((edge) => overlap(box, edge) === 0);
    };
    const at = [...along.filter(isClear), ...along.filter((middle) => !isClear(middle))];
    return [{ key: `line-${source}`, text, size: FIGURE_SIZE, at, needed: false }];
  });
}

/** A line nearer than this to the middle of a figure is drawn through its digits. */
const EDGE_PX = FIGURE_SIZE / 2 + 1;

/** The outlines of what stands in the room, as boxes a pixel thin. */
function fixtureEdges({ setup, frame }: Pick<Wanted, 'setup' | 'frame'>): readonly Box[] {
  return setup.room.space.fixtures.flatMap((fixture): readonly Box[] => {
    if (fixture.kind === 'panel' || fixture.x_m === null || fixture.y_m === null) return [];
    const { x_m, y_m } = fixture;
    const one = frame.toDrawing(x_m[0], y_m[0]);
    const other = frame.toDrawing(x_m[1], y_m[1]);
    const [x, y] = [Math.min(one.x, other.x), Math.min(one.y, other.y)];
    const [width, height] = [Math.abs(other.x - one.x), Math.abs(other.y - one.y)];
    return [
      { x, y, width, height: 1 },
      { x, y: y + height, width, height: 1 },
      { x, y, width: 1, height },
      { x: x + width, y, width: 1, height },
    ];
  });
}

function fixtureWishes({ setup, frame }: Wanted): readonly LabelWish[] {
  return setup.room.space.fixtures.flatMap((fixture): readonly LabelWish[] => {
    if (fixture.kind === 'panel' || fixture.x_m === null || fixture.y_m === null) return [];
    const text = fixture.id.replaceAll('_', ' ');
    const middle = frame.toDrawing(
      (fixture.x_m[0] + fixture.x_m[1]) / 2,
      (fixture.y_m[0] + fixture.y_m[1]) / 2,
    );
    const half = ((fixture.y_m[1] - fixture.y_m[0]) / 2) * frame.scale - FIGURE_SIZE;
    const at = [0, -1, 1, -0.5, 0.5].map((step) => ({ x: middle.x, y: middle.y + step * half }));
    return [
      {
        key: `fixture-${fixture.id}`,
        text,
        size: FIGURE_SIZE,
        at: [...at, ...around(middle, half, text, FIGURE_SIZE)],
        needed: false,
      },
    ];
  });
}

function markBox(thing: Thing, frame: Frame): Box {
  const { centre, reach } = reachOf(thing, frame);
  return {
    x: round(centre.x - reach),
    y: round(centre.y - reach),
    width: 2 * reach,
    height: 2 * reach,
  };
}
