// The language server under Node: over IPC, a pipe or standard input and output, as its arguments say.

import { keepCompiled } from './keepCompiled.ts';
import { serveAsThread } from './threads.ts';

keepCompiled();
if (!serveAsThread()) {
  const { serveArguments } = await import('./serveArguments.ts');
  serveArguments();
}
