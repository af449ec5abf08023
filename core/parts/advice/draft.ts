// What the files of this folder hand over: advice that still lacks nothing but its place in the list.

import type { SemanticEdit } from '../../finding.ts';
import type { SettingAdvice } from '../../setup.ts';
import { type GovernedStage, settingPath } from '../../signal/governing.ts';

/** Where a piece of advice belongs. */
export function placeOfStage({
  device,
  control,
  stage,
  port,
  set,
  settingPath,
  value,
}: GovernedStage): Pick<SettingAdvice, 'device' | 'control' | 'port' | 'set' | 'path' | 'told'> {
  return {
    device,
    control: control?.name ?? stage,
    port,
    set,
    path: settingPath ?? ['settings', device, control?.name ?? stage],
    told: value?.told ?? null,
  };
}

/** The same, but under one set of monitors: for a setting of a controller that now holds for several sets at once. */
export function placeForSet(stage: GovernedStage, set: string): ReturnType<typeof placeOfStage> {
  const place = placeOfStage(stage);
  return { ...place, set, path: settingPath(stage.device, place.control, null, set) };
}

/** The fix that makes the file say what can be dialled in; null where it says so. */
export function dialInFix(
  { path }: Pick<SettingAdvice, 'path'>,
  dialIn: string,
  agrees: boolean | null,
  isSafe: boolean,
): SettingAdvice['fix'] {
  if (agrees === true) return null;
  return editFix(dialIn, [{ do: 'set', path, value: dialIn }], isSafe);
}

export function editFix(
  dialIn: string,
  edits: readonly SemanticEdit[],
  isSafe: boolean,
): SettingAdvice['fix'] {
  return { title: `Dial in ${dialIn}`, edits, safe: isSafe };
}
