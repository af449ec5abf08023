// Other ways to write the same quantity, put into the one spelling of the format: −3 dB, .5 m, 1,38 m, 15′2″.

export interface Respelling {
  readonly text: string;
  readonly code: 'quantity/spelling' | 'quantity/decimal-comma';
  /** What was not in the one spelling, as the end of "… is written …". */
  readonly reason: string;
}

interface Habit {
  readonly find: RegExp;
  readonly put: string;
  readonly reason: string;
}

const HABITS: readonly Habit[] = [
  {
    find: /[\u00a0\u2000-\u200a\u202f\u205f]/g,
    put: ' ',
    reason: 'a plain space separates number and unit',
  },
  { find: /[\u2212\u2012-\u2015\ufe63\uff0d]/g, put: '-', reason: 'the minus sign is a plain `-`' },
  { find: /\u03bc/g, put: 'µ', reason: 'micro is written `µ`' },
  { find: /[\u2032\u2018\u2019\u00b4]/g, put: "'", reason: "feet are written `'`" },
  { find: /[\u2033\u201c\u201d]|''/g, put: '"', reason: 'inches are written `"`' },
  { find: /\u2126/g, put: 'Ω', reason: 'ohms are written `Ω`' },
  { find: /\u00ba/g, put: '°', reason: 'degrees are written `°`' },
  { find: /\+\/?-(?=\s*\d)(?<=\S\s*\+\/?-)/g, put: '±', reason: 'plus or minus is written `±`' },
  { find: /(?<![\d.])\.(?=\d)/g, put: '0.', reason: 'a digit stands before the decimal point' },
  { find: /(?<=\d)\.(?!\d)/g, put: '', reason: 'digits stand behind a decimal point' },
  { find: /(?<=\d)_(?=\d)/g, put: '', reason: 'digits stand together' },
  { find: /^([+-])\s+(?=\d)/g, put: '$1', reason: 'the sign stands close to the number' },
];

const EXPONENT = /\d+(?:\.\d+)?[eE][+-]?\d+/g;
const COMMA = /(?<=\d),(?=\d)/g;

/** The text in the format's own spelling, or null where nothing had to be changed. A second one where a comma may mean two things. */
export function respell(text: string): readonly Respelling[] {
  let plain = text;
  let reason: string | null = null;
  for (const habit of HABITS) {
    const next = plain.replace(habit.find, habit.put);
    if (next !== plain) reason ??= habit.reason;
    plain = next;
  }
  const spelledOut = plain.replace(EXPONENT, (digits) => plainNumber(Number(digits)));
  if (spelledOut !== plain) reason ??= 'numbers are written without an exponent';
  const commas = spelledOut.match(COMMA)?.length ?? 0;
  if (commas === 0) {
    return reason === null ? [] : [{ text: spelledOut, code: 'quantity/spelling', reason }];
  }
  const point = { code: 'quantity/decimal-comma', reason: 'the decimal sign is a point' } as const;
  const decimal = { ...point, text: spelledOut.replace(COMMA, '.') };
  const grouped = { ...point, text: spelledOut.replace(COMMA, '') };
  return /\d,\d{3}(?!\d)/.test(spelledOut) ? [decimal, grouped] : [decimal];
}

function plainNumber(value: number): string {
  if (!Number.isFinite(value) || 1e15 < Math.abs(value)) return String(value);
  return value.toFixed(12).replace(/\.?0+$/, '');
}
