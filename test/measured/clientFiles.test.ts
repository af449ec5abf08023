// Bytes of takes for a server without a disk: asked of its client, as text in base 64.

import { expect, test } from 'vitest';
import type { Connection } from 'vscode-languageserver';
import { clientFiles } from '../../server/browser/clientFiles.ts';
import { READ_BYTES_REQUEST, type ReadBytesAnswer } from '../../server/protocol/files.ts';

function filesOf(answer: ReadBytesAnswer) {
  const asked: unknown[] = [];
  const sendRequest = async (method: string, params: unknown) => {
    asked.push([method, params]);
    return answer;
  };
  // Of a connection, requests alone are used.
  return { files: clientFiles({ sendRequest } as unknown as Connection), asked };
}

test('every byte comes over as it was', async () => {
  const bytes = Uint8Array.from({ length: 256 }, (_, i) => i);
  const base64 = Buffer.from(bytes).toString('base64');
  const { files, asked } = filesOf({ base64, why: null });
  expect(await files.bytes('vscode-vfs:/room/a.wav', 'vscode-vfs:/room')).toEqual({ bytes });
  expect(asked).toEqual([
    [READ_BYTES_REQUEST, { uri: 'vscode-vfs:/room/a.wav', most: 128_000_000 }],
  ]);
});

test.each(['none', 'large', 'outside'] as const)('why there are none: %s', async (why) => {
  const { files } = filesOf({ base64: null, why });
  expect(await files.bytes('vscode-vfs:/room/a.wav', 'vscode-vfs:/room')).toEqual({ why });
});
