// Pairs: the right-hand channel that belongs to a left-hand one.

/** `R` for `L`, `Rs` for `Ls`, `M-110` for `M+110`; null for channels that have no partner on the right. */
export function rightOf(channel: string): string | null {
  if (/^[MUB]\+(?!000|180)\d{3}$/.test(channel)) return channel.replace('+', '-');
  return /^L(?!FE)/.test(channel) ? channel.replace('L', 'R') : null;
}
