// The answer to "what is the setup of this file?": the setup and the faults beside its findings, as plain data.

import type { Analysis } from './analysis.ts';
import type { Found } from './protocol/search.ts';
import type { SetupAnswer } from './protocol/setup.ts';

/** @param found what was searched for in this file and still holds */
export function setupAnswer(
  { source, setup, remarks, isFieldOlder }: Analysis,
  found: Found | null = null,
): SetupAnswer {
  return {
    uri: source.uri,
    version: source.version ?? 0,
    setup,
    isFieldOlder: isFieldOlder === true,
    ...(found === null ? {} : { found }),
    problems: remarks
      .filter(({ about }) => about === 'text')
      .map(({ code, severity, message, path, range }) => ({
        code,
        severity,
        message,
        path,
        line: source.text.positionAt(range.start).line,
      })),
  };
}
