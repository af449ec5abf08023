// Inlay hints: the computed figures beside the lines they belong to.

import {
  type InlayHint,
  type InlayHintLabelPart,
  type Range as LspRange,
  MarkupKind,
} from 'vscode-languageserver';
import type { Setup } from '../../../core/setup.ts';
import { type Show, showFor } from '../../../core/show.ts';
import type { Path } from '../../../schema/model/path.ts';
import type { Analysis } from '../../analysis.ts';
import { editsOf } from '../../edits.ts';
import { lineEnd, toRange, toTextEdit } from '../../lsp/convert.ts';
import { nearestPath, placeOf, rangeToShow } from '../../places.ts';
import type { HintKind, Settings } from '../../protocol/settings.ts';
import { markdownOf } from '../../words/explanation.ts';
import { angleHints } from './angleHints.ts';
import { arrivalHints } from './arrivalHints.ts';
import { bassHints } from './bassHints.ts';
import { connectionHints } from './connectionHints.ts';
import { crossoverHints } from './crossoverHints.ts';
import type { Hint } from './hint.ts';
import { SEPARATOR, withinBudget } from './lineBudget.ts';
import { measurementHints } from './measurementHints.ts';
import { recordHints } from './recordHints.ts';
import { roomHints } from './roomHints.ts';
import { mergedSettings, settingHints } from './settingHints.ts';

const MAKERS: Readonly<Record<HintKind, (setup: Setup, show: Show) => readonly Hint[]>> = {
  room: roomHints,
  arrival: arrivalHints,
  angle: angleHints,
  setting: settingHints,
  crossover: crossoverHints,
  bass: bassHints,
  measurement: (setup, show) => [...measurementHints(setup, show), ...recordHints(setup)],
  connection: connectionHints,
};

export function inlayHints(
  analysis: Analysis,
  visible: LspRange,
  hints: Settings['hints'],
): InlayHint[] {
  const { setup } = analysis;
  if (setup === null || !hints.enabled) return [];
  const kinds = Object.keys(MAKERS) as HintKind[];
  const byLine = new Map<number, Hint[]>();
  for (const kind of kinds.filter((one) => hints[one])) {
    for (const hint of hintsOf(setup, kind)) {
      const line = lineOf(analysis, hint.path);
      if (line === null || line < visible.start.line || visible.end.line < line) continue;
      byLine.set(line, [...(byLine.get(line) ?? []), hint]);
    }
  }
  return [...byLine]
    .sort(([one], [other]) => one - other)
    .flatMap(([line, all]) =>
      withinBudget(mergedSettings(all)).map((hint, index) => shown(analysis, line, hint, index)),
    );
}

// Many versions of a text have the same Setup (comments, names of checks); its hints are made once. The Setup is never changed
// in place, so that an entry can neither grow stale nor outlive it.
const made = new WeakMap<Setup, Map<HintKind, readonly Hint[]>>();

function hintsOf(setup: Setup, kind: HintKind): readonly Hint[] {
  const kinds = made.get(setup) ?? new Map<HintKind, readonly Hint[]>();
  made.set(setup, kinds);
  const hints = kinds.get(kind) ?? MAKERS[kind](setup, showFor(setup.room.habits));
  kinds.set(kind, hints);
  return hints;
}

/** The line where the place begins; for a setting that is not there yet, that of its nearest parent below `settings`. */
function lineOf({ source }: Analysis, path: Path): number | null {
  const near = nearestPath(source.parsed, path);
  if (near.length < Math.min(path.length, 2)) return null;
  const place = placeOf(source.parsed, near);
  return place === null ? null : source.text.positionAt(place.range.start).line;
}

/** @param index its place among the hints of its line: the padding that an editor adds is too little between two of them */
function shown(analysis: Analysis, line: number, hint: Hint, index: number): InlayHint {
  const { text } = analysis.source;
  const edits = editsOf(analysis.source, hint.edits);
  const tooltip = hint.explanation === null ? '' : markdownOf(hint.explanation);
  return {
    position: lineEnd(text, line),
    label: hint.parts.map((part, place) => labelPart(analysis, part, index + place)),
    paddingLeft: index === 0,
    tooltip: {
      kind: MarkupKind.Markdown,
      value: edits === null ? tooltip : `${tooltip}\n\nDouble-click dials it in.`,
    },
    ...(edits === null ? {} : { textEdits: edits.map((edit) => toTextEdit(text, edit)) }),
  };
}

function labelPart(
  { source }: Analysis,
  { text, dependsOn }: Hint['parts'][number],
  index: number,
): InlayHintLabelPart {
  const value = index === 0 ? text : SEPARATOR + text;
  if (dependsOn === null || placeOf(source.parsed, dependsOn) === null) return { value };
  return {
    value,
    location: {
      uri: source.uri,
      range: toRange(source.text, rangeToShow(source.parsed, dependsOn)),
    },
  };
}
