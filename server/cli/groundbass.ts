#!/usr/bin/env node
// The command line: `groundbass VERB …`. Hands over to the verbs and turns their outcome into an exit code.

import { keepCompiled } from '../node/keepCompiled.ts';
import { serveAsThread } from '../node/threads.ts';

keepCompiled();
if (!serveAsThread()) {
  const { processIo } = await import('./io.ts');
  const { run } = await import('./run.ts');
  process.exitCode = await run(process.argv.slice(2), processIo());
}
