#!/usr/bin/env node
// The command line: `groundbass VERB …`. Hands over to the verbs and turns their outcome into an exit code.

import { isFieldThread, serveField } from '../node/fieldThread.ts';
import { keepCompiled } from '../node/keepCompiled.ts';
import { isMeasuredThread, serveMeasured } from '../node/measuredThread.ts';

keepCompiled();
if (isFieldThread()) serveField();
else if (isMeasuredThread()) serveMeasured();
else {
  const { processIo } = await import('./io.ts');
  const { run } = await import('./run.ts');
  process.exitCode = await run(process.argv.slice(2), processIo());
}
