/**
 * How much paint lies on each plane, and how much of the planes behind it hides: counted on a grid over the mold, looked at
 * straight. Paint over the wall does not count. Half-clear paint counts half, and hides half.
 */
import type { ArtPlace } from '../scene/art-place.ts';
import type { Mold, Scene } from '../scene/scene.ts';
import { moldWallOvershoot } from '../solid/mold.ts';
import type { Region } from './region.ts';

/** How dense a picture's paint is, row by row from its top left. */
export interface PaintGrid {
  readonly across: number;
  readonly down: number;
  /** 0 clear to 255. */
  readonly alpha: Uint8Array;
}

export interface PaintedPicture {
  /** As it lies in the mold, seen from above (art-place.ts). */
  readonly place: ArtPlace;
  readonly widthMm: number;
  readonly heightMm: number;
  readonly paint: PaintGrid;
}

export interface PlanePaint {
  readonly planeId: string;
  readonly atMm: number;
  /** Painted wholly. */
  readonly regions: readonly Region[];
  readonly picture?: PaintedPicture;
}

export interface PlaneCoverage {
  readonly planeId: string;
  readonly cm2: number;
  /** Of the paint on planes farther from the viewer, the share that lies under this one's; nearest first, those untouched left out. */
  readonly hides: readonly { readonly planeId: string; readonly share: number }[];
}

/** Cells along the longer side of the mold: a hand-sized mold's are half a millimeter. */
const CELLS = 400;
const MM2_PER_CM2 = 100;
/** Less than this of a plane's paint is a touch of two edges. */
const LEAST_SHARE = 0.001;

/** In the planes' order. */
export function coverageOf({ mold, cast }: Pick<Scene, 'mold' | 'cast'>, planes: readonly PlanePaint[]): PlaneCoverage[] {
  const highest = Math.max(0, ...planes.map(({ atMm }) => atMm));
  const grid = gridOver(mold, highest);
  const paints = planes.map((plane) => paintOn(plane, mold, grid));
  const sums = paints.map((paint) => paint.reduce((sum, density) => sum + density, 0));
  const farther = (a: PlanePaint, b: PlanePaint): boolean => (cast === 'face-down' ? a.atMm > b.atMm : a.atMm < b.atMm);
  return planes.map((plane, i): PlaneCoverage => {
    const behind = planes.map((other, k) => ({ other, k })).filter(({ other }) => farther(other, plane)).sort((a, b) => Math.abs(a.other.atMm - plane.atMm) - Math.abs(b.other.atMm - plane.atMm));
    return {
      planeId: plane.planeId,
      cm2: (sums[i] * grid.cellMm ** 2) / MM2_PER_CM2,
      hides: behind.flatMap(({ other, k }) => {
        const share = sums[k] > 0 ? shared(paints[i], paints[k]) / sums[k] : 0;
        return share > LEAST_SHARE ? [{ planeId: other.planeId, share }] : [];
      }),
    };
  });
}

interface Grid {
  readonly cellMm: number;
  readonly across: number;
  readonly down: number;
  /** Middle of the first cell, at the front left. */
  readonly xMm: number;
  readonly yMm: number;
}

function gridOver(mold: Mold, zMm: number): Grid {
  const lean = zMm * Math.tan((mold.draftDeg * Math.PI) / 180);
  const [length, width] = mold.shape === 'round' ? [mold.diameterMm, mold.diameterMm] : [mold.lengthMm, mold.widthMm];
  const [x, y] = [length + 2 * lean, width + 2 * lean];
  const cellMm = Math.max(x, y) / CELLS;
  const across = Math.ceil(x / cellMm - 1e-9);
  const down = Math.ceil(y / cellMm - 1e-9);
  return { cellMm, across, down, xMm: (-(across - 1) * cellMm) / 2, yMm: (-(down - 1) * cellMm) / 2 };
}

/** Densities, 0 to 1, of every cell. */
function paintOn({ regions, picture, atMm }: PlanePaint, mold: Mold, grid: Grid): Float32Array {
  const paint = new Float32Array(grid.across * grid.down);
  for (const region of regions) fill(paint, region, grid);
  if (picture) lay(paint, picture, grid);
  for (let row = 0, i = 0; row < grid.down; row++) {
    for (let column = 0; column < grid.across; column++, i++) {
      if (paint[i] > 0 && moldWallOvershoot(mold, grid.xMm + column * grid.cellMm, grid.yMm + row * grid.cellMm, atMm) > 0) paint[i] = 0;
    }
  }
  return paint;
}

/** Cells whose middle the region winds about, row by row. */
function fill(paint: Float32Array, region: Region, { cellMm, across, down, xMm, yMm }: Grid): void {
  const crossings = Array.from({ length: down }, (): { readonly x: number; readonly way: number }[] => []);
  for (const loop of region) {
    const n = loop.length;
    for (let i = 0, j = n - 2; i < n; j = i, i += 2) {
      const [ax, ay, bx, by] = [loop[j], loop[j + 1], loop[i], loop[i + 1]];
      if (ay === by) continue;
      const [low, high] = ay < by ? [ay, by] : [by, ay];
      const last = Math.min(down - 1, Math.ceil((high - yMm) / cellMm) - 1);
      for (let row = Math.max(0, Math.ceil((low - yMm) / cellMm)); row <= last; row++) {
        crossings[row].push({ x: ax + ((yMm + row * cellMm - ay) / (by - ay)) * (bx - ax), way: by > ay ? 1 : -1 });
      }
    }
  }
  crossings.forEach((found, row) => {
    found.sort((a, b) => a.x - b.x);
    let winding = 0;
    found.forEach(({ x, way }, k) => {
      winding += way;
      if (winding === 0 || k + 1 === found.length) return;
      const last = Math.min(across - 1, Math.ceil((found[k + 1].x - xMm) / cellMm) - 1);
      for (let column = Math.max(0, Math.ceil((x - xMm) / cellMm)); column <= last; column++) paint[row * across + column] = 1;
    });
  });
}

/** A picture over what is there. */
function lay(paint: Float32Array, { place, widthMm, heightMm, paint: picture }: PaintedPicture, { cellMm, across, down, xMm, yMm }: Grid): void {
  const [cos, sin] = [Math.cos((place.turnDeg * Math.PI) / 180), Math.sin((place.turnDeg * Math.PI) / 180)];
  for (let row = 0, i = 0; row < down; row++) {
    for (let column = 0; column < across; column++, i++) {
      const [dx, dy] = [xMm + column * cellMm - place.xMm, yMm + row * cellMm - place.yMm];
      const u = ((cos * dx + sin * dy) * (place.mirror ? -1 : 1)) / widthMm + 0.5;
      const v = 0.5 - (cos * dy - sin * dx) / heightMm;
      if (u < 0 || u >= 1 || v < 0 || v >= 1) continue;
      const density = picture.alpha[Math.floor(v * picture.down) * picture.across + Math.floor(u * picture.across)] / 255;
      paint[i] = 1 - (1 - paint[i]) * (1 - density);
    }
  }
}

function shared(a: Float32Array, b: Float32Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i] * b[i];
  return sum;
}
