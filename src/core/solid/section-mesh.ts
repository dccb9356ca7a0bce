/**
 * Horizontal sections of a closed triangle mesh as closed loops, from the height index of its profile: only triangles
 * near the height are looked at. A corner counts as above only where it lies higher than the plane; so a corner, an edge
 * or a whole face in the plane gives the section just above it, as `areaAt` does, and every loop closes.
 *
 * A triangle that crosses has one side going up through the plane and one coming down. Seen from outside, its cut
 * runs from the side that comes down to the one that goes up, with the solid at its left; its neighbor's cut starts
 * there. Cuts are joined by the side's two corners, never by comparing places.
 */
import type { HeightIndex } from './mesh-index.ts';
import { REACH } from './mesh-index.ts';
import { weldPoints } from './mesh-weld.ts';
import { SolidError } from './solid.ts';

/** x, y of each point, mm, closed without repeating the first; outer loops counterclockwise, holes clockwise. */
export type SectionLoop = Float64Array;

/** Odd constants that spread bits (Knuth's multiplicative hashing; values from memory). */
const SPREAD_A = 0x9e3779b1;
const SPREAD_B = 0x85ebca6b;
const FEWEST_CUTS = 1024;

/**
 * Sections of one mesh, in its own heights.
 *
 * A section costs the triangles near its height; nothing else of the mesh is touched. Loops come in no particular order;
 * where surfaces touch or the mesh wraps something twice, loops touch or cross as the mesh does.
 * The returned function keeps scratch memory between calls.
 * @throws SolidError from a section of a mesh that is not closed there
 */
export function meshSections(index: HeightIndex): (zMm: number) => SectionLoop[] {
  const cuts = new Cuts();
  let sameAs: Uint32Array | null = null;
  return (zMm) => {
    if (!(zMm >= index.bottomMm && zMm < index.topMm)) return [];
    gather(index, zMm, sameAs, cuts);
    let loops = chained(index, zMm, cuts);
    if (loops === null && sameAs === null) {
      // Every triangle with corners of its own, as STL has them: corners at one place become one.
      sameAs = weldPoints(index.positions);
      gather(index, zMm, sameAs, cuts);
      loops = chained(index, zMm, cuts);
    }
    if (loops === null) throw new SolidError(`The mesh is open ${zMm.toPrecision(4)} mm up, where a closed one was expected; repair it before cutting it.`);
    return loops;
  };
}

/** Cuts of one plane through triangles: the side each starts on and the one it ends on, by lower and upper corner. */
class Cuts {
  count = 0;
  fromLow = new Uint32Array(FEWEST_CUTS);
  fromHigh = new Uint32Array(FEWEST_CUTS);
  toLow = new Uint32Array(FEWEST_CUTS);
  toHigh = new Uint32Array(FEWEST_CUTS);
  /** Of the hash table: 1 + the last cut that starts on a side, and before each cut another of the same slot. */
  slots = new Int32Array(2 * FEWEST_CUTS);
  before = new Int32Array(FEWEST_CUTS);

  grow(): void {
    for (const name of ['fromLow', 'fromHigh', 'toLow', 'toHigh'] as const) {
      const larger = new Uint32Array(2 * this[name].length);
      larger.set(this[name]);
      this[name] = larger;
    }
    this.before = new Int32Array(this.fromLow.length);
    this.slots = new Int32Array(2 * this.fromLow.length);
  }
}

function gather(index: HeightIndex, zMm: number, sameAs: Uint32Array | null, cuts: Cuts): void {
  const { positions: p, corners, bottomMm, perMm, buckets, cellStart, levels, levelBase } = index;
  const k = Math.min(Math.floor((zMm - bottomMm) * perMm), buckets - 1);
  let { fromLow, fromHigh, toLow, toHigh } = cuts;
  let n = 0;
  for (let level = 0; level < levels.length; level++) {
    const cell = k >> levels[level];
    const end = 3 * cellStart[levelBase[level] + cell + 1];
    for (let i = 3 * cellStart[levelBase[level] + Math.max(0, cell - REACH)]; i < end; i += 3) {
      let a = corners[i];
      let b = corners[i + 1];
      let c = corners[i + 2];
      const above = (p[3 * a + 2] > zMm ? 1 : 0) | (p[3 * b + 2] > zMm ? 2 : 0) | (p[3 * c + 2] > zMm ? 4 : 0);
      if (above === 0 || above === 7) continue;
      if (sameAs) {
        a = sameAs[a];
        b = sameAs[b];
        c = sameAs[c];
      }
      if (n === fromLow.length) {
        cuts.grow();
        ({ fromLow, fromHigh, toLow, toHigh } = cuts);
      }
      switch (above) {
        case 1: fromLow[n] = b; fromHigh[n] = a; toLow[n] = c; toHigh[n] = a; break;
        case 2: fromLow[n] = c; fromHigh[n] = b; toLow[n] = a; toHigh[n] = b; break;
        case 4: fromLow[n] = a; fromHigh[n] = c; toLow[n] = b; toHigh[n] = c; break;
        case 3: fromLow[n] = c; fromHigh[n] = b; toLow[n] = c; toHigh[n] = a; break;
        case 6: fromLow[n] = a; fromHigh[n] = c; toLow[n] = a; toHigh[n] = b; break;
        default: fromLow[n] = b; fromHigh[n] = a; toLow[n] = b; toHigh[n] = c;
      }
      n++;
    }
  }
  cuts.count = n;
}

/** Follows cuts from side to side; null where one leads nowhere. */
function chained({ positions: p }: HeightIndex, zMm: number, cuts: Cuts): SectionLoop[] | null {
  const { count, fromLow, fromHigh, toLow, toHigh, slots, before } = cuts;
  const mask = slotMask(count);
  slots.fill(0, 0, mask + 1);
  for (let n = 0; n < count; n++) {
    const slot = slotOf(fromLow[n], fromHigh[n], mask);
    before[n] = slots[slot];
    slots[slot] = n + 1;
  }
  const loops: SectionLoop[] = [];
  const points = new Float64Array(2 * count);
  for (let first = 0; first < count; first++) {
    if (before[first] < 0) continue;
    const startLow = fromLow[first];
    const startHigh = fromHigh[first];
    let length = 0;
    let cut = first;
    take(cuts, first, mask);
    for (;;) {
      const low = 3 * fromLow[cut];
      const high = 3 * fromHigh[cut];
      const along = (zMm - p[low + 2]) / (p[high + 2] - p[low + 2]);
      const x = p[low] + along * (p[high] - p[low]);
      const y = p[low + 1] + along * (p[high + 1] - p[low + 1]);
      if (length === 0 || x !== points[length - 2] || y !== points[length - 1]) {
        points[length++] = x;
        points[length++] = y;
      }
      if (toLow[cut] === startLow && toHigh[cut] === startHigh) break;
      cut = startingAt(cuts, toLow[cut], toHigh[cut], mask);
      if (cut < 0) return null;
      take(cuts, cut, mask);
    }
    if (length > 2 && points[0] === points[length - 2] && points[1] === points[length - 1]) length -= 2;
    if (length >= 6) loops.push(points.slice(0, length));
  }
  return loops;
}

const TAKEN = -1;

function slotMask(count: number): number {
  return (1 << (33 - Math.clz32(Math.max(1, count - 1)))) - 1;
}

function slotOf(low: number, high: number, mask: number): number {
  const hash = Math.imul(low, SPREAD_A) ^ Math.imul(high, SPREAD_B);
  return (hash ^ (hash >>> 15)) & mask;
}

/** A cut not yet taken that starts on a side, or −1. */
function startingAt({ slots, before, fromLow, fromHigh }: Cuts, low: number, high: number, mask: number): number {
  for (let n = slots[slotOf(low, high, mask)] - 1; n >= 0; n = before[n] - 1) if (fromLow[n] === low && fromHigh[n] === high) return n;
  return -1;
}

/** Takes a cut out of its slot's list and marks it. */
function take({ slots, before, fromLow, fromHigh }: Cuts, cut: number, mask: number): void {
  const slot = slotOf(fromLow[cut], fromHigh[cut], mask);
  if (slots[slot] === cut + 1) slots[slot] = before[cut];
  else {
    let n = slots[slot] - 1;
    while (before[n] !== cut + 1) n = before[n] - 1;
    before[n] = before[cut];
  }
  before[cut] = TAKEN;
}
