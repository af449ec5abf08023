// Files through the client, for the server in a web worker: the client lists and reads, the server matches.

import picomatch from 'picomatch';
import type { Connection } from 'vscode-languageserver';
import { type Files, LARGEST_MEASUREMENT_bytes, OUR_GLOBS, staysBelow } from '../files/files.ts';
import { relativeTo, sameUri } from '../files/uri.ts';
import {
  FIND_FILES_REQUEST,
  type FindFilesAnswer,
  type FindFilesParams,
  READ_BYTES_REQUEST,
  READ_FILE_REQUEST,
  type ReadBytesAnswer,
  type ReadBytesParams,
  type ReadFileAnswer,
  type ReadFileParams,
} from '../protocol/files.ts';

export function clientFiles(connection: Connection): Files {
  return {
    async find(folder, globs) {
      const params: FindFilesParams = { globs: OUR_GLOBS };
      const all: FindFilesAnswer = await connection.sendRequest(FIND_FILES_REQUEST, params);
      const matches = picomatch(globs.filter(staysBelow));
      return all
        .map(sameUri)
        .filter((uri) => {
          const relative = relativeTo(folder, uri);
          return relative !== null && matches(relative);
        })
        .sort();
    },
    read(uri) {
      const params: ReadFileParams = { uri };
      return connection.sendRequest<ReadFileAnswer>(READ_FILE_REQUEST, params);
    },
    async bytes(uri) {
      const params: ReadBytesParams = { uri, most: LARGEST_MEASUREMENT_bytes };
      const { base64, why } = await connection.sendRequest<ReadBytesAnswer>(
        READ_BYTES_REQUEST,
        params,
      );
      if (base64 === null) return { why: why ?? 'none' };
      return { bytes: Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0)) };
    },
    exists: () => null, // Asking is a round trip; a missing measurement file is left to those who can look.
  };
}
