// What to dial in, in words: the computed value, what rounding leaves, why.

import type { SettingAdvice } from '../../core/setup.ts';
import { code, type Explanation, plain } from './explanation.ts';

/** A tick where the file agrees, else what to dial in. */
export function settingLabel(advice: SettingAdvice): string {
  if (advice.agrees === true) return '✓';
  return `→ ${dialInText(advice)}`;
}

/** What can be dialled in, for reading: the values of a record without its keys ("75 Hz, 24 dB/oct"). */
export function dialInText({ dialIn }: SettingAdvice): string {
  const record = /^\{(.*)\}$/.exec(dialIn)?.[1];
  if (record === undefined) return dialIn;
  return record
    .split(',')
    .map((entry) => entry.replace(/^[^:]*:/, '').trim())
    .join(', ');
}

export function explainSetting(advice: SettingAdvice): Explanation {
  const where = [advice.device, advice.port, advice.set, advice.control]
    .filter((part) => part !== null)
    .join('.');
  const lines = [
    advice.agrees === true
      ? `**${plain(dialInText(advice))}**, as the file has it`
      : `dial in **${plain(dialInText(advice))}**${advice.told === null ? '' : ` (the file has ${plain(advice.told)})`}`,
  ];
  if (advice.exact !== advice.dialIn && !advice.exact.startsWith('{'))
    lines.push(`exactly ${plain(advice.exact)}`);
  lines.push(
    advice.residual === null ? 'nothing is left by rounding' : `rounding leaves ${advice.residual}`,
  );
  lines.push(plain(advice.reason));
  if (advice.standing === 'start') lines.push('a starting value: final only after measurement');
  return { title: code(where), lines, source: advice.source };
}
