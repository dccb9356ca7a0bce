/** Telling a default from a choice: a field that the file does not hold is a default until someone touches it. */

/** Whether the file holds no value at a path such as `bench.scaleG`, `mold.draftDeg` or `placements[2].hold`. */
export function isDefault(file: object, path: string): boolean {
  let value: unknown = file;
  for (const key of path.split(/[.[\]]+/).filter((part) => part !== '')) {
    if (typeof value !== 'object' || value === null || !Object.hasOwn(value, key)) return true;
    value = (value as Record<string, unknown>)[key];
  }
  return value === undefined;
}
