/** Joining regions within bounds: a drawing that would take minutes is refused, with what to do about it. */
import type { Loop, Region, Regions } from '../core/sight/region.ts';
import type { Fail } from './fail.ts';

/** What `filled` costs beyond its corners, all shapes together: some 20 s. Measured: 7e-8 s for each corner and line beside it. */
const MOST_CROSSED = 3e8;
/** As much of it as cutting or uniting takes for a corner, 2 µs. */
const PER_CORNER = 30;

/** The same operations; they throw what `fail` makes once they have done too much. */
export function boundedRegions(regions: Regions, fail: Fail): Regions {
  let crossed = 0;
  const spend = (more: number): void => {
    crossed += more;
    if (crossed > MOST_CROSSED) throw fail('lines that run back and forth too densely', 'fewer points', 'Simplify its lines in the drawing program, or save it as a PNG.');
  };
  const count = (region: Region): number => PER_CORNER * region.reduce((sum, loop) => sum + loop.length / 2, 0);
  return {
    ...regions,
    filled(rings, rule) {
      spend(crossings(rings));
      return regions.filled(rings, rule);
    },
    unite(parts) {
      spend(parts.reduce((sum, part) => sum + count(part), 0));
      return regions.unite(parts);
    },
    meet(a, b) {
      spend(count(a) + count(b));
      return regions.meet(a, b);
    },
    minus(a, b) {
      spend(count(a) + count(b));
      return regions.minus(a, b);
    },
  };
}

/** Corners times the lines that lie beside one, from top to bottom: at each corner these are gone through. */
function crossings(rings: readonly Loop[]): number {
  let [corners, down, low, high] = [0, 0, Infinity, -Infinity];
  for (const ring of rings) {
    corners += ring.length / 2;
    for (let i = 1, j = ring.length - 1; i < ring.length; j = i, i += 2) {
      down += Math.abs(ring[i] - ring[j]);
      low = Math.min(low, ring[i]);
      high = Math.max(high, ring[i]);
    }
  }
  return high > low ? (corners * down) / (high - low) : 0;
}
