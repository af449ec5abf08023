// What the pane shows at a time, and how each message of the host changes it.

import type { Setup } from '../../../core/setup.ts';
import type { HostToPane } from '../../../server/protocol/pane.ts';
import type { Found } from '../../../server/protocol/search.ts';
import type { SetupAnswer } from '../../../server/protocol/setup.ts';

export interface PaneView {
  readonly uri: string | null;
  readonly version: number;
  /** How often the host has said what the file says, or refused to change it. */
  readonly told: number;
  readonly label: string;
  /** What the file says, last known; stays while a newer text is worked out or cannot be read. */
  readonly setup: Setup | null;
  /** The low end in it is that of the version before. */
  readonly isFieldOlder: boolean;
  readonly problems: SetupAnswer['problems'];
  /** What was searched for and still holds. */
  readonly found: Found;
  /** A line over the sheet: why it is not the latest, or why there is none. */
  readonly remark: string | null;
}

const NOTHING_FOUND: Found = { places: [], fits: [] };

export const NOTHING_YET: PaneView = {
  uri: null,
  version: 0,
  told: 0,
  label: '',
  setup: null,
  isFieldOlder: false,
  problems: [],
  found: NOTHING_FOUND,
  remark: 'Working out the room…',
};

export function heard(view: PaneView, message: HostToPane): PaneView {
  switch (message.kind) {
    case 'setup': {
      const { answer, label } = message;
      const isSameFile = answer.uri === view.uri;
      return {
        uri: answer.uri,
        version: answer.version,
        told: view.told + 1,
        label,
        setup: answer.setup ?? (isSameFile ? view.setup : null),
        isFieldOlder: answer.isFieldOlder === true,
        problems: answer.problems,
        found: answer.found ?? NOTHING_FOUND,
        remark:
          answer.setup !== null
            ? null
            : 'The file cannot be read at the moment: its problems are listed in the editor.',
      };
    }
    case 'busy':
      return { ...view, remark: `Working out ${message.label}…` };
    case 'none':
      return { ...NOTHING_YET, told: view.told + 1, remark: message.why };
    case 'refused':
      return { ...view, told: view.told + 1, remark: `Not changed: ${message.why}` };
    case 'highlight':
    case 'jump':
    case 'searched':
    case 'tried':
    case 'answered':
      return view;
  }
}
