// Our own messages that change or export a room: edits by meaning in, text edits or a document out.

import type { SemanticEdit } from '../../core/finding.ts';
import type { TextRange } from './places.ts';

/** Request: what these edits are as text edits of this version; null where the text has moved on or a path is gone. */
export const EDIT_REQUEST = 'groundbass/edit';
export interface EditParams {
  readonly uri: string;
  readonly version: number;
  readonly edits: readonly SemanticEdit[];
}
export type EditAnswer = readonly { readonly range: TextRange; readonly newText: string }[] | null;

/** Request: the setup sheet as one self-contained HTML document. */
export const SHEET_REQUEST = 'groundbass/sheet';
export interface SheetParams {
  readonly uri: string;
}
export type SheetAnswer = { readonly html: string } | null;
