// Hints of the kind `setting`: the computed value beside each setting, what rounding leaves of it, or a tick where the file agrees.

import type { SettingAdvice, Setup } from '../../../core/setup.ts';
import { explainSetting, settingLabel } from '../../words/settingWords.ts';
import type { Hint } from './hint.ts';

/** Crossovers have hints of their own. */
export function settingHints(setup: Setup): readonly Hint[] {
  const crossovers = new Set(setup.crossovers.map(({ path }) => path.join('\n')));
  return setup.advice
    .filter(({ path }) => !crossovers.has(path.join('\n')))
    .map((advice) => ({
      kind: 'setting',
      path: advice.path,
      rank: advice.agrees === true ? 1 : 4,
      parts: [
        { text: textOf(advice), dependsOn: null },
        ...(advice.agrees === true || advice.residual === null
          ? []
          : [{ text: `leaves ${advice.residual}`, dependsOn: null }]),
      ],
      explanation: explainSetting(advice),
      edits: advice.agrees === true ? [] : (advice.fix?.edits ?? []),
    }));
}

/** With its name where the file has no such line yet, or shares one with others: "delay → 0.15 ms". */
function textOf(advice: SettingAdvice): string {
  const label = settingLabel(advice);
  if (advice.told !== null) return label;
  const where = advice.port === null ? advice.control : `${advice.port} ${advice.control}`;
  return `${where} ${label}`;
}
