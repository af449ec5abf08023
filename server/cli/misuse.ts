// Misuse: what was asked for cannot be done at all. Told in one line; exit code 2.

export class Misuse extends Error {}

export const EXIT = { clean: 0, findings: 1, misuse: 2, fault: 3 } as const;
