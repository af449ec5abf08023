// Serves an editor on this process's standard input and output until it says goodbye.

import { createConnection, ProposedFeatures } from 'vscode-languageserver/node';
import { serveNode } from './serveNode.ts';

/** @param tell where a message for a person goes, since standard output belongs to the editor */
export function serveStdio(tell: (text: string) => void): Promise<void> {
  if (process.stdin.isTTY) tell('groundbass lsp: waiting for an editor on standard input\n');
  serveNode(createConnection(ProposedFeatures.all, process.stdin, process.stdout));
  return new Promise((resolve) => process.stdin.once('end', resolve));
}
