#!/usr/bin/env node
// The command line: `groundbass VERB …`. Hands over to the verbs and turns their outcome into an exit code.

import { processIo } from './io.ts';
import { run } from './run.ts';

const io = processIo();
process.exitCode = await run(process.argv.slice(2), io);
