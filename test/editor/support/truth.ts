// What a room's file implies, worked out here by school geometry and textbook physics, with nothing of ours: from the text's own figures.
//
// Distances by Pythagoras, angles by the arc tangent. Speed of sound of an ideal mixture of dry air and water vapour, c = √(γRT/M),
// with the vapour's saturation pressure by ISO 9613-1, equation (B.3). (The project goes by Cramer's polynomial instead, J. Acoust.
// Soc. Am. 93 (1993) 2510; real air's γ is 1.401 rather than 7/5, which alone makes 0.03 %.)

import { parse } from 'yaml';

/** Relative, on times of flight; see above. */
export const TIME_TOLERANCE = 0.000_5;

export interface Place {
  readonly id: string;
  /** From 1, where the thing's entry begins. */
  readonly line: number;
  readonly isSub: boolean;
  readonly distance_m: number;
  readonly flight_s: number;
  /** + to the left of someone who faces the front wall. */
  readonly azimuth_deg: number;
}

export interface Truth {
  readonly seat: string;
  readonly places: readonly Place[];
  /** null where the room is no box. */
  readonly volume_m3: number | null;
}

interface Point {
  readonly x: number;
  readonly y: number;
  readonly z: number;
}
type At = { readonly at: Readonly<Record<'x' | 'y' | 'z', string>> };
interface RoomFile {
  readonly space: {
    readonly size?: Readonly<Record<'width' | 'depth' | 'height', string>>;
    readonly air?: { readonly temperature?: string | number; readonly humidity?: string };
  };
  readonly seats: Readonly<Record<string, At & { readonly role?: string }>>;
  readonly speakers: Readonly<Record<string, At>>;
  readonly subwoofers?: Readonly<Record<string, At>>;
}

/** @param text a room file that is sound YAML */
export function truthOf(text: string): Truth {
  const { space, seats, speakers, subwoofers = {} } = parse(text) as RoomFile;
  const [seat, { at }] =
    Object.entries(seats).find(([, { role }]) => role === 'reference') ?? fail();
  const ears = toPoint(at);
  const speed_m_s = speedOfSound_m_s(celsius(space.air?.temperature), percent(space.air?.humidity));
  const all = { ...speakers, ...subwoofers };
  const places = Object.entries(all).map(([id, thing]): Place => {
    const { x, y, z } = toPoint(thing.at);
    const distance_m = Math.hypot(x - ears.x, y - ears.y, z - ears.z);
    return {
      id,
      line: lineOf(text, id in subwoofers ? 'subwoofers' : 'speakers', id),
      isSub: id in subwoofers,
      distance_m,
      flight_s: distance_m / speed_m_s,
      azimuth_deg: (Math.atan2(ears.x - x, ears.y - y) * 180) / Math.PI,
    };
  });
  return { seat, places, volume_m3: volume(space.size) };
}

/** Line (from 1) of `  id:` below `section:`. */
export function lineOf(text: string, section: string, id: string): number {
  const lines = text.split('\n');
  const start = lines.indexOf(`${section}:`);
  const index = lines.findIndex((line, at) => start < at && line.startsWith(`  ${id}:`));
  return index < 0 ? fail() : index + 1;
}

function toPoint({ x, y, z }: At['at']): Point {
  return { x: metres(x), y: metres(y), z: metres(z) };
}

function volume(size: RoomFile['space']['size']): number | null {
  return size ? metres(size.width) * metres(size.depth) * metres(size.height) : null;
}

/** Metres of a length as the files write it: `1.38 m`, `7'4 3/8"`, `10 ft 2 in ± 1/2 in`. */
export function metres(text: string): number {
  const [value = ''] = text.split('±');
  const metric = /^\s*(-?[\d.]+)\s*(m|cm|mm)\s*$/.exec(value);
  if (metric)
    return Number(metric[1]) * { m: 1, cm: 0.01, mm: 0.001 }[metric[2] as 'm' | 'cm' | 'mm'];
  const [feetText = '', feet = '0'] = /^\s*([\d.]+)\s*(?:ft|')/.exec(value) ?? [];
  const inches = value.slice(feetText.length).replace(/in|"/, '').split(/\s+/).filter(Boolean);
  // 1 ft = 0.3048 m, 1 in = 0.0254 m, exactly (international yard and pound agreement, 1959).
  const total_m =
    Number(feet) * 0.3048 + inches.reduce((sum, part) => sum + fraction(part), 0) * 0.0254;
  return Number.isFinite(total_m) && value.trim() !== '' ? total_m : fail(text);
}

function fraction(text: string): number {
  const [over, under = '1'] = text.split('/');
  return Number(over) / Number(under);
}

/** A bare number is no temperature: 20 °C stands in, as where none is given. */
function celsius(given: string | number | undefined): number {
  const text = typeof given === 'string' ? given : '20 °C';
  const [, value, unit] = /^(-?[\d.]+)\s*°?(C|F)?$/.exec(text) ?? fail(text);
  return unit === 'F' ? ((Number(value) - 32) * 5) / 9 : Number(value);
}

/** 50 % where a file does not say: what between 30 and 70 % matters is below 0.1 %. */
function percent(text = '50 %'): number {
  return Number(/^([\d.]+) *%$/.exec(text)?.[1] ?? fail(text));
}

/** At 101 325 Pa. Molar masses and the gas constant: CODATA 2018, ISO 2533; molar heats 7/2 R (dry air) and 4 R (vapour). */
function speedOfSound_m_s(temperature_c: number, humidity_percent: number): number {
  const temperature_k = temperature_c + 273.15;
  const saturation = 10 ** (-6.8346 * (273.16 / temperature_k) ** 1.261 + 4.6151);
  const vapour = (humidity_percent / 100) * saturation;
  const molarMass_kg = (1 - vapour) * 0.028_964_7 + vapour * 0.018_015_3;
  const heat = (1 - vapour) * 3.5 + vapour * 4;
  return Math.sqrt(((heat / (heat - 1)) * 8.314_463 * temperature_k) / molarMass_kg);
}

function fail(text = ''): never {
  throw new Error(`The test cannot read the room file: ${text}`);
}
