// Ports: a port of network audio carries many channels, and `net.12` is the twelfth of `net`.

/** The port without its channel: `net` for `net.12`, `in_left` for itself. */
export function basePort(port: string): string {
  const dot = port.indexOf('.');
  return dot < 0 ? port : port.slice(0, dot);
}

/** Whether what leaves or enters at `drawn` (as a gear file draws it) is what the wiring calls `wired`. */
export function samePort(drawn: string, wired: string): boolean {
  return drawn === wired || drawn === basePort(wired);
}
