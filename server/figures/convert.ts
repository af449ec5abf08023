// From SI to the units that the keys of our figures end in.

export function toMs(time_s: number | null): number | null {
  return time_s === null ? null : time_s * 1000;
}

export function toDegrees(angle_rad: number): number {
  return (angle_rad * 180) / Math.PI;
}
