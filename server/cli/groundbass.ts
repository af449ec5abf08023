#!/usr/bin/env node
// The command line: `groundbass VERB …`. Hands over to the verbs and turns their outcome into an exit code.

import { isFieldThread, serveField } from '../node/fieldThread.ts';
import { processIo } from './io.ts';
import { run } from './run.ts';

if (isFieldThread()) serveField();
else process.exitCode = await run(process.argv.slice(2), processIo());
