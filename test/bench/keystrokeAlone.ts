// Presses keys in a process of its own and prints how long each took, as JSON: built as the server is built, and started by `typing.ts`.

import { pathToFileURL } from 'node:url';
import { keystrokeTimes } from './keystroke.ts';

const [, script = '', count] = process.argv;
if (import.meta.url === pathToFileURL(script).href)
  console.log(JSON.stringify(await keystrokeTimes(Number(count))));
