// What every part of the sheet is given: the setup, and the words for figures in the file's own habit.

import type { Setup } from '../../core/setup.ts';
import type { Show } from '../../core/show.ts';

export interface View {
  readonly setup: Setup;
  readonly show: Show;
}
