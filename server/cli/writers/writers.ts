// The writers by the name of their format.

import { writeGithub } from './github.ts';
import { writeJson } from './json.ts';
import { writeJunit } from './junit.ts';
import { writeMarkdown } from './markdown.ts';
import type { Writer } from './report.ts';
import { writeSarif } from './sarif.ts';
import { writeText } from './text.ts';

export type WriterName = 'text' | 'json' | 'github' | 'sarif' | 'junit' | 'markdown';

export const WRITERS: Readonly<Record<WriterName, Writer>> = {
  text: writeText,
  json: writeJson,
  github: writeGithub,
  sarif: writeSarif,
  junit: writeJunit,
  markdown: writeMarkdown,
};
