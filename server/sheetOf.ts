// The setup sheet of an analysis as one self-contained HTML document.

import type { Setup } from '../core/setup.ts';
import type { Analysis } from './analysis.ts';
import { setupAnswer } from './setupAnswer.ts';
import { renderSheet } from './sheet/renderSheet.tsx';

export function sheetOf(analysis: Analysis, setup: Setup, name: string): string {
  return renderSheet(setup, setupAnswer(analysis).problems, {
    title: setup.room.name ?? name,
    generatedFrom: name,
  });
}
