// The language server under Node: over IPC, a pipe or standard input and output, as its arguments say.

import { createConnection, ProposedFeatures } from 'vscode-languageserver/node';
import { serveNode } from './serveNode.ts';

serveNode(createConnection(ProposedFeatures.all));
