// FNV-1a, 32 bit: a short digest of a text, to see that something changed. It keeps nobody from forging one.
//
// Written out, since no library in use brings a hash, the web has one only behind a promise, and this one is two lines. Nothing secret
// hangs on it: who can write a digest into a file can also sign it.

/**
 * @param text characters up to U+007F count as one octet, others as the two of UTF-16, the lower first
 * @returns eight hexadecimal digits, small letters
 * @source RFC 9923, The FNV Non-Cryptographic Hash Algorithm: FNV-1a
 */
export function digest32(text: string): string {
  return hexadecimal(fnv1a(text), 8);
}

/**
 * The same folded to 16 bits: both halves, one laid over the other.
 *
 * @returns four hexadecimal digits
 * @source RFC 9923, "Other Hash Sizes and XOR Folding"
 */
export function digest16(text: string): string {
  const digest = fnv1a(text);
  return hexadecimal((digest >>> 16) ^ (digest & 0xffff), 4);
}

/** @source RFC 9923: offset basis and prime of the 32-bit variant */
function fnv1a(text: string): number {
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

function hexadecimal(digest: number, digitCount: number): string {
  return digest.toString(16).padStart(digitCount, '0');
}
