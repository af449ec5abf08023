// A remark in full: what, why, what to do, source. Hovers show it as Markdown.

import type { Remark } from '../remarks/remark.ts';
import { plain } from './explanation.ts';

export function remarkMarkdown({
  code,
  severity,
  message,
  reason,
  advice,
  source,
  accepted,
}: Remark): string {
  const lines = [`**${severity}** \`${code}\`: ${plain(message)}`];
  if (accepted !== null)
    lines.push(
      `accepted${accepted.because === null ? '' : `: ${plain(accepted.because)}`}${accepted.until === null ? '' : ` (until ${accepted.until})`}`,
    );
  if (reason !== null) lines.push(plain(reason));
  if (advice !== null) lines.push(plain(advice));
  if (source !== null) lines.push(`*Source: ${plain(source)}*`);
  return lines.join('\n\n');
}
