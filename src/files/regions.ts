/**
 * Uniting, cutting and growing flat regions, for the core's `Regions`: over manifold-3d's cross-sections, which are
 * Clipper2 inside. It computes on a grid of 1e-8 mm; a result's corners are right to that.
 * Every value the library makes is freed when the operation ends.
 */
import type { CrossSection, ManifoldToplevel } from 'manifold-3d';
import { loopArea, type Region, type Regions } from '../core/sight/region.ts';
import { joiningLibrary, type BooleansOptions } from './booleans.ts';

/** mm. How far a round join's chords may stray from its arc: a tenth of a pen's finest line. */
const JOIN_MM = 0.01;
/** Sides of a round join's whole circle: no fewer look round, more only cost. */
const JOIN_SIDES = { least: 16, most: 256 } as const;
/** mm². Leftovers of the grid, where two edges that should be one lie beside each other. */
const DUST_MM2 = 1e-6;

/** Shares the joining library with `openBooleans`; errors as that. */
export async function openRegions(options: BooleansOptions = {}): Promise<Regions> {
  return regionsOver(await joiningLibrary(options));
}

function regionsOver(library: ManifoldToplevel): Regions {
  return {
    unite(regions) {
      const full = regions.filter((region) => region.length > 0);
      return full.length === 0 ? [] : withLibrary(library, full, (parts, keep) => (parts.length === 1 ? parts[0] : keep(library.CrossSection.union(parts))));
    },
    minus(a, b) {
      if (a.length === 0) return [];
      return b.length === 0 ? a : withLibrary(library, [a, b], ([first, second], keep) => keep(first.subtract(second)));
    },
    meet(a, b) {
      return a.length === 0 || b.length === 0 ? [] : withLibrary(library, [a, b], ([first, second], keep) => keep(first.intersect(second)));
    },
    filled(rings, rule) {
      if (rings.length === 0) return [];
      const section = new library.CrossSection(rings.map(pointsOf), rule === 'evenodd' ? 'EvenOdd' : 'NonZero');
      try {
        return loopsOf(section);
      } finally {
        section.delete();
      }
    },
    grow(a, byMm) {
      return a.length === 0 || byMm === 0 ? a : withLibrary(library, [a], ([part], keep) => keep(part.offset(byMm, 'Round', 2, joinSides(byMm))));
    },
  };
}

/** Sides of a circle whose chords stray by at most JOIN_MM; the library takes multiples of four. */
function joinSides(byMm: number): number {
  const sides = Math.PI / Math.acos(Math.max(0, 1 - JOIN_MM / Math.abs(byMm)));
  return 4 * Math.ceil(Math.min(JOIN_SIDES.most, Math.max(JOIN_SIDES.least, sides)) / 4);
}

function withLibrary(library: ManifoldToplevel, regions: readonly Region[], compute: (parts: CrossSection[], keep: (made: CrossSection) => CrossSection) => CrossSection): Region {
  const made: CrossSection[] = [];
  const keep = (section: CrossSection): CrossSection => {
    made.push(section);
    return section;
  };
  try {
    const parts = regions.map((region) => keep(new library.CrossSection(region.map(pointsOf), 'Positive')));
    return loopsOf(compute(parts, keep));
  } finally {
    for (const section of made) section.delete();
  }
}

function pointsOf(loop: Float64Array): [number, number][] {
  const points: [number, number][] = [];
  for (let i = 0; i < loop.length; i += 2) points.push([loop[i], loop[i + 1]]);
  return points;
}

function loopsOf(section: CrossSection): Region {
  return section.toPolygons().map((points) => Float64Array.from(points.flat())).filter((loop) => Math.abs(loopArea(loop)) > DUST_MM2);
}

