// Files: how the server finds and reads what lies around an open file, whatever stands behind it (a disk, a browser's client).

export interface Files {
  /**
   * URIs of files below a folder that match one of the globs, in a stable order. Globs are relative to the folder and never
   * lead out of it; links that lead out are left out.
   */
  readonly find: (folder: string, globs: readonly string[]) => Promise<readonly string[]>;
  /** A file's text; null where there is none, it cannot be read, or it is too large. */
  readonly read: (uri: string) => Promise<string | null>;
  /** A measurement file's bytes; it and whatever links lead to it must lie below `folder`. */
  readonly bytes: (uri: string, folder: string) => Promise<FileBytes>;
  /** Whether a file is there and lies below `folder`; null where nobody can say. */
  readonly exists: (uri: string, folder: string) => boolean | null;
}

/** `told`: someone has been told already that it is not there. */
export type FileBytes =
  | { readonly bytes: Uint8Array }
  | { readonly why: 'none' | 'told' | 'large' | 'outside' };

/** The three kinds of file, as globs below any folder. */
export const OUR_GLOBS: readonly string[] = [
  '**/*.room.yaml',
  '**/*.gear.yaml',
  '**/facility.yaml',
];

/** What a room may name beside itself: measurements and corrections. */
export const MEASUREMENT_GLOBS: readonly string[] = ['**/*.{txt,csv,tsv,dat,wav,WAV}'];

/** Larger files are not read: nobody writes them by hand. */
export const LARGEST_FILE_bytes = 2_000_000;

/** Larger measurements are not read: eleven minutes of two channels in 16 bits. */
export const LARGEST_MEASUREMENT_bytes = 128_000_000;

/** More files than this below one folder are left alone. */
export const MOST_FILES = 5_000;

/** Whether a glob of a file stays below the folder that it starts from. */
export function staysBelow(glob: string): boolean {
  return (
    !glob.startsWith('/') &&
    !glob.startsWith('!') &&
    !/^[a-z]+:/i.test(glob) &&
    !glob.includes('\\') &&
    !glob.split('/').includes('..')
  );
}
