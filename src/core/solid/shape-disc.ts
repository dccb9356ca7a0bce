/**
 * Flat faces as bands between two sides of a ring. A fan puts thousands of triangles on one corner, and booleans
 * slow down with the square of that; in a band no corner has more than four.
 */

/**
 * Writes the n − 2 triangles of a convex ring of vertices `first` … `first + n − 1`, given counter-clockwise seen
 * from above, into `indices` from `at`. `faceUp` false turns them over. Returns the place after the last.
 */
export function bandTriangles(indices: Uint32Array, at: number, ring: { first: number; count: number; faceUp: boolean }): number {
  const { first, count, faceUp } = ring;
  let low = 0;
  let high = count - 1;
  let next = at;
  for (let i = 0; i < count - 2; i++) {
    // Alternately one step along either side.
    const third = i % 2 === 0 ? low + 1 : high - 1;
    const a = first + low;
    const b = first + third;
    const c = first + high;
    indices[next++] = a;
    indices[next++] = faceUp ? b : c;
    indices[next++] = faceUp ? c : b;
    if (i % 2 === 0) low++;
    else high--;
  }
  return next;
}
