// A text of frequencies, levels and phases as numbers: any of the usual separators, headers and comments, decimal point or comma.

import { type FileFault, fault } from './fileFault.ts';

export interface TextResponse {
  /** Ascending, each once. */
  readonly frequencies_hz: Float64Array;
  readonly levels_db: Float64Array;
  /** null where the file has none. */
  readonly phase_rad: Float64Array | null;
}

export interface ResponseReading {
  readonly data: TextResponse | null;
  readonly faults: readonly FileFault[];
}

/** A response of a million lines is no response. */
const MOST_LINES = 1_000_000;
const MOST_CHARACTERS = 64_000_000;
const MOST_LINE_CHARACTERS = 500;
/** The rest is counted, not told one by one. */
const MOST_FAULTS = 20;
const LEVELS_DB = 400;
const LEAST_POINTS = 3;

interface Point {
  readonly line: number;
  readonly frequency_hz: number;
  readonly level_db: number;
  readonly phase_deg: number | null;
}

/**
 * Reads what stands before and between the numbers as comment; a line that starts like one of numbers and is none is a fault.
 *
 * @param text decoded; a byte order mark is left out
 */
export function readResponse(text: string): ResponseReading {
  if (MOST_CHARACTERS < text.length)
    return failed('response/too-large', 'the file is larger than 64 MB');
  const lines = text.replace(/^\uFEFF/, '').split(/\r\n|\n|\r/, MOST_LINES + 1);
  if (MOST_LINES < lines.length)
    return failed('response/too-long', `more than ${MOST_LINES} lines`);
  const separator = separatorOf(lines);
  const faults: FileFault[] = [];
  const points: Point[] = [];
  let skipped = 0;
  lines.forEach((line, index) => {
    const read = readLine(line, index + 1, separator);
    if (read === null) return;
    if ('message' in read) {
      if (faults.length < MOST_FAULTS) faults.push(read);
      else skipped++;
    } else points.push(read);
  });
  if (0 < skipped)
    faults.push(fault('response/more', 'warning', `${skipped} more lines like these`));
  if (points.length < LEAST_POINTS)
    return {
      data: null,
      faults: [
        ...faults,
        fault(
          'response/no-response',
          'error',
          `only ${points.length} lines with a frequency and a level`,
        ),
      ],
    };
  return { data: ordered(points, faults), faults };
}

/** How columns are told apart, and what the decimal sign is. */
interface Separator {
  readonly columns: RegExp;
  readonly isDecimalComma: boolean;
}

/** `20,5; −3` and `20 −3,1`: commas are decimals where something else parts the columns; the lines with commas decide. */
const DECIMAL_COMMAS: readonly RegExp[] = [
  /^[-+]?\d+,\d+\s*[;\t ]\s*[-+]?\d/,
  /^[-+]?\d+(,\d+)?\s*[;\t]\s*[-+]?\d+,\d/,
  /^\d+ +[-+]?\d+,\d+(\s|$)/,
];

function separatorOf(lines: readonly string[]): Separator {
  let decimals = 0;
  let others = 0;
  for (const line of lines.slice(0, 2000)) {
    const trimmed = line.slice(0, MOST_LINE_CHARACTERS).trim();
    if (!/^[-+]?\d/.test(trimmed) || !trimmed.includes(',')) continue;
    if (DECIMAL_COMMAS.some((pattern) => pattern.test(trimmed))) decimals++;
    else others++;
  }
  const isDecimalComma = others < decimals;
  return { columns: isDecimalComma ? /\s*[;\t]\s*|\s+/ : /\s*[,;\t]\s*|\s+/, isDecimalComma };
}

/** @returns null for a comment, a header, or nothing */
function readLine(
  text: string,
  line: number,
  { columns, isDecimalComma }: Separator,
): Point | FileFault | null {
  if (MOST_LINE_CHARACTERS < text.length && /^\s*[-+\d]/.test(text.slice(0, 100)))
    return fault(
      'response/line',
      'warning',
      `a line of ${text.length} characters is left out`,
      line,
    );
  const trimmed = text.slice(0, MOST_LINE_CHARACTERS).trim();
  if (trimmed === '' || !/^["']?[-+.\d]/.test(trimmed)) return null;
  const cells = trimmed.split(columns).map((cell) => cell.replace(/^["']|["']$/g, ''));
  const [frequency, level, phase] = cells.map((cell) => numberOf(cell, isDecimalComma));
  // A date or a sentence that begins with a digit is a comment; a lone number is not a point.
  if (frequency === undefined || frequency === null)
    return /[A-Za-z:/]/.test(trimmed) ? null : unreadable(cells[0] ?? '', line);
  if (cells.length < 2 || cells[1] === '')
    return fault('response/line', 'warning', 'a frequency without a level is left out', line);
  if (level === undefined || level === null)
    return /^(nan|inf|-inf|[-+]?infinity|n\/a|-+)$/i.test(cells[1] ?? '') ||
      !/[A-Za-z]{3}/.test(cells[1] ?? '')
      ? unreadable(cells[1] ?? '', line)
      : null;
  if (!(0 < frequency && frequency < 1e6))
    return fault(
      'response/frequency',
      'warning',
      `a frequency of ${frequency} Hz is left out`,
      line,
    );
  if (LEVELS_DB < Math.abs(level))
    return fault('response/level', 'warning', `a level of ${level} dB cannot be: left out`, line);
  const phase_deg = phase === undefined || phase === null ? null : phase;
  return { line, frequency_hz: frequency, level_db: level, phase_deg };
}

function numberOf(cell: string, isDecimalComma: boolean): number | null {
  const written = isDecimalComma ? cell.replace(',', '.') : cell;
  if (!/^[-+]?(\d+\.?\d*|\.\d+)(e[-+]?\d{1,3})?$/i.test(written)) return null;
  const value = Number(written);
  return Number.isFinite(value) ? value : null;
}

function unreadable(cell: string, line: number): FileFault {
  return fault(
    'response/number',
    'warning',
    `\`${cell.slice(0, 20)}\` is no number: the line is left out`,
    line,
  );
}

/** Ascending, of doubles the last; says so. */
function ordered(points: readonly Point[], faults: FileFault[]): TextResponse {
  const out = points.find(
    (point, i) => 0 < i && point.frequency_hz < (points[i - 1]?.frequency_hz ?? 0),
  );
  if (out !== undefined)
    faults.push(
      fault(
        'response/unsorted',
        'warning',
        'from here on the frequencies are not in order: sorted',
        out.line,
      ),
    );
  const sorted = [...points].sort((one, other) => one.frequency_hz - other.frequency_hz);
  const groups: Point[][] = [];
  for (const point of sorted) {
    const group = groups.at(-1);
    if (group?.[0]?.frequency_hz === point.frequency_hz) group.push(point);
    else groups.push([point]);
  }
  const twice = groups.find((group) => 1 < group.length);
  if (twice !== undefined)
    faults.push(
      fault(
        'response/twice',
        'warning',
        `${twice[0]?.frequency_hz} Hz and ${groups.filter((group) => 1 < group.length).length - 1} more stand twice: the last of each counts`,
        twice.at(-1)?.line ?? null,
      ),
    );
  const kept = groups.flatMap((group) =>
    group.reduce((last, one) => (last.line < one.line ? one : last)),
  );
  const hasPhase = kept.every(({ phase_deg }) => phase_deg !== null);
  const missing = kept.find(({ phase_deg }) => phase_deg === null);
  if (!hasPhase && kept.some(({ phase_deg }) => phase_deg !== null))
    faults.push(
      fault(
        'response/phase',
        'warning',
        'phase is missing from here on: none is read',
        missing?.line ?? null,
      ),
    );
  return {
    frequencies_hz: Float64Array.from(kept, ({ frequency_hz }) => frequency_hz),
    levels_db: Float64Array.from(kept, ({ level_db }) => level_db),
    phase_rad: hasPhase
      ? Float64Array.from(kept, ({ phase_deg }) => ((phase_deg ?? 0) * Math.PI) / 180)
      : null,
  };
}

function failed(code: string, message: string): ResponseReading {
  return { data: null, faults: [fault(code, 'error', message)] };
}
