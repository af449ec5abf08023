// Result ids: a short mark of what a list of diagnostics says, so that "nothing changed" can be told without sending it again.

/** FNV-1a over UTF-16 units, 2 × 32 bits (the second with another start): no secret, only a mark. */
export function resultIdOf(items: readonly unknown[]): string {
  const text = JSON.stringify(items);
  return `${fnv(text, 0x811c9dc5)}${fnv(text, 0x9dc5811c)}-${items.length}`;
}

function fnv(text: string, start: number): string {
  let hash = start;
  for (let index = 0; index < text.length; index += 1) {
    hash ^= text.charCodeAt(index);
    hash = Math.imul(hash, 0x01000193);
  }
  return (hash >>> 0).toString(16).padStart(8, '0');
}
