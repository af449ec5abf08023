// The three kinds of file as the editor knows them, and how to tell a room.

import type { DocumentFilter, TextDocument, Uri } from 'vscode';

export const ROOM_LANGUAGE = 'groundbass-room';

/** No scheme: files, untitled texts and virtual file systems alike. */
export const GROUNDBASS_SELECTOR: readonly DocumentFilter[] = [
  { language: ROOM_LANGUAGE },
  { language: 'groundbass-gear' },
  { language: 'groundbass-facility' },
];

/** All files that one room's figures may depend on. */
export const WATCHED_FILES = ['**/*.room.yaml', '**/*.gear.yaml', '**/facility.yaml'] as const;

export function isRoom(document: TextDocument | undefined): document is TextDocument {
  return document?.languageId === ROOM_LANGUAGE;
}

/** What a person calls a room file: its name without folders and ending. */
export function roomName(uri: Uri): string {
  const name = uri.path.split('/').at(-1) ?? uri.path;
  return name.replace(/\.room\.yaml$/, '');
}
