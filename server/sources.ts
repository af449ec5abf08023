// Sources: the text of every file that the session has looked at, open or on the disk, read and parsed once for each version.

import { TextDocument } from 'vscode-languageserver-textdocument';
import { kindOf } from '../schema/kindOf.ts';
import type { FileKind } from '../schema/model/parsedFile.ts';
import { createParser, type Parser } from '../schema/parse/parseFile.ts';
import type { Source } from './analysis.ts';
import type { Files } from './files/files.ts';
import { kindByFirstKey } from './files/kindByFirstKey.ts';

/** Knows files by their one spelling (`sameUri`). */
export interface Sources {
  readonly open: (uri: string, version: number, text: string, languageId: string) => void;
  readonly close: (uri: string) => void;
  readonly changedOnDisk: (uris: readonly string[]) => void;
  readonly opened: () => readonly Source[];
  /** An open file's text counts before the disk's. null where there is no such file, or it is none of ours. */
  readonly at: (uri: string) => Promise<Source | null>;
  readonly find: (folder: string, glob: string) => Promise<readonly string[]>;
  /** All files of one kind below a folder, in the order of the globs, each once. */
  readonly below: (
    folder: string,
    globs: readonly string[],
    kind: FileKind,
  ) => Promise<readonly Source[]>;
}

export function createSources(files: Files): Sources {
  const opened = new Map<string, Source>();
  const onDisk = new Map<string, Promise<Source | null>>();
  const finds = new Map<string, Promise<readonly string[]>>();
  const reader = createReader();

  async function at(uri: string): Promise<Source | null> {
    const open = opened.get(uri);
    if (open) return open;
    const known = onDisk.get(uri);
    if (known) return known;
    const reading = files
      .read(uri)
      .then((text) => (text === null ? null : reader.read(uri, null, text, '')));
    onDisk.set(uri, reading);
    return reading;
  }

  function find(folder: string, glob: string): Promise<readonly string[]> {
    const key = `${folder} ${glob}`;
    const finding = finds.get(key) ?? files.find(folder, [glob]);
    finds.set(key, finding);
    return finding;
  }

  return {
    open(uri, version, text, languageId) {
      const source = reader.read(uri, version, text, languageId);
      if (source) opened.set(uri, source);
      else opened.delete(uri);
    },
    close(uri) {
      opened.delete(uri);
      onDisk.delete(uri);
      reader.forget(uri);
    },
    changedOnDisk(uris) {
      for (const uri of uris) onDisk.delete(uri);
      finds.clear();
    },
    opened: () => [...opened.values()],
    at,
    find,
    async below(folder, globs, kind) {
      const sources = new Map<string, Source>();
      for (const glob of globs) {
        for (const uri of await find(folder, glob)) {
          const source = sources.has(uri) ? null : await at(uri);
          if (source?.parsed.kind === kind) sources.set(uri, source);
        }
      }
      return [...sources.values()];
    },
  };
}

/** What an editor calls the three kinds; it counts before the file's name, which an unsaved file has none of. */
const KIND_OF_LANGUAGE: Readonly<Record<string, FileKind>> = {
  'groundbass-room': 'room',
  'groundbass-gear': 'gear',
  'groundbass-facility': 'facility',
};

interface Reader {
  /** null for a file that is none of ours. */
  readonly read: (
    uri: string,
    version: number | null,
    text: string,
    languageId: string,
  ) => Source | null;
  readonly forget: (uri: string) => void;
}

/** Reads texts; for an open file it keeps a parser, which reads of a changed text only what changed. */
function createReader(): Reader {
  const parsers = new Map<string, { readonly kind: FileKind; readonly parser: Parser }>();

  function parserOf(uri: string, kind: FileKind, isOpen: boolean): Parser {
    const known = parsers.get(uri);
    if (known?.kind === kind) return known.parser;
    const parser = createParser(kind);
    if (isOpen) parsers.set(uri, { kind, parser });
    return parser;
  }

  return {
    read(uri, version, text, languageId) {
      const kind = KIND_OF_LANGUAGE[languageId] ?? kindOf(uri) ?? kindByFirstKey(text);
      if (kind === null) return null;
      const parsed = parserOf(uri, kind, version !== null).parse(text);
      const document = TextDocument.create(uri, 'groundbass', version ?? 0, text);
      return { uri, version, text: document, parsed };
    },
    forget: (uri) => void parsers.delete(uri),
  };
}
