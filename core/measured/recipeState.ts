// Which takes of the recipe a room's sessions hold already, and which are still to be made.

import type { Path } from '../../schema/model/path.ts';
import type { Point } from '../../schema/model/quantities.ts';
import type { MeasuringTake } from '../../schema/model/sessions.ts';
import { type RecipeTake, recipe } from '../measure/recipe.ts';
import type { Setup } from '../setup.ts';

export interface RecipeState {
  readonly wanted: RecipeTake;
  /** The newest take that is the wanted one; null where there is none. */
  readonly made: {
    readonly session: string;
    readonly take: string;
    readonly path: Path;
  } | null;
}

/** A microphone that stands so near stands there. */
const SAME_PLACE_M = 0.1;

/** In the order of the recipe; empty where the room has no reference seat. */
export function recipeState(setup: Setup): readonly RecipeState[] {
  const takes = (setup.room.sessions ?? []).flatMap(({ id, takes: own }) =>
    own.filter((take) => !isUnread(setup, id, take.id)).map((take) => ({ session: id, take })),
  );
  return recipe(setup).map((wanted) => {
    const found = takes.findLast(({ take }) => isMade(setup, wanted, take));
    return {
      wanted,
      made:
        found === undefined
          ? null
          : { session: found.session, take: found.take.id, path: found.take.path },
    };
  });
}

/** A file that was looked at and cannot be read is none. */
function isUnread({ measured }: Setup, session: string, take: string): boolean {
  const found = measured?.sessions
    .find((one) => one.session === session)
    ?.takes.find((one) => one.take === take);
  return found !== undefined && found.kind === null && found.isPending !== true;
}

function isMade(setup: Setup, wanted: RecipeTake, take: MeasuringTake): boolean {
  return (
    take.file !== null &&
    sameMembers(take.sounding, wanted.sounding) &&
    isDriven(wanted, take) &&
    isThere(setup, wanted, take) &&
    sameMembers(turnedIn(take), wanted.inverted)
  );
}

function sameMembers(some: readonly string[], others: readonly string[]): boolean {
  return some.length === others.length && some.every((one) => others.includes(one));
}

/** A port may carry any channel: only two channels can differ. */
function isDriven({ drive }: RecipeTake, take: MeasuringTake): boolean {
  return drive === null || take.drive === null || take.drive.includes('.') || take.drive === drive;
}

function isThere({ room }: Setup, { seat, point }: RecipeTake, take: MeasuringTake): boolean {
  // A point counts before the seat that it belongs to.
  if (point === null && take.at === null && take.seat === seat) return true;
  const wanted = point ?? room.seats.find(({ id }) => id === seat)?.at ?? null;
  const given = take.at ?? room.seats.find(({ id }) => id === take.seat)?.at ?? null;
  return wanted !== null && given !== null && apart_m(wanted, given) < SAME_PLACE_M;
}

function apart_m(one: Point, other: Point): number {
  return Math.hypot(one.x_m - other.x_m, one.y_m - other.y_m, one.z_m - other.z_m);
}

function turnedIn({ changed }: MeasuringTake): readonly string[] {
  const turned = changed.filter(({ control }) => control === 'polarity');
  return [...new Set(turned.map(({ device }) => device))];
}
