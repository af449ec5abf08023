// A job of the third phase: one take to be read, the takes of a room to be held against its plan, or the room to be fitted to them.

import {
  type NotFitted,
  type RoomFromTakes,
  roomFromTakes,
} from '../../core/measured/roomFromTakes.ts';
import type { TakeReading } from '../../core/measured/takeReading.ts';
import type { VerificationFigures } from '../../core/measured/verification.ts';
import { verified } from '../../core/measured/verified.ts';
import type { Setup } from '../../core/setup.ts';
import { readTake, type TakeFiles } from './readTake.ts';

export type MeasuredJob =
  | { readonly kind: 'take'; readonly files: TakeFiles }
  /** A setup with its field and its takes. */
  | { readonly kind: 'verify'; readonly setup: Setup }
  | { readonly kind: 'fit'; readonly setup: Setup; readonly session: string };

export type MeasuredReply =
  | { readonly kind: 'take'; readonly reading: TakeReading }
  | { readonly kind: 'verify'; readonly verification: VerificationFigures | null }
  | { readonly kind: 'fit'; readonly found: RoomFromTakes | NotFitted }
  | { readonly kind: 'fault'; readonly fault: string };

/** Pure; a fault of ours is an answer too. */
export function doJob(job: MeasuredJob): MeasuredReply {
  try {
    switch (job.kind) {
      case 'take':
        return { kind: 'take', reading: readTake(job.files) };
      case 'verify':
        return { kind: 'verify', verification: verified(job.setup) };
      case 'fit':
        return { kind: 'fit', found: roomFromTakes(job.setup, job.session) };
    }
  } catch (error) {
    const fault = error instanceof Error ? (error.stack ?? error.message) : String(error);
    return { kind: 'fault', fault };
  }
}
