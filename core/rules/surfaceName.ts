// What a surface of the room is called in a sentence: `the front wall`, `the floor`, `the wall niche`.

/** The walls of a box, which are named by where they are. */
const SIDES: ReadonlySet<string> = new Set(['front', 'right', 'back', 'left']);

/** Without its article. Walls of a plan go by the names that the file gives them, which may be any word. */
export function surfaceName(surface: string): string {
  if (surface === 'floor' || surface === 'ceiling') return surface;
  return SIDES.has(surface) ? `${surface} wall` : `wall ${surface}`;
}
