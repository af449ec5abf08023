// The answer to "what is the setup of this file?": the setup and the faults beside its findings, as plain data.

import type { Analysis } from './analysis.ts';
import type { SetupAnswer } from './protocol/setup.ts';

export function setupAnswer({ source, setup, remarks, isFieldOlder }: Analysis): SetupAnswer {
  return {
    uri: source.uri,
    version: source.version ?? 0,
    setup,
    isFieldOlder: isFieldOlder === true,
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
