// The bytes of everything that a take rests on, or why they cannot be had.

import type { TakeFault } from '../../core/measured/measuredFigures.ts';
import type { FileBytes, Files } from '../files/files.ts';
import type { LevelReference } from './levelReference.ts';
import type { TakeFiles } from './readTake.ts';
import type { NamedUri, TakeRequest } from './takeRequests.ts';

/** `files` is null where the take cannot be read; what only adds to it may be missing. */
export interface FilesFound {
  readonly files: TakeFiles | null;
  readonly faults: readonly TakeFault[];
}

export async function takeFilesOf(request: TakeRequest, files: Files): Promise<FilesFound> {
  const { records, file, sweep, corrections, fence, channel, loopback, timing } = request;
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
  const reference = await referenceOf(request, main.bytes, get);
  return {
    files: {
      records,
      reference,
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

/** A calibrator that cannot be had is told of at its own line. */
async function referenceOf(
  { reference, records }: TakeRequest,
  own: Uint8Array,
  get: (named: NamedUri) => Promise<FileBytes>,
): Promise<LevelReference | null> {
  if (reference === null) return null;
  const { fullScale_dbspl, calibrator } = reference;
  if (calibrator === null) return { fullScale_dbspl, calibrator };
  const got = records === 'calibrator' ? { bytes: own } : await get(calibrator.file);
  return {
    fullScale_dbspl,
    calibrator: 'bytes' in got ? { ...calibrator, bytes: got.bytes } : null,
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
