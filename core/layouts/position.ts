// One loudspeaker position of a standard layout: its labels and the ranges of angle that the standard allows.

/** Angles in radians; azimuth positive to the listener's left, elevation positive up. */
export interface LayoutPosition {
  /** The standard's loudspeaker label: layer and azimuth (M+030, U-110, LFE1). */
  readonly label: string;
  /** The channel name that goes with it in this layout: L, Rs, Ltf … */
  readonly channel: string;
  /** Ascending; −π … π, and beyond π where the range passes behind the listener. */
  readonly azimuth_rad: readonly [number, number];
  readonly elevation_rad: readonly [number, number];
  /** The low-frequency effects channel: its place is not judged by angle. */
  readonly isLfe: boolean;
}

export interface Layout {
  /** Upper + middle + bottom loudspeakers, without LFE: "0+5+0". */
  readonly name: string;
  /** Letter of the sound system in the standard. */
  readonly system: string;
  readonly positions: readonly LayoutPosition[];
  readonly source: string;
}

/** Ranges in degrees, as the standard prints them; one figure where it allows no range. */
type Degrees = number | readonly [number, number];

/** A position on the median plane, or one without a partner. Degrees in, radians out. */
export function single(
  label: string,
  channel: string,
  azimuth: Degrees,
  elevation: Degrees,
): LayoutPosition {
  return {
    label,
    channel,
    azimuth_rad: radians(azimuth),
    elevation_rad: radians(elevation),
    isLfe: label.startsWith('LFE'),
  };
}

/**
 * A left position and its mirror image on the right.
 *
 * @param label of the left one; the right one's has `-` for `+`
 * @param azimuth of the left one, degrees
 */
export function pair(
  label: string,
  left: string,
  right: string,
  azimuth: Degrees,
  elevation: Degrees,
): readonly [LayoutPosition, LayoutPosition] {
  const [low, high] = both(azimuth);
  return [
    single(label, left, azimuth, elevation),
    single(label.replace('+', '-'), right, [-high, -low], elevation),
  ];
}

/** An LFE loudspeaker for which the standard names no place. */
export function lfe(label: string, channel: string): LayoutPosition {
  return single(label, channel, [-180, 180], [-90, 90]);
}

function both(value: Degrees): readonly [number, number] {
  return typeof value === 'number' ? [value, value] : value;
}

function radians(value: Degrees): readonly [number, number] {
  const [low, high] = both(value);
  return [toRadians(low), toRadians(high)];
}

/** Never −0, which would show as such in JSON readers that keep it. */
function toRadians(degrees: number): number {
  return degrees === 0 ? 0 : (degrees * Math.PI) / 180;
}
