// FNV-1a, 32 bit: a short digest of a text, to see that something changed. It keeps nobody from forging one.

/**
 * Written out, since no library in use brings a hash, the web has one only behind a promise, and this one is two lines. Nothing
 * secret hangs on it: who can write a digest into a file can also sign it.
 *
 * @param text characters up to U+007F count as one octet, others as the two of UTF-16, the lower first
 * @returns 0 to 2³² − 1
 * @source RFC 9923, The FNV Non-Cryptographic Hash Algorithm: offset basis and prime of the 32-bit variant, FNV-1a
 */
export function fnv1a(text: string): number {
  let digest = 0x811c9dc5;
  const take = (octet: number): void => {
    digest = Math.imul(digest ^ octet, 0x01000193);
  };
  for (let index = 0; index < text.length; index += 1) {
    const unit = text.charCodeAt(index);
    take(unit & 0xff);
    if (0x7f < unit) take(unit >>> 8);
  }
  return digest >>> 0;
}

/**
 * Folded to 16 bits: both halves, one laid over the other.
 *
 * @source RFC 9923, "Other Hash Sizes and XOR Folding"
 */
export function folded16(digest: number): number {
  return ((digest >>> 16) ^ (digest & 0xffff)) >>> 0;
}

/** So many hexadecimal digits, small letters. */
export function hexadecimal(digest: number, digitCount: number): string {
  return digest.toString(16).padStart(digitCount, '0');
}
