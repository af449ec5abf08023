// Diagnostics: the remarks on a file, as an editor lists them.

import { type Diagnostic, DiagnosticTag } from 'vscode-languageserver';
import { type Analysis, sourceNamed } from '../analysis.ts';
import { SEVERITY, toRange } from '../lsp/convert.ts';
import { rangeToShow } from '../places.ts';
import type { Remark } from '../remarks/remark.ts';

/** @param docs where the pages of the findings lie, as an URI that a page's name can be added to; null where nobody knows */
export function diagnostics(analysis: Analysis, docs: string | null): Diagnostic[] {
  return analysis.remarks
    .filter(({ accepted }) => accepted === null)
    .map((remark) => diagnosticOf(analysis, remark, docs));
}

export function diagnosticOf(analysis: Analysis, remark: Remark, docs: string | null): Diagnostic {
  const { code, severity, message, path, related } = remark;
  const href = pageOf(docs, code);
  const places = related.flatMap((place) => {
    const source = sourceNamed(analysis, place.file ?? null);
    if (source === null) return [];
    const range = toRange(source.text, rangeToShow(source.parsed, place.path));
    return [{ location: { uri: source.uri, range }, message: place.message }];
  });
  return {
    range: toRange(analysis.source.text, remark.range),
    severity: SEVERITY[severity],
    code,
    source: 'groundbass',
    message,
    data: { path },
    ...(href === null ? {} : { codeDescription: { href } }),
    ...(places.length === 0 ? {} : { relatedInformation: places }),
    ...(UNUSED.has(code) ? { tags: [DiagnosticTag.Unnecessary] } : {}),
  };
}

/** The page of a finding: `layout/height` is told in `layout-height.md`. null where nobody knows where, and for faults of ours. */
export function pageOf(docs: string | null, code: string): string | null {
  if (docs === null || code.startsWith('groundbass/')) return null;
  return `${docs.replace(/\/$/, '')}/${code.replaceAll('/', '-')}.md`;
}

/** Remarks about text that does nothing: editors fade it. */
const UNUSED: ReadonlySet<string> = new Set(['record/acceptance-unused']);
