// The located tree: a file's content with the place of every key and value, free of any YAML library.

/** Offsets into the text in UTF-16 units: `start` is inside, `end` is the first one outside. */
export interface Range {
  readonly start: number;
  readonly end: number;
}

export type Located = LocatedMap | LocatedList | LocatedScalar;

/**
 * A scalar as the file's author wrote it. `text` is the source text after quotes and folding are undone, never a
 * number or a boolean: `5.1` and `00417` stay what they were; a reader turns them into what the schema asks for.
 */
export interface LocatedScalar {
  readonly kind: 'scalar';
  readonly text: string;
  readonly style: 'plain' | 'single' | 'double' | 'block';
  readonly range: Range;
}

export interface LocatedMap {
  readonly kind: 'map';
  /** In the file's order. A key that stands twice is told as a problem; the first one counts. */
  readonly entries: ReadonlyMap<string, LocatedEntry>;
  readonly flow: boolean;
  readonly range: Range;
}

export interface LocatedEntry {
  readonly key: string;
  readonly keyRange: Range;
  /** null where nothing was written behind the colon. */
  readonly value: Located | null;
  /** From the key to the end of the value. */
  readonly range: Range;
}

export interface LocatedList {
  readonly kind: 'list';
  readonly items: readonly (Located | null)[];
  readonly flow: boolean;
  readonly range: Range;
}
