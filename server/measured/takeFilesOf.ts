// The bytes of everything that a take rests on, or why they cannot be had.

import type { TakeFault } from '../../core/measured/measuredFigures.ts';
import type { FileBytes, Files } from '../files/files.ts';
import type { TakeFiles } from './readTake.ts';
import type { NamedUri, TakeRequest } from './takeRequests.ts';

/** `files` is null where the take cannot be read; what only adds to it may be missing. */
export interface FilesFound {
  readonly files: TakeFiles | null;
  readonly faults: readonly TakeFault[];
}

export async function takeFilesOf(request: TakeRequest, files: Files): Promise<FilesFound> {
  const { file, sweep, corrections, fence, channel, loopback, timing } = request;
  const get = (named: NamedUri): Promise<FileBytes> => bytesOf(named, fence, files);
  const main = await get(file);
  if (!('bytes' in main))
    return { files: null, faults: [faultOf(main.why, 'measurement/unreadable', 'the file')] };
  const played = sweep === null ? null : await get(sweep);
  const sweepName = `the sweep's file \`${sweep?.name ?? ''}\``;
  if (played !== null && !('bytes' in played))
    return { files: null, faults: [faultOf(played.why, 'measurement/sweep', sweepName)] };
  const curves = await Promise.all(
    corrections.map(async (named) => ({ name: named.name, got: await get(named) })),
  );
  const found = curves.flatMap(({ name, got }) =>
    'bytes' in got ? [{ name, bytes: got.bytes }] : [],
  );
  const faults = curves.flatMap(({ name, got }) =>
    'bytes' in got
      ? []
      : [faultOf(got.why, 'measurement/correction', `the correction file \`${name}\``)],
  );
  return {
    files: {
      file: main.bytes,
      sweep: played?.bytes ?? null,
      corrections: found,
      channel,
      loopback,
      timing,
    },
    faults,
  };
}

async function bytesOf({ uri }: NamedUri, fence: string, files: Files): Promise<FileBytes> {
  // What is not there, or not inside the fence, has been told where the file is named.
  if (uri === null || files.exists(uri, fence) === false) return { why: 'told' };
  return files.bytes(uri, fence);
}

function faultOf(
  why: Exclude<FileBytes, { readonly bytes: Uint8Array }>['why'],
  code: string,
  what: string,
): TakeFault {
  const severity = code === 'measurement/correction' ? 'warning' : 'error';
  const message = {
    none: `${what} is not there, or cannot be read`,
    told: `${what} is not there, or not inside the folder that is open`,
    large: `${what} is larger than 128 MB`,
    outside: `${what} lies outside the folder that is open`,
  }[why];
  return { code: why === 'told' ? 'reference/file' : code, severity, message };
}
