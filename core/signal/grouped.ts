// Groups of things that share a key, in the order in which the keys are first met.

/** Like `Map.groupBy`, which the language level of this project does not have. */
export function grouped<Thing>(
  things: readonly Thing[],
  keyOf: (thing: Thing) => string,
): ReadonlyMap<string, readonly Thing[]> {
  const groups = new Map<string, Thing[]>();
  for (const thing of things) {
    const key = keyOf(thing);
    const group = groups.get(key);
    if (group) group.push(thing);
    else groups.set(key, [thing]);
  }
  return groups;
}
