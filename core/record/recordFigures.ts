// RecordFigures: how far what was measured, listened to and signed still stands for the set-up as the file has it. Plain data.

import type { Path } from '../../schema/model/path.ts';
import type { ListeningCheck } from '../../schema/model/sessions.ts';
import type { Fingerprint } from './fingerprint.ts';
import type { SetupPart } from './setupParts.ts';

export interface RecordFigures {
  readonly fingerprint: Fingerprint;
  /** The ISO date that it was worked out on; null where nobody knows. */
  readonly today: string | null;
  /**
   * `predicted`: nothing measured. `measured`: a session with takes stands. `signed`: and someone signed. `recheck_due`: signed, and
   * the time that a sign-off holds is over. `out_of_date`: signed, or measured, in another set-up.
   */
  readonly state: 'predicted' | 'measured' | 'signed' | 'recheck_due' | 'out_of_date';
  /** In the file's order. */
  readonly sessions: readonly SessionRecord[];
  /** null where the room is not signed off. */
  readonly signOff: SignOffRecord | null;
  /** The room's checks in the file's order, then those that only the facility asks for. */
  readonly listening: readonly ListeningRecord[];
}

/** A dated thing against the set-up as it is now. */
export interface Tie {
  readonly date: string | null;
  readonly by: string | null;
  /** The fingerprint as written; null where there is none. */
  readonly setup: string | null;
  /** `untied`: no fingerprint. `unknown`: the set-up cannot be read at present. */
  readonly tie: 'in_date' | 'out_of_date' | 'untied' | 'unknown';
  /** The parts that are otherwise now; empty also where a short fingerprint cannot tell. */
  readonly changed: readonly SetupPart[];
}

export interface SessionRecord extends Tie {
  readonly session: string;
  readonly path: Path;
  readonly takeCount: number;
  /** No later session with takes: what the room's state rests on. */
  readonly isNewest: boolean;
}

export interface SignOffRecord extends Tie {
  readonly path: Path;
  /** The last day on which it holds; null without a date or a time. */
  readonly due: string | null;
  readonly dueFrom: 'room' | 'policy' | null;
  /** null where nobody knows today's date, or there is no such day. */
  readonly isDue: boolean | null;
  /** There is a session with takes that is no later and not known to be of another set-up. */
  readonly isMeasured: boolean;
}

export interface ListeningRecord extends Tie {
  readonly check: string;
  /** null where only the facility asks for it. */
  readonly path: Path | null;
  readonly play: string | null;
  readonly listenFor: string | null;
  readonly level: ListeningCheck['level'];
  readonly result: ListeningCheck['result'];
  readonly isAsked: boolean;
  /** `open`: no result yet. `before_change`: listened to, then the set-up changed. */
  readonly state: 'done' | 'open' | 'before_change';
}
