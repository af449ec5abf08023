// Places words in a drawing so that they neither overlap each other, nor cover a mark, nor run out of the field.

export interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

export interface LabelWish {
  readonly key: string;
  readonly text: string;
  readonly size: number;
  /** Where it would like to stand: centres of the text, best first. */
  readonly at: readonly { readonly x: number; readonly y: number }[];
  /** What it names: a line leads there from a place far off. */
  readonly of?: { readonly x: number; readonly y: number };
  /** False where it is left out rather than put in a bad place: its figure stands in the table. */
  readonly needed: boolean;
}

export interface PlacedLabel {
  readonly key: string;
  readonly text: string;
  /** Middle of the text's baseline. */
  readonly x: number;
  readonly y: number;
  readonly size: number;
  readonly box: Box;
  /** Where a line leads from a place so far off that it could be taken for another thing's; null where none is wanted. */
  readonly leader: { readonly x: number; readonly y: number } | null;
}

/** Widest sans faces in use run at about 0.6 em a character on average. */
const EM_A_CHARACTER = 0.62;

export function textWidth(text: string, size: number): number {
  return text.length * EM_A_CHARACTER * size;
}

/** Greedy, in the order given: what matters most comes first. A needed label that finds no free place takes the freest. */
export function placeLabels(
  wishes: readonly LabelWish[],
  taken: readonly Box[],
  field: Box,
): readonly PlacedLabel[] {
  const occupied: Box[] = [...taken];
  const placed: PlacedLabel[] = [];
  for (const wish of wishes) {
    const label = bestPlace(wish, occupied, field);
    if (label === null) continue;
    occupied.push(label.box);
    placed.push(label);
  }
  return placed;
}

/** Places around a mark: beside it, above, below, then further out. */
export function around(
  centre: { readonly x: number; readonly y: number },
  reach: number,
  text: string,
  size: number,
): LabelWish['at'] {
  const halfWidth = textWidth(text, size) / 2;
  return [reach, reach + 8, reach + 18, reach + 32, reach + 50, reach + 74].flatMap((distance) =>
    DIRECTIONS.map(([across, down]) => ({
      x: centre.x + across * (distance + halfWidth),
      y: centre.y + down * (distance + size * 0.55),
    })),
  );
}

/** Below, above, right, left, then the corners. */
const DIRECTIONS: readonly (readonly [number, number])[] = [
  [0, 1],
  [0, -1],
  [1, 0],
  [-1, 0],
  [0.8, 0.8],
  [-0.8, 0.8],
  [0.8, -0.8],
  [-0.8, -0.8],
];

/** The places at the first three distances: nobody takes a word there for another thing's. */
const NEAR_PLACES = 3 * 8;

function bestPlace(wish: LabelWish, occupied: readonly Box[], field: Box): PlacedLabel | null {
  const width = textWidth(wish.text, wish.size);
  let best: { readonly label: PlacedLabel; readonly covered: number } | null = null;
  for (const [index, centre] of wish.at.entries()) {
    const size = { width: width + 4, height: wish.size * 1.24 };
    const wanted = { x: centre.x - size.width / 2, y: centre.y - size.height / 2, ...size };
    const box = wish.needed ? pushedInside(wanted, field) : wanted;
    if (!isInside(box, field)) continue;
    const covered = occupied.reduce((sum, other) => sum + overlap(box, other), 0);
    const label = {
      key: wish.key,
      text: wish.text,
      x: box.x + box.width / 2,
      y: box.y + box.height / 2 + wish.size * 0.36,
      size: wish.size,
      box,
      leader: wish.of !== undefined && NEAR_PLACES <= index ? wish.of : null,
    };
    if (covered === 0) return label;
    if (wish.needed && (best === null || covered < best.covered)) best = { label, covered };
  }
  return best?.label ?? null;
}

/** As little as it takes; a box too large for the field stays outside it. */
function pushedInside(box: Box, field: Box): Box {
  const x = Math.min(Math.max(box.x, field.x), field.x + field.width - box.width);
  const y = Math.min(Math.max(box.y, field.y), field.y + field.height - box.height);
  return { ...box, x, y };
}

function isInside(box: Box, field: Box): boolean {
  return (
    field.x <= box.x &&
    field.y <= box.y &&
    box.x + box.width <= field.x + field.width &&
    box.y + box.height <= field.y + field.height
  );
}

/** The area that two boxes share. */
export function overlap(one: Box, other: Box): number {
  const across = Math.min(one.x + one.width, other.x + other.width) - Math.max(one.x, other.x);
  const down = Math.min(one.y + one.height, other.y + other.height) - Math.max(one.y, other.y);
  return Math.max(0, across) * Math.max(0, down);
}
