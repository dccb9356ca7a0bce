/** Changed copies of frozen things: what does not change is shared, and an unchanged copy is the thing itself. */

/** Fields to set; `undefined` takes one out. */
export type Patch<T> = { readonly [K in keyof T]?: T[K] | undefined };

/** A copy with some fields set, in their old order; a field set to `undefined` is taken out. */
export function patched<T extends object>(object: T, patch: Patch<T>): T {
  const fields = object as Record<string, unknown>;
  const changes = Object.entries(patch).filter(([key, value]) => (value === undefined ? Object.hasOwn(fields, key) : !Object.is(fields[key], value)));
  if (changes.length === 0) return object;
  const copy: Record<string, unknown> = { ...fields };
  for (const [key, value] of changes) {
    if (value === undefined) delete copy[key];
    else copy[key] = value;
  }
  return copy as T;
}

/** A copy of a list with one item changed. */
export function replacedAt<T>(list: readonly T[], at: number, item: T): readonly T[] {
  return list[at] === item ? list : list.map((old, i) => (i === at ? item : old));
}

/** A copy of a list with each item passed through `change`; the list itself when none changed. */
export function changedEach<T>(list: readonly T[], change: (item: T, at: number) => T): readonly T[] {
  const copy = list.map(change);
  return copy.some((item, i) => item !== list[i]) ? copy : list;
}

/** An empty list is left out of a file. */
export function unlessEmpty<T>(list: readonly T[] | undefined): readonly T[] | undefined {
  return list && list.length > 0 ? list : undefined;
}
