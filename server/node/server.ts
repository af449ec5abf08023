// The language server under Node: over IPC, a pipe or standard input and output, as its arguments say.

import { isFieldThread, serveField } from './fieldThread.ts';
import { keepCompiled } from './keepCompiled.ts';
import { isMeasuredThread, serveMeasured } from './measuredThread.ts';

keepCompiled();
if (isFieldThread()) serveField();
else if (isMeasuredThread()) serveMeasured();
else {
  const { serveArguments } = await import('./serveArguments.ts');
  serveArguments();
}
