// The sound parts of a file as a plain, typed object: strings as written, numbers and truth values where the schema takes them.

import { branchOf, rootSchema, stepInto } from './describe.ts';
import type { Located } from './model/located.ts';
import type { FileKind, ParsedFile } from './model/parsedFile.ts';
import type { ResolvedSchema } from './resolveSchemas.ts';
import type { FacilityFile, GearFile, RoomFile } from './types.generated.ts';

/** Any part may be missing: what has an error is left out. */
export type SoundPart<T> = T extends readonly (infer Item)[]
  ? readonly SoundPart<Item>[]
  : T extends object
    ? { readonly [Key in keyof T]?: SoundPart<T[Key]> }
    : T;

export interface FileTypes {
  readonly room: RoomFile;
  readonly gear: GearFile;
  readonly facility: FacilityFile;
}

/** Objects without a prototype, in the file's order. `x_…` keys are kept as text. */
export function toPlain<Kind extends FileKind>(
  kind: Kind,
  file: ParsedFile,
): SoundPart<FileTypes[Kind]> {
  const faulty = new Set(
    file.problems
      .filter(({ severity }) => severity === 'error')
      .map(({ path }) => JSON.stringify(path)),
  );
  const plain = file.root === null ? {} : plainOf(file.root, rootSchema(kind), [], faulty);
  return (plain ?? {}) as SoundPart<FileTypes[Kind]>;
}

function plainOf(
  node: Located,
  schema: ResolvedSchema | null,
  path: readonly string[],
  faulty: ReadonlySet<string>,
): unknown {
  if (node.kind === 'scalar') return scalarOf(node.text, node.style === 'plain', schema);
  const isFaulty = (inner: readonly string[], value: Located | null): boolean =>
    value === null || (faulty.has(JSON.stringify(inner)) && value.kind !== 'map');
  if (node.kind === 'list') {
    return node.items.flatMap((item, index) => {
      const inner = [...path, String(index)];
      return item === null || isFaulty(inner, item)
        ? []
        : [plainOf(item, schema?.items ?? null, inner, faulty)];
    });
  }
  const branch = schema && branchOf(schema, node);
  const plain: Record<string, unknown> = Object.create(null);
  for (const [key, { value }] of node.entries) {
    const inner = [...path, key];
    const below = branch && stepInto(branch, key);
    if (value === null || isFaulty(inner, value)) continue;
    if (below === null && !key.startsWith('x_') && schema?.overlay !== true && schema !== null)
      continue; // an unknown key
    plain[key] = plainOf(value, below, inner, faulty);
  }
  return plain;
}

function scalarOf(text: string, isPlain: boolean, schema: ResolvedSchema | null): unknown {
  const types = [schema?.type ?? []].flat();
  const takes = (...names: readonly string[]) => names.some((name) => types.includes(name));
  if (
    isPlain &&
    (takes('number', 'integer') || typeof schema?.const === 'number') &&
    /^[-+]?\d/.test(text)
  ) {
    const value = Number(text);
    if (Number.isFinite(value)) return value;
  }
  if (
    isPlain &&
    (takes('boolean') || typeof schema?.const === 'boolean') &&
    (text === 'true' || text === 'false')
  )
    return text === 'true';
  return text;
}
