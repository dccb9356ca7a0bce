/** Numbers in order of weight, each to be small: the first that differs decides. Below 0 when the first are better, 0 when they are equal. */
export function compareInOrder(a: readonly number[], b: readonly number[]): number {
  const at = a.findIndex((value, i) => value !== b[i]);
  return at < 0 ? 0 : a[at] - b[at];
}
