// Dialling in: the settings of a room that differ from what is computed, for one setting, one device or the whole room.

import type { SemanticEdit } from '../core/finding.ts';
import type { SettingAdvice, Setup } from '../core/setup.ts';
import { isAtOrBelow, type Path } from '../schema/model/path.ts';

/** Advice that would change the file, in the order of the setup. */
export function openAdvice({ advice }: Setup): readonly SettingAdvice[] {
  return advice.filter(({ agrees, fix }) => agrees !== true && fix !== null);
}

/** The advice about a path: settings at it, below it, or that it lies in. */
export function adviceAbout(setup: Setup, path: Path): readonly SettingAdvice[] {
  return openAdvice(setup).filter(
    (advice) => isAtOrBelow(path, advice.path) || isAtOrBelow(advice.path, path),
  );
}

/** The edits of all of them, each once. */
export function editsFor(advice: readonly SettingAdvice[]): readonly SemanticEdit[] {
  const edits = new Map<string, SemanticEdit>();
  for (const { fix } of advice)
    for (const edit of fix?.edits ?? []) edits.set(edit.path.join('\n'), edit);
  return [...edits.values()];
}
