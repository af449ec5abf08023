// An explanation: a figure with its derivation and source, as hovers and the tooltips of hints show it.

export interface Explanation {
  readonly title: string;
  /** Markdown, a line each. */
  readonly lines: readonly string[];
  /** Where the formula or the figure comes from; null where it is plain arithmetic. */
  readonly source: string | null;
}

export function markdownOf({ title, lines, source }: Explanation): string {
  const list = lines.map((line) => `- ${line}`).join('\n');
  return `**${title}**\n\n${list}${source === null ? '' : `\n\n*Source: ${source}*`}`;
}

/** Text from a file, safe inside Markdown. */
export function plain(text: string): string {
  return text.replace(/[\\`*_[\]<>#|]/g, '\\$&');
}

/** A word of the file, as code. */
export function code(text: string): string {
  return `\`${text.replaceAll('`', "'")}\``;
}
