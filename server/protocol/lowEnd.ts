// Our own message about the low end while something moves: answered from what is kept of the room, beside the typing.

import type { FieldFigures, FieldMap, FieldMapRequest } from '../../core/fieldFigures.ts';
import type { Movable, PlanPlace } from '../../core/parts/moveThing.ts';

/** Request, client to server. */
export const LOW_END_REQUEST = 'groundbass/lowEnd';
export interface LowEndParams {
  readonly uri: string;
  /** That of the answer shown. */
  readonly version: number;
  /** What is asked: the curves with a thing moved on the plan, or pressure over the plan. */
  readonly ask:
    | { readonly kind: 'moved'; readonly thing: Movable; readonly place: PlanPlace }
    | { readonly kind: 'map'; readonly request: FieldMapRequest };
}

/** What was asked for; null in place of it where it cannot be worked out. Curves come without envelope. */
export interface LowEndAnswer {
  readonly field: FieldFigures | null;
  readonly map: FieldMap | null;
}
