// What a surface is made of: a material, measured absorption, shares of several materials, or an admittance.

import type { Covering } from '../model/room.ts';
import { below, entriesOf, mapOf, type Place } from './place.ts';
import { type Reading, tell, tellAt } from './reading.ts';
import { unknownName } from './unknownName.ts';
import { missing, number, si, spectrum, text } from './values.ts';

/** @param materials the known ones; undefined where nobody can say */
export function readCovering(
  reading: Reading,
  place: Place,
  materials: readonly string[] | undefined,
): Covering | null {
  const map = mapOf(place);
  if (map === null) {
    missing(reading, place, 'needed');
    return null;
  }
  if (map.entries.has('material')) {
    const material = text(reading, below(place, 'material'), 'needed');
    if (material === null) return null;
    checkMaterial(reading, below(place, 'material'), material, materials);
    return { kind: 'material', material };
  }
  if (map.entries.has('absorption')) {
    const given = below(place, 'absorption');
    const absorption = spectrum(reading, given, (at) => number(reading, at, 'needed'), 'needed');
    return absorption === null ? null : { kind: 'absorption', absorption };
  }
  if (map.entries.has('shares')) return shares(reading, below(place, 'shares'), materials);
  if (map.entries.has('admittance')) return admittance(reading, below(place, 'admittance'));
  missing(reading, place, 'needed');
  return null;
}

function shares(
  reading: Reading,
  place: Place,
  materials: readonly string[] | undefined,
): Covering | null {
  const entries = entriesOf(place);
  const read: { readonly material: string; readonly share: number }[] = [];
  for (const entry of entries) {
    checkMaterial(reading, { ...entry, value: null }, entry.name, materials);
    const share = si(reading, entry, 'ratio', 'needed');
    if (share !== null) read.push({ material: entry.name, share });
  }
  if (read.length < entries.length || read.length === 0) return null;
  const sum = read.reduce((total, { share }) => total + share, 0);
  // Shares are told in whole percents: half of one is rounding.
  if (0.005 < Math.abs(sum - 1)) {
    tell(reading, place, {
      code: 'format/shares-sum',
      severity: sum < 1 ? 'warning' : 'error',
      message: `The shares add up to ${Math.round(sum * 1000) / 10} %; together they are 100 %`,
    });
  }
  return { kind: 'shares', shares: read };
}

function admittance(reading: Reading, place: Place): Covering | null {
  if (mapOf(place) === null) {
    const real = number(reading, place, 'needed');
    return real === null ? null : { kind: 'admittance', real, imaginary: 0 };
  }
  const real = number(reading, below(place, 'real'), 'needed');
  const imaginary = number(reading, below(place, 'imaginary'), 'needed');
  return real === null || imaginary === null ? null : { kind: 'admittance', real, imaginary };
}

function checkMaterial(
  reading: Reading,
  place: Place,
  material: string,
  known: readonly string[] | undefined,
): void {
  const range = place.value?.range ?? place.key;
  if (known === undefined || range === null || known.includes(material)) return;
  const told = () =>
    unknownName({
      code: 'reference/material',
      lead: 'No material is called',
      name: material,
      range,
      known,
      plural: 'materials',
    });
  tellAt(reading, place.path, range, told);
}
