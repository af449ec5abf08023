// The schemas, compiled into validators. Made by: npx tsx schema/build/generate.ts

/** One fault of some data, in the validator's own terms; `parse/shape.ts` puts it into the format's words. */
export interface SchemaError {
  /** A JSON pointer to the value. */
  readonly instancePath: string;
  readonly keyword: string;
  /** Which key, item or branch, where the keyword alone does not say it; else empty. */
  readonly params: Readonly<Record<string, unknown>>;
  /** Where in the schema, where it matters; else empty. */
  readonly schemaPath: string;
  readonly propertyName?: string;
}

export interface Validator {
  (data: unknown): boolean;
  errors?: readonly SchemaError[] | null;
}

/** For each kind of file: one validator for its own keys, and one for each key's value. */
export const validators: Readonly<
  Record<'room' | 'gear' | 'facility', { readonly root: Validator; readonly keys: Readonly<Record<string, Validator>> }>
>;
