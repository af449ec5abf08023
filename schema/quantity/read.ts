// Reads a text as a quantity of given dimensions: the quantity, or the one fault that it has and its cures.

import type { TextFix } from '../model/problem.ts';
import { checkBounds, withinBounds } from './bounds.ts';
import { dimensionName, expectedQuantity } from './dimensions.ts';
import { likelyUnits } from './likely.ts';
import type { Quantity, QuantityFault, QuantityReading, QuantityRule } from './quantity.ts';
import { respell } from './respell.ts';
import { type Scanned, type ScannedQuantity, scanQuantity } from './scan.ts';
import { nearUnits } from './unitNames.ts';
import { type Dimension, toSi, type Unit, unitsWritten } from './units.ts';

/**
 * @param text what stands in the file, without quotes
 * @param rule the dimensions that the place takes, and its bounds; its `words` are not looked at here
 * @returns the quantity if it was understood; the fault if there is one; places are counted from the text's start
 */
export function readQuantity(text: string, rule: QuantityRule): QuantityReading {
  const scanned = scanQuantity(text);
  if (scanned === null) return readRespelled(text, rule);
  const reading = readScanned(text, scanned, rule);
  const strange = reading.fault?.code === 'quantity/unit-unknown' && 0 < respell(text).length;
  return strange ? readRespelled(text, rule) : reading;
}

/** The dimensions of a rule as a list. */
export function dimensionsOf({ quantity }: QuantityRule): readonly Dimension[] {
  return typeof quantity === 'string' ? [quantity] : quantity;
}

function readScanned(text: string, scanned: ScannedQuantity, rule: QuantityRule): QuantityReading {
  const { main, plusMinus } = scanned;
  if (main.unit === '') return failed(unitMissing(main, rule));
  const unit = unitFor(main.unit, dimensionsOf(rule));
  if (unit === null) return failed(wrongUnit(text, main, rule));

  const si = toSi(main.value, unit);
  let spread: number | null = null;
  if (plusMinus !== null) {
    const other = spreadUnit(plusMinus.unit, unit);
    if (other === null) return failed(wrongSpread(text, plusMinus, unit));
    spread = spreadInSi(plusMinus.value, other, si, unit);
  }
  const quantity: Quantity = {
    dimension: unit.dimension,
    value: main.value,
    unit: unit.symbol,
    si,
    plusMinus: spread,
    system: unit.system,
    numberRange: main.numberRange,
    unitRange: main.unitRange,
  };
  const bounds = checkBounds(quantity, rule);
  if (bounds !== null) return failed(bounds);
  return { quantity, fault: spacing(main, unit) };
}

function unitFor(symbol: string, dimensions: readonly Dimension[]): Unit | null {
  const units = unitsWritten(symbol);
  for (const dimension of dimensions) {
    const unit = units.find((one) => one.dimension === dimension);
    if (unit !== undefined) return unit;
  }
  return null;
}

function failed(fault: QuantityFault): QuantityReading {
  return { quantity: null, fault };
}

function unitMissing(main: Scanned, rule: QuantityRule): QuantityFault {
  const dimensions = dimensionsOf(rule);
  const units = likelyUnits(main.value, dimensions, (si, dimension) =>
    withinBounds(si, dimension, rule),
  );
  const fixes = units.map((unit): TextFix => {
    const added = unit.close ? unit.symbol : ` ${unit.symbol}`;
    const { end } = main.numberRange;
    return {
      title: `Add the unit \`${unit.symbol}\``,
      edits: [{ range: { start: end, end }, text: added }],
      safe: false,
    };
  });
  return {
    code: 'quantity/unit-missing',
    severity: 'error',
    message: `a unit is missing: ${expectedQuantity(dimensions)}`,
    range: main.numberRange,
    fixes,
  };
}

function wrongUnit(text: string, main: Scanned, rule: QuantityRule): QuantityFault {
  const dimensions = dimensionsOf(rule);
  const near = nearUnits(main.unit, dimensions);
  if (0 < near.length || unitsWritten(main.unit).length === 0) {
    const [best] = near;
    const asked =
      best === undefined ? expectedQuantity(dimensions) : `did you mean \`${best.symbol}\`?`;
    return {
      code: 'quantity/unit-unknown',
      severity: 'error',
      message: `\`${main.unit}\` is not a unit of ${dimensionName(dimensions)}${best === undefined ? ': ' : '; '}${asked}`,
      range: main.unitRange,
      fixes: near.map((unit) => changeUnit(main, unit)),
    };
  }
  return {
    code: 'quantity/wrong-dimension',
    severity: 'error',
    message: expectedQuantity(dimensions),
    range: { start: 0, end: text.length },
    fixes: [],
  };
}

function changeUnit(main: Scanned, unit: Unit): TextFix {
  const range = { start: main.numberRange.end, end: main.unitRange.end };
  const text = unit.close ? unit.symbol : ` ${unit.symbol}`;
  return {
    title: `Change \`${main.unit}\` to \`${unit.symbol}\``,
    edits: [{ range, text }],
    safe: false,
  };
}

/** The unit of what follows ±: of the same dimension, `dB` for any level, or `%` of the value. */
function spreadUnit(symbol: string, main: Unit): Unit | null {
  const units = unitsWritten(symbol);
  return (
    units.find((unit) => unit.dimension === main.dimension) ??
    units.find((unit) => unit.symbol === 'dB' && unit.dimension === 'gain' && isLevel(main)) ??
    units.find((unit) => unit.symbol === '%') ??
    null
  );
}

function isLevel(unit: Unit): boolean {
  return unit.scale.kind === 'decibel' || unit.symbol.startsWith('dB');
}

function spreadInSi(value: number, unit: Unit, si: number, main: Unit): number {
  if (unit.symbol === '%' && main.dimension !== 'ratio') return Math.abs(si) * (value / 100);
  if (main.scale.kind === 'decibel') return si * (10 ** (value / 20) - 1);
  return unit.scale.kind === 'linear' ? value * unit.scale.factor : toSi(value, unit);
}

function wrongSpread(text: string, { unit, numberRange }: Scanned, main: Unit): QuantityFault {
  const missing = unit === '';
  const end = text.trimEnd().length;
  return {
    code: missing ? 'quantity/unit-missing' : 'quantity/wrong-dimension',
    severity: 'error',
    message: missing
      ? 'a unit is missing behind `±`'
      : `${dimensionName([main.dimension])} is expected behind \`±\` as well`,
    range: { start: numberRange.start, end },
    fixes: missing
      ? [
          {
            title: `Add the unit \`${main.symbol}\``,
            edits: [
              { range: { start: end, end }, text: main.close ? main.symbol : ` ${main.symbol}` },
            ],
            safe: false,
          },
        ]
      : [],
  };
}

/** One spelling: a space before the unit, none before `°`, `'` and `"`. */
function spacing(main: Scanned, unit: Unit): QuantityFault | null {
  const wanted = unit.close ? '' : ' ';
  if (main.gap === wanted || unit.symbol === '\'"') return null;
  const start = main.numberRange.start;
  const gapStart = main.unitRange.start - main.gap.length;
  if (unit.symbol === 'ft in') return null;
  return {
    code: 'quantity/spelling',
    severity: 'warning',
    message: unit.close
      ? `\`${unit.symbol}\` stands right behind the number`
      : 'one space separates number and unit',
    range: { start, end: main.unitRange.end },
    fixes: [
      {
        title: unit.close ? 'Remove the space' : 'Put one space before the unit',
        edits: [{ range: { start: gapStart, end: main.unitRange.start }, text: wanted }],
        safe: true,
      },
    ],
  };
}

function readRespelled(text: string, rule: QuantityRule): QuantityReading {
  const dimensions = dimensionsOf(rule);
  const whole = { start: 0, end: text.length };
  const understood = respell(text).filter((one) => scanQuantity(one.text) !== null);
  const [first] = understood;
  if (first === undefined) {
    return failed({
      code: 'quantity/not-a-quantity',
      severity: 'error',
      message: expectedQuantity(dimensions),
      range: whole,
      fixes: [],
    });
  }
  const inner = readQuantity(first.text, rule);
  if (inner.quantity === null && inner.fault !== null && first.code === 'quantity/spelling') {
    return failed({ ...inner.fault, range: whole, fixes: [] });
  }
  return {
    // A comma may mean two things, so what it says is not used; the rest can be said in one way only.
    quantity:
      first.code === 'quantity/spelling'
        ? inner.quantity && { ...inner.quantity, numberRange: whole, unitRange: whole }
        : null,
    fault: {
      code: first.code,
      severity: first.code === 'quantity/spelling' ? 'warning' : 'error',
      message: `${first.reason}: \`${first.text}\``,
      range: whole,
      fixes: understood.map((one) => ({
        title: `Change \`${text}\` to \`${one.text}\``,
        edits: [{ range: whole, text: one.text }],
        safe: one.code === 'quantity/spelling',
      })),
    },
  };
}
