// Requests from the server to its client where the server has no file system of its own (web worker): find and read files.

/** Request, server to client: URIs of all files below the workspace folders that match one of the globs. */
export const FIND_FILES_REQUEST = 'groundbass/findFiles';
export interface FindFilesParams {
  readonly globs: readonly string[];
}
export type FindFilesAnswer = readonly string[];

/** Request, server to client: a file's text; null where it does not exist or is too large. */
export const READ_FILE_REQUEST = 'groundbass/readFile';
export interface ReadFileParams {
  readonly uri: string;
}
export type ReadFileAnswer = string | null;

/** Request, server to client: a measurement file's bytes, as text in base 64. */
export const READ_BYTES_REQUEST = 'groundbass/readBytes';
export interface ReadBytesParams {
  readonly uri: string;
  /** A file with more bytes is not read. */
  readonly most: number;
}
export interface ReadBytesAnswer {
  /** null where there are none to be had; `why` says why. */
  readonly base64: string | null;
  readonly why: 'none' | 'large' | 'outside' | null;
}
