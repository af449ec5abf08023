// Hints of the kind `setting`: the computed value beside each setting, what rounding leaves of it, or a tick where the file agrees.

import type { SettingAdvice, Setup } from '../../../core/setup.ts';
import { explainSetting, settingLabel } from '../../words/settingWords.ts';
import type { Hint } from './hint.ts';

const TICK = 1;
const OPEN = 4;

/** Crossovers have hints of their own. */
export function settingHints(setup: Setup): readonly Hint[] {
  const crossovers = new Set(setup.crossovers.map(({ path }) => path.join('\n')));
  return setup.advice
    .filter(({ path }) => !crossovers.has(path.join('\n')))
    .map((advice) => ({
      kind: 'setting',
      path: advice.path,
      rank: advice.agrees === true ? TICK : OPEN,
      name: nameOf(advice),
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

/** With its name where the file has no such line yet: "driver delay → 0.15 ms". */
function textOf(advice: SettingAdvice): string {
  const label = settingLabel(advice);
  if (advice.told !== null) return label;
  const port = advice.port === null ? '' : `${advice.port} `;
  return `${port}${advice.control.replaceAll('_', ' ')} ${label}`;
}

function nameOf({ control, told }: SettingAdvice): string | null {
  return told === null ? null : control.replaceAll('_', ' ');
}

/** Of several settings on one line: one tick where all agree, else those that do not, each with its name. */
export function mergedSettings(hints: readonly Hint[]): readonly Hint[] {
  const settings = hints.filter(({ kind }) => kind === 'setting');
  const [first] = settings;
  if (first === undefined || settings.length === 1) return hints;
  const open = settings.filter(({ rank }) => rank === OPEN);
  const named = open.map((hint) => ({
    ...hint,
    parts: hint.parts.map((part, index) =>
      index === 0 && hint.name ? { ...part, text: `${hint.name} ${part.text}` } : part,
    ),
  }));
  const kept = open.length === 0 ? [first] : named;
  return [...hints.filter(({ kind }) => kind !== 'setting'), ...kept];
}
