// What a plan is drawn from.

import type { FieldMap } from '../../../core/fieldFigures.ts';
import type { Space } from '../../../schema/model/room.ts';
import type { View } from '../view.ts';

export interface PlanProps extends View {
  readonly shape: NonNullable<Space['shape']>;
  /** Pressure to be drawn under everything that stands in the room. */
  readonly map?: FieldMap | null;
}
