// Messages between the preview's page and its host (the editor's side of the pane). Data only: no HTML goes over this wire.

import type { SemanticEdit } from '../../core/finding.ts';
import type { Path } from '../../schema/model/path.ts';
import type { LowEndAnswer, LowEndParams } from './lowEnd.ts';
import type { Wanted } from './search.ts';
import type { SetupAnswer } from './setup.ts';

/** Page to host. The host sends nothing before `ready`, and everything again after each `ready` (a hidden page is thrown away). */
export type PaneToHost =
  | { readonly kind: 'ready' }
  /** Show this place in the editor: clicked, or Enter was pressed on it. */
  | { readonly kind: 'reveal'; readonly path: Path }
  /**
   * One change of the file, one step to undo: a thing was dragged, or a setting is to be dialled in. `version` is that of
   * the answer shown. The host answers by the next `setup`, or by `refused`.
   */
  | {
      readonly kind: 'edit';
      readonly version: number;
      readonly title: string;
      readonly edits: readonly SemanticEdit[];
    }
  /** Search places for a subwoofer, the main pair or the seat, or fit EQ of a device; the host answers `searched`, after a `setup` with what was found. */
  | ({ readonly kind: 'search' } & Wanted)
  /** Stop what is being searched for; the host answers `searched`. */
  | { readonly kind: 'stop' }
  /** The low end while something moves; the host answers `answered` with the same number. */
  | ({ readonly kind: 'ask'; readonly number: number } & Pick<LowEndParams, 'version' | 'ask'>)
  /** Show the room as it would be with these edits; the host answers `tried` with the same number. */
  | {
      readonly kind: 'try';
      readonly trial: number;
      readonly version: number;
      readonly edits: readonly SemanticEdit[];
    };

/** Host to page. */
export type HostToPane =
  /** Draw this. `label` is what a person calls the file (`rooms/heron.room.yaml`). */
  | { readonly kind: 'setup'; readonly answer: SetupAnswer; readonly label: string }
  /** The cursor moved to this place; null where it stands on nothing. Scrolls it into view. */
  | { readonly kind: 'highlight'; readonly path: Path | null }
  /** Someone asked for the drawing of this place: it is brought into view, as soon as it is drawn. */
  | { readonly kind: 'jump'; readonly path: Path }
  /** A newer text is being worked out and it takes a while: what is drawn is kept and marked as not the latest. */
  | { readonly kind: 'busy'; readonly label: string }
  /** There is nothing to draw: no room file is open, or the server is gone. `why` is told to the user. */
  | { readonly kind: 'none'; readonly why: string }
  /** A search is over. `why` is told to the user where it found nothing or was stopped. */
  | { readonly kind: 'searched'; readonly why: string | null }
  /** null where the text has moved on, or there is no time for it. */
  | { readonly kind: 'answered'; readonly number: number; readonly answer: LowEndAnswer | null }
  /** The room as it would be; null where the text has moved on. */
  | { readonly kind: 'tried'; readonly trial: number; readonly answer: SetupAnswer | null }
  /** An `edit` could not be made (the text has moved on): the page goes back to what the file says. */
  | { readonly kind: 'refused'; readonly why: string };

/** What the page keeps by `setState`; a panel serializer finds its file in it after a reload of the window. */
export interface PaneState {
  readonly uri: string | null;
  readonly scroll_px: number;
  /** Ids of the details that stand open. */
  readonly open: readonly string[];
}
