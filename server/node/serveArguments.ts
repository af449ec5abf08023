// Serves an editor on the way that this process's arguments name.

import { createConnection, ProposedFeatures } from 'vscode-languageserver/node';
import { serveNode } from './serveNode.ts';

export function serveArguments(): void {
  serveNode(createConnection(ProposedFeatures.all));
}
