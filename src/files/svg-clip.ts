/**
 * What clips and masks leave of a drawing, as regions in mm. Clips are exact; of masks those that paint only black and
 * white, opaque. Source: CSS Masking Module Level 1, §6 (clipPath) and §7.10 (mask).
 */
import type { Point } from '../core/sheet/polygon.ts';
import type { Loop, Region, RegionBounds, Regions } from '../core/sight/region.ts';
import { insideRegion, regionBounds } from '../core/sight/region.ts';
import type { Matrix } from './svg-matrix.ts';
import { after } from './svg-matrix.ts';
import type { Flat } from './svg-outline.ts';
import type { Into, Place } from './svg-place.ts';
import { movedBy } from './svg-place.ts';
import { isShape } from './svg-shape.ts';
import type { Own, Paint } from './svg-style.ts';
import { paintOf, referenceIn, toneOf } from './svg-style.ts';
import type { Element } from './svg-tree.ts';
import { lengthOf } from './svg-tree.ts';

/** What a reading of a drawing gives to its clips. */
export interface Clipping {
  readonly regions: Regions;
  /** Clips and masks that are being read: one that comes again is made of itself. */
  readonly busy: Set<Element>;
  own(element: Element): Own;
  named(id: string): Element | undefined;
  inherited(element: Element): Paint;
  children(element: Element, place: Place): void;
  count(deep: number): void;
  outline(element: Element, place: Place): Flat[];
  inside(rings: readonly (readonly Point[])[], matrix: Matrix, rule: 'evenodd' | 'nonzero'): Region;
  bounds(element: Element, place: Place): readonly [number, number, number, number] | null;
}

/** What of a region is inside a clip. A clip's edge seldom runs through a shape, and only there is anything to cut. */
export function clippedBy(region: Region, clip: Region | null, regions: Regions): Region {
  const box = regionBounds(region);
  if (clip === null || box === null) return region;
  if (clip.some((loop) => runsThrough(loop, box))) return regions.meet(region, clip);
  return insideRegion(clip, box.minX, box.minY) ? region : [];
}

/** Whether an edge may touch a box: the edge's own box does. */
function runsThrough(loop: Loop, { minX, minY, maxX, maxY }: RegionBounds): boolean {
  for (let i = 0, j = loop.length - 2; i < loop.length; j = i, i += 2) {
    const [ax, ay, bx, by] = [loop[j], loop[j + 1], loop[i], loop[i + 1]];
    if ((ax >= minX || bx >= minX) && (ax <= maxX || bx <= maxX) && (ay >= minY || by >= minY) && (ay <= maxY || by <= maxY)) return true;
  }
  return false;
}

/** Where an element is seen through its clip; else why nothing is hidden: a reference that is not valid hides nothing. */
export function clipRegion(by: Clipping, value: string, element: Element, place: Place): Region | 'clip' | 'lost' {
  return referred(by, { value, tag: 'clipPath', shape: 'clip' }, (clip) => {
    const matrix = unitsOf(by, clip.has.get('clipPathUnits') ?? 'userSpaceOnUse', element, place);
    if (!matrix) return [];
    const own = by.own(clip);
    const inner: Place = { ...place, matrix: movedBy(own, { ...place, matrix }), paint: by.inherited(clip), clip: null, deep: place.deep + 1 };
    const parts: Region[] = [];
    for (const child of clip.children) {
      const part = silhouette(by, child, inner);
      if (typeof part === 'string') return part;
      parts.push(part);
    }
    return clippedAgain(by, by.regions.unite(parts), own, { element, place });
  });
}

/** A child of a clip: its geometry alone, where it is not made invisible. */
function silhouette(by: Clipping, element: Element, place: Place): Region | 'clip' {
  by.count(place.deep);
  const own = by.own(element);
  if (own('display') === 'none') return [];
  const at: Place = { ...place, matrix: movedBy(own, place), paint: paintOf(own, place.paint), deep: place.deep + 1 };
  const region = geometry(by, element, at);
  return typeof region === 'string' ? region : clippedAgain(by, region, own, { element, place: at });
}

/** What of a clip, or of one of its children, a clip of its own leaves. */
function clippedAgain(by: Clipping, region: Region, own: Own, { element, place }: { element: Element; place: Place }): Region | 'clip' {
  const value = own('clip-path');
  if (value === undefined || value === 'none') return region;
  const around = clipRegion(by, value, element, place);
  if (around === 'lost') place.into.tell('lost');
  return around === 'clip' ? around : around === 'lost' ? region : clippedBy(region, around, by.regions);
}

function geometry(by: Clipping, element: Element, place: Place): Region | 'clip' {
  const { has, name } = element;
  if (name === 'use') {
    const target = by.named((has.get('href') ?? '').trim().slice(1));
    const matrix = after(place.matrix, [1, 0, 0, 1, lengthOf(has.get('x'), place.wide), lengthOf(has.get('y'), place.high)]);
    return target ? silhouette(by, target, { ...place, matrix }) : [];
  }
  if (place.paint.visibility !== 'visible') return [];
  if (name === 'text') return 'clip';
  // Groups do not count here.
  if (!isShape(element)) return [];
  return by.inside(by.outline(element, place).map(({ points }) => points), place.matrix, place.paint['clip-rule'] === 'evenodd' ? 'evenodd' : 'nonzero');
}

/** Where a mask lets an element be seen, if it is all black and white; else why nothing is hidden. */
export function maskRegion(by: Clipping, value: string, element: Element, place: Place): Region | 'mask' | 'lost' {
  return referred(by, { value, tag: 'mask', shape: 'mask' }, (mask) => {
    const { has } = mask;
    const units = has.get('maskUnits') ?? 'objectBoundingBox';
    const sheet = unitsOf(by, units, element, place);
    const matrix = unitsOf(by, has.get('maskContentUnits') ?? 'userSpaceOnUse', element, place);
    if (!sheet || !matrix) return [];
    const [wide, high] = units === 'objectBoundingBox' ? [1, 1] : [place.wide, place.high];
    const [x, y] = [lengthOf(has.get('x') ?? '-10%', wide), lengthOf(has.get('y') ?? '-10%', high)];
    const [right, low] = [x + lengthOf(has.get('width') ?? '120%', wide), y + lengthOf(has.get('height') ?? '120%', high)];
    const own = by.own(mask);
    const byAlpha = own('mask-type') === 'alpha';
    let clear = (own('mask') ?? 'none') === 'none' && (own('clip-path') ?? 'none') === 'none';
    let seen: Region = [];
    const into: Into = {
      bounds: null,
      add({ region, paint, color, opaque }) {
        const tone = byAlpha ? 1 : toneOf(paint, color);
        if (!opaque || tone === null) clear = false;
        else if (clear) seen = tone === 1 ? by.regions.unite([seen, region]) : by.regions.minus(seen, region);
      },
      tell(what) {
        if (what === 'lost') place.into.tell(what);
        else clear = false;
      },
    };
    by.children(mask, { ...place, matrix, paint: by.inherited(mask), clip: null, opaque: true, deep: place.deep + 1, into });
    return clear ? clippedBy(seen, by.inside([[[x, y], [right, y], [right, low], [x, low]]], sheet, 'nonzero'), by.regions) : 'mask';
  });
}

/** What `read` makes of the element that is meant, guarded against one that is made of itself. */
function referred<T extends 'clip' | 'mask'>(by: Clipping, { value, tag, shape }: { value: string; tag: string; shape: T }, read: (found: Element) => Region | T | 'lost'): Region | T | 'lost' {
  const id = referenceIn(value);
  if (id === null) return shape;
  const found = by.named(id);
  if (!found || found.name !== tag || by.busy.has(found)) return 'lost';
  by.busy.add(found);
  try {
    return read(found);
  } finally {
    by.busy.delete(found);
  }
}

/** From a clip's or mask's coordinates to mm; null: they are shares of a box that the element does not have. */
function unitsOf(by: Clipping, units: string, element: Element, place: Place): Matrix | null {
  if (units !== 'objectBoundingBox') return place.matrix;
  const box = by.bounds(element, place);
  return box && after(place.matrix, [box[2], 0, 0, box[3], box[0], box[1]]);
}
