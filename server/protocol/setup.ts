// Our own messages about a room's setup: what the preview asks for and is told. Told in docs/protocol.md.

import type { Setup } from '../../core/setup.ts';
import type { Path } from '../../schema/model/path.ts';
import type { Severity } from '../../schema/model/problem.ts';
import type { Found } from './search.ts';

/** Request, client to server: the setup of an open room file. */
export const SETUP_REQUEST = 'groundbass/setup';
export interface SetupParams {
  readonly uri: string;
}
export interface SetupAnswer {
  readonly uri: string;
  /** The document's version that was worked out. */
  readonly version: number;
  /** null where the file is no room, or cannot be read at all. */
  readonly setup: Setup | null;
  /** `setup.field` is that of the version before: the new one is being worked out, and will be told. */
  readonly isFieldOlder?: boolean;
  /** What was searched for and still holds; absent where nothing was. */
  readonly found?: Found;
  /** Faults of the text and its references, beside the findings in `setup`. */
  readonly problems: readonly {
    readonly code: string;
    readonly severity: Severity;
    readonly message: string;
    readonly path: Path;
    /** From 0. */
    readonly line: number;
  }[];
}

/** Notification, server to client: the setup of this file is another now. The pane then asks, once it is ready to. */
export const SETUP_CHANGED = 'groundbass/setupChanged';
export interface SetupChangedParams {
  readonly uri: string;
  readonly version: number;
}
