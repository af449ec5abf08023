// Small words of the sheet: names of controls and ports, lists, counts, and typography for figures.

/** Where a figure is null: the reason stands in the notes. */
export const MISSING = '—';

/** `input_sensitivity` as people say it. */
export function plainName(key: string): string {
  return key.replaceAll('_', ' ');
}

/** A real minus sign before figures, where the text is read and not typed. */
export function typeset(text: string): string {
  return text.replace(/(^|[\s(:])-(?=[\d.])/g, '$1\u2212');
}

/** With its sign, also where that is a plus: for differences. */
export function signed(value: number, text: string): string {
  const rounded = Number.parseFloat(text);
  return typeset(0 < value && rounded !== 0 ? `+${text}` : text);
}

/** The text of a figure, or the sign for a missing one. */
export function shown(value: number | null, text: (value: number) => string): string {
  return value === null ? MISSING : typeset(text(value));
}

/** `1 error`, `3 errors`. */
export function counted(count: number, one: string, many: string = `${one}s`): string {
  return `${count} ${count === 1 ? one : many}`;
}

/** `a, b and c`. */
export function listed(words: readonly string[]): string {
  const last = words.at(-1);
  if (last === undefined) return '';
  return words.length === 1 ? last : `${words.slice(0, -1).join(', ')} and ${last}`;
}

export function capitalised(text: string): string {
  return `${text.slice(0, 1).toUpperCase()}${text.slice(1)}`;
}

/** Records of a file as their values alone: `{ frequency: 75 Hz, slope: 24 dB/oct }` as `75 Hz, 24 dB/oct`. */
export function plainValue(text: string): string {
  return text.replace(/\{ ([^{}]*) \}/g, (_, fields: string) =>
    fields
      .split(', ')
      .map((field) => field.replace(/^[a-z_]+: /, ''))
      .join(', '),
  );
}

/** `polarity of out_left`; the port is a name of the file and stays as written. */
export function settingName(control: string, port: string | null, set: string | null): string {
  const place = [port, set === null ? null : `set ${set}`].filter((word) => word !== null);
  return [plainName(control), ...place].join(' · ');
}
