// Guards for the callers of this folder: a number that cannot be meant is a caller's fault and is refused at once.

/**
 * @param name how the parameter is called, for the message
 * @param value must be finite and > 0
 * @returns the value itself
 * @throws RangeError otherwise
 */
export function positive(name: string, value: number): number {
  if (!(0 < value && value < Number.POSITIVE_INFINITY)) {
    throw new RangeError(`${name} must be > 0, got ${value}`);
  }
  return value;
}

/**
 * @param name how the parameter is called, for the message
 * @param value must be finite and >= 0
 * @returns the value itself
 * @throws RangeError otherwise
 */
export function notNegative(name: string, value: number): number {
  if (!(0 <= value && value < Number.POSITIVE_INFINITY)) {
    throw new RangeError(`${name} must be >= 0, got ${value}`);
  }
  return value;
}
