// The language server under Node: over IPC, a pipe or standard input and output, as its arguments say.

import { createConnection, ProposedFeatures } from 'vscode-languageserver/node';
import { isFieldThread, serveField } from './fieldThread.ts';
import { serveNode } from './serveNode.ts';

if (isFieldThread()) serveField();
else serveNode(createConnection(ProposedFeatures.all));
