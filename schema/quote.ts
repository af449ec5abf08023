// Writes text as a YAML value that reads back as exactly this text.

/** Single quotes where they will do, double quotes where a line break or a control character has to be escaped. */
export function quoted(text: string): string {
  // biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what is looked for
  if (/[\u0000-\u001f\u007f-\u009f\u2028\u2029\ufeff]/.test(text))
    return JSON.stringify(text).replace(/[\u007f-\u009f\u2028\u2029\ufeff]/g, escapeCharacter);
  return text.includes('"') || text.includes('\\')
    ? `'${text.replaceAll("'", "''")}'`
    : `"${text}"`;
}

function escapeCharacter(character: string): string {
  return `\\u${character.charCodeAt(0).toString(16).padStart(4, '0')}`;
}

/**
 * A plain scalar where YAML reads it back unchanged, in flow and in block, and takes it for text or for the quantity that it is;
 * else quoted.
 */
export function plainOrQuoted(text: string): string {
  return isSafePlain(text) ? text : quoted(text);
}

const SAFE = /^[\p{L}\p{N}+.°'_/-][\p{L}\p{N} +.°±%"'_/()µΩ–−:>-]*$/u;
const NUMBER_LIKE =
  /^(?:[-+]?(?:\.\d+|\d+(?:\.\d*)?)(?:[eE][-+]?\d+)?|0o[0-7]+|0x[0-9a-fA-F]+|[-+]?\.(?:inf|Inf|INF)|\.(?:nan|NaN|NAN))$/;

/** What the core schema of YAML 1.2 takes for a number, a truth value or nothing. */
export function isNumberLike(text: string): boolean {
  return (
    NUMBER_LIKE.test(text) || /^(?:true|True|TRUE|false|False|FALSE|null|Null|NULL|~)?$/.test(text)
  );
}

function isSafePlain(text: string): boolean {
  return (
    SAFE.test(text) && !isNumberLike(text) && !/:(?:\s|$)|\s$|^-(?:\s|$)|^'|^---|^\.\.\./.test(text)
  );
}
