/**
 * Which triangles meet at which edge. Half-edges (corner i to the next corner of its triangle) are brought
 * together by two counting sorts over the vertex numbers: linear whatever the mesh, where a hash of edge
 * pairs took twice as long on a million triangles.
 */

export interface EdgeCensus {
  /** Edges with one triangle. */
  readonly open: number;
  /** Edges with more than two. */
  readonly crowded: number;
  /** Edges whose two triangles run the same way along them. */
  readonly inconsistent: number;
  /** Edges not run equally often both ways; 0 means closed: the volume integral is defined. */
  readonly unbalanced: number;
  /** Shell of every triangle; shells are numbered in the order in which their first triangle comes. */
  readonly shellOf: Uint32Array;
  readonly shells: number;
}

/** Corner that follows corner i in its triangle. */
export function nextCorner(i: number): number {
  return i % 3 === 2 ? i - 2 : i + 1;
}

/**
 * Half-edges in an order that brings those of one edge together, by their lower and then higher vertex.
 * O(corners + vertices); memory 16 bytes a corner.
 */
export function sortedHalfEdges(indices: Uint32Array, vertices: number): Uint32Array {
  const low = new Uint32Array(indices.length);
  const high = new Uint32Array(indices.length);
  for (let i = 0; i < indices.length; i++) {
    const a = indices[i];
    const b = indices[nextCorner(i)];
    low[i] = a < b ? a : b;
    high[i] = a < b ? b : a;
  }
  const identity = new Uint32Array(indices.length);
  for (let i = 0; i < identity.length; i++) identity[i] = i;
  return countingSort(countingSort(identity, high, vertices), low, vertices);
}

/** Length of the run of half-edges that share one edge with the one at `from`. */
export function runLength(order: Uint32Array, indices: Uint32Array, from: number): number {
  const a = indices[order[from]];
  const b = indices[nextCorner(order[from])];
  let to = from + 1;
  while (to < order.length) {
    const c = indices[order[to]];
    const d = indices[nextCorner(order[to])];
    if (!((c === a && d === b) || (c === b && d === a))) break;
    to++;
  }
  return to - from;
}

/** Count the edges by how their triangles meet, and part the triangles into shells. O(n α(n)). */
export function edgeCensus(indices: Uint32Array, vertices: number): EdgeCensus {
  const order = sortedHalfEdges(indices, vertices);
  const parent = new Uint32Array(indices.length / 3);
  for (let t = 0; t < parent.length; t++) parent[t] = t;
  let open = 0;
  let crowded = 0;
  let inconsistent = 0;
  let unbalanced = 0;
  for (let from = 0; from < order.length; ) {
    const length = runLength(order, indices, from);
    const start = indices[order[from]];
    let sum = 0;
    for (let i = from; i < from + length; i++) {
      sum += indices[order[i]] === start ? 1 : -1;
      if (i > from) unite(parent, Math.floor(order[from] / 3), Math.floor(order[i] / 3));
    }
    if (length === 1) open++;
    else if (length > 2) crowded++;
    else if (sum !== 0) inconsistent++;
    if (sum !== 0) unbalanced++;
    from += length;
  }
  const shellOf = new Uint32Array(parent.length);
  let shells = 0;
  // A root is the lowest triangle of its shell, so it has its number before any other asks for it.
  for (let t = 0; t < parent.length; t++) {
    const root = rootOf(parent, t);
    shellOf[t] = root === t ? shells++ : shellOf[root];
  }
  return { open, crowded, inconsistent, unbalanced, shellOf, shells };
}

export function countingSort(items: Uint32Array, keys: Uint32Array, range: number): Uint32Array {
  const start = new Uint32Array(range + 1);
  for (let i = 0; i < items.length; i++) start[keys[items[i]] + 1]++;
  for (let k = 0; k < range; k++) start[k + 1] += start[k];
  const sorted = new Uint32Array(items.length);
  for (let i = 0; i < items.length; i++) sorted[start[keys[items[i]]]++] = items[i];
  return sorted;
}

function rootOf(parent: Uint32Array, t: number): number {
  while (parent[t] !== t) {
    parent[t] = parent[parent[t]];
    t = parent[t];
  }
  return t;
}

function unite(parent: Uint32Array, a: number, b: number): void {
  const ra = rootOf(parent, a);
  const rb = rootOf(parent, b);
  if (ra < rb) parent[rb] = ra;
  else parent[ra] = rb;
}
