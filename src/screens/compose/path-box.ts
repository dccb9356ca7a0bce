/** How far a drawn outline reaches. */

export interface PathBox {
  readonly x0: number;
  readonly x1: number;
}

/** Left and right end of a path made of absolute points (M and L only); null of an empty one. */
export function pathBox(path: string): PathBox | null {
  let x0 = Infinity;
  let x1 = -Infinity;
  for (const [, x] of path.matchAll(/[ML](-?[\d.]+) -?[\d.]+/g)) {
    x0 = Math.min(x0, Number(x));
    x1 = Math.max(x1, Number(x));
  }
  return x0 <= x1 ? { x0, x1 } : null;
}
