// What the compiled validators need at run time.

/** The length of a text in characters (code points), as JSON Schema counts. */
export function textLength(text: string): number {
  let length = 0;
  for (const _ of text) length++;
  return length;
}

/** Whether two items of a list are the same. Lists whose items must differ hold scalars only. */
export function sameScalar(a: unknown, b: unknown): boolean {
  return a === b;
}

/** Whether it is a map. */
export function isMap(data: unknown): boolean {
  return typeof data === 'object' && data !== null && !Array.isArray(data);
}

/** A key as a step of a JSON pointer. */
export function step(key: string): string {
  return /[~/]/.test(key) ? key.replaceAll('~', '~0').replaceAll('/', '~1') : key;
}

const NOTHING: Readonly<Record<string, unknown>> = {};

/** The faults with one more. */
export function told(
  faults: unknown[] | null,
  instancePath: string,
  keyword: string,
  params: Readonly<Record<string, unknown>> = NOTHING,
  schemaPath = '',
  propertyName?: string,
): unknown[] {
  const fault = { instancePath, keyword, params, schemaPath, propertyName };
  if (faults === null) return [fault];
  faults.push(fault);
  return faults;
}

interface Validator {
  (data: unknown, instancePath: string): boolean;
  errors: unknown[];
}

/** The faults with those of an inner value. */
export function inside(
  faults: unknown[] | null,
  validate: Validator,
  data: unknown,
  instancePath: string,
): unknown[] | null {
  if (validate(data, instancePath)) return faults;
  return faults === null ? validate.errors : faults.concat(validate.errors);
}

/** How many there are so far. */
export function sizeOf(faults: unknown[] | null): number {
  return faults === null ? 0 : faults.length;
}
