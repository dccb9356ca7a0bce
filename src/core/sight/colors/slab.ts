/**
 * What color of a creature newly shows on one plane: seen straight from the show face, the first of its surfaces between
 * this plane and its next one nearer the viewer. Triangles are drawn into a grid that keeps the nearest (a z-buffer,
 * Catmull 1974), one look straight down the middle of each pixel.
 */
import { SolidError } from '../../solid/solid.ts';
import { encoded, type Light } from '../color.ts';
import { regionBounds, type Region } from '../region.ts';
import type { ColoredMesh, ColoredPart } from './colored-mesh.ts';
import { pixelsInside } from './inside.ts';
import type { Grid, PlacedPicture } from './picture.ts';
import { levelFor, lookUp } from './texture.ts';

export interface Slab {
  /** What is newly visible on the plane. */
  readonly fresh: Region;
  readonly fromMm: number;
  readonly toMm: number;
  /** Whether the viewer looks down; else up, through the floor. */
  readonly fromAbove: boolean;
  readonly pixelMm: number;
  /** Where a point of the creature is painted, if not right under it, and how large it looks there against its true size. */
  readonly move?: (xMm: number, yMm: number, zMm: number) => readonly [xMm: number, yMm: number, scale: number];
}

export interface SlabColors {
  /** A pixel wider than `fresh`, so that a clip along its edge is filled. */
  readonly picture: PlacedPicture;
  /** Linear light of every pixel that lies in `fresh` and has a color, three numbers each. */
  readonly light: Float32Array;
}

/** mm. A surface as far outside the slab is in it: heights of posed meshes are right to less. */
const AT_PLANE_MM = 1e-5;
/** Of a triangle's width: a pixel's middle as far beside an edge is on it, so that neighbors leave no crack. */
const ON_EDGE = 1e-9;
/** Pixels that are drawn over `fresh`, and cracks that are filled from their neighbors. */
const RIM_PIXELS = 1;
/** Looks at surfaces, over all of a slab: some 20 seconds. Honest meshes take a few million. */
const MOST_LOOKS = 2e9;

/** Null where nothing of it has a color. @throws {SolidError} for thousands of surfaces one over the other */
export function slabColors(mesh: ColoredMesh, slab: Slab): SlabColors | null {
  const bounds = regionBounds(slab.fresh);
  if (!bounds) return null;
  const { pixelMm } = slab;
  const [left, top] = [Math.floor(bounds.minX / pixelMm) - RIM_PIXELS, Math.ceil(bounds.maxY / pixelMm) + RIM_PIXELS];
  const grid: Grid = {
    leftMm: left * pixelMm,
    topMm: top * pixelMm,
    width: Math.ceil(bounds.maxX / pixelMm) + RIM_PIXELS - left,
    height: top - (Math.floor(bounds.minY / pixelMm) - RIM_PIXELS),
    pixelMm,
  };
  const light = nearestLight(mesh, slab, grid);
  const inside = pixelsInside(slab.fresh, grid);
  const shown: number[] = [];
  for (let i = 0; i < inside.length; i++) {
    if (inside[i] === 0) light[3 * i] = NaN;
    else if (!Number.isNaN(light[3 * i])) shown.push(i);
  }
  if (shown.length === 0) return null;
  const seen = new Float32Array(3 * shown.length);
  shown.forEach((i, n) => {
    for (let k = 0; k < 3; k++) seen[3 * n + k] = light[3 * i + k];
  });
  for (let pass = 0; pass < RIM_PIXELS; pass++) growOver(light, grid);
  return { picture: { ...grid, rgba: written(light) }, light: seen };
}

/** Three numbers a pixel, the first NaN where no surface is met. */
function nearestLight(mesh: ColoredMesh, { fromMm, toMm, fromAbove, move }: Slab, grid: Grid): Float32Array {
  const { leftMm, topMm, width, height, pixelMm } = grid;
  const light = new Float32Array(3 * width * height).fill(NaN);
  const nearest = new Float64Array(width * height).fill(-Infinity);
  const sign = fromAbove ? 1 : -1;
  const [low, high] = [fromMm - AT_PLANE_MM, toMm + AT_PLANE_MM];
  // Bent light draws a large triangle's inside a little aside. What newly shows lies inside the creature on this plane, so a surface
  // is met before it in any case; that it is told a hair behind it is no reason to leave it out.
  const [bottom, top] = !move ? [low, high] : fromAbove ? [-Infinity, high] : [low, Infinity];
  const color = new Float64Array(3);
  const at = new Float64Array(6);
  const scales = Float64Array.of(1, 1, 1);
  let looks = 0;
  for (const part of mesh) {
    const { positions: p, indices } = part;
    for (let t = 0; t < indices.length; t += 3) {
      const [az, bz, cz] = [p[3 * indices[t] + 2], p[3 * indices[t + 1] + 2], p[3 * indices[t + 2] + 2]];
      if (Math.max(az, bz, cz) < low || Math.min(az, bz, cz) > high) continue;
      for (let k = 0; k < 3; k++) {
        const corner = 3 * indices[t + k];
        at[2 * k] = p[corner];
        at[2 * k + 1] = p[corner + 1];
        if (move) [at[2 * k], at[2 * k + 1], scales[k]] = move(p[corner], p[corner + 1], p[corner + 2]);
      }
      // In pixels, right and down, counted from the middle of the first.
      const ax = (at[0] - leftMm) / pixelMm - 0.5, ay = (topMm - at[1]) / pixelMm - 0.5;
      const bx = (at[2] - leftMm) / pixelMm - 0.5, by = (topMm - at[3]) / pixelMm - 0.5;
      const cx = (at[4] - leftMm) / pixelMm - 0.5, cy = (topMm - at[5]) / pixelMm - 0.5;
      const twice = (bx - ax) * (cy - ay) - (by - ay) * (cx - ax);
      // Seen edge on.
      if (twice === 0) continue;
      const y0 = Math.max(0, Math.ceil(Math.min(ay, by, cy)));
      const y1 = Math.min(height - 1, Math.floor(Math.max(ay, by, cy)));
      const [west, east] = [Math.min(ax, bx, cx), Math.max(ax, bx, cx)];
      if (y0 > y1 || east < 0 || west > width - 1) continue;
      const shade = shader(part, t, pixelMm);
      for (let y = y0; y <= y1; y++) {
        // Shares of the corners along the row: share + slope × x.
        const slopeB = (cy - ay) / twice, shareB = (-ax * (cy - ay) - (y - ay) * (cx - ax)) / twice;
        const slopeC = -(by - ay) / twice, shareC = ((bx - ax) * (y - ay) + (by - ay) * ax) / twice;
        const [from, to] = inside(shareB, slopeB, inside(shareC, slopeC, inside(1 - shareB - shareC, -slopeB - slopeC, [west, east])));
        const last = Math.min(width - 1, Math.floor(to));
        for (let x = Math.max(0, Math.ceil(from)); x <= last; x++) {
          if (++looks > MOST_LOOKS) throw new SolidError('Its colors can’t be drawn: thousands of its surfaces lie over each other. Export a simpler mesh.');
          let wb = shareB + slopeB * x;
          let wc = shareC + slopeC * x;
          if (move) {
            // What lies halfway between two corners is seen nearer the one that looks smaller.
            const sum = scales[0] * (1 - wb - wc) + scales[1] * wb + scales[2] * wc;
            wb *= scales[1] / sum;
            wc *= scales[2] / sum;
          }
          const z = az + wb * (bz - az) + wc * (cz - az);
          const i = y * width + x;
          if (z < bottom || z > top || sign * z <= nearest[i]) continue;
          nearest[i] = sign * z;
          shade(wb, wc, color);
          light[3 * i] = color[0];
          light[3 * i + 1] = color[1];
          light[3 * i + 2] = color[2];
        }
      }
    }
  }
  return light;
}

/** Where along a row a corner's share is not negative, within a stretch of it. */
function inside(share: number, slope: number, [from, to]: readonly [number, number]): readonly [number, number] {
  if (slope > 0) return [Math.max(from, (-ON_EDGE - share) / slope), to];
  if (slope < 0) return [from, Math.min(to, (-ON_EDGE - share) / slope)];
  return share < -ON_EDGE ? [1, 0] : [from, to];
}

/** Linear light of a triangle by the shares of its second and third corner. */
function shader(part: ColoredPart, t: number, pixelMm: number): (wb: number, wc: number, out: Float64Array) => void {
  const { indices, light, vertexLight, texture, uv } = part;
  const [a, b, c] = [indices[t], indices[t + 1], indices[t + 2]];
  const level = texture && uv ? levelFor(texture, picturePixels(part, t, pixelMm)) : 0;
  return (wb, wc, out) => {
    const wa = 1 - wb - wc;
    if (texture && uv) lookUp(texture, level, wa * uv[2 * a] + wb * uv[2 * b] + wc * uv[2 * c], wa * uv[2 * a + 1] + wb * uv[2 * b + 1] + wc * uv[2 * c + 1], out);
    else out.fill(1);
    for (let k = 0; k < 3; k++) {
      out[k] *= light[k];
      if (vertexLight) out[k] *= wa * vertexLight[3 * a + k] + wb * vertexLight[3 * b + k] + wc * vertexLight[3 * c + k];
    }
  };
}

/** How many pixels of a triangle's picture lie across one of the guide's, on its surface. */
function picturePixels({ positions: p, indices, texture, uv }: ColoredPart, t: number, pixelMm: number): number {
  const [i, j, k] = [indices[t], indices[t + 1], indices[t + 2]];
  const [ux, uy, uz] = [0, 1, 2].map((d) => p[3 * j + d] - p[3 * i + d]);
  const [vx, vy, vz] = [0, 1, 2].map((d) => p[3 * k + d] - p[3 * i + d]);
  const mm2 = Math.hypot(uy * vz - uz * vy, uz * vx - ux * vz, ux * vy - uy * vx) / 2;
  const { width, height } = texture!.levels[0];
  const [su, sv] = [uv![2 * j] - uv![2 * i], uv![2 * j + 1] - uv![2 * i + 1]];
  const [tu, tv] = [uv![2 * k] - uv![2 * i], uv![2 * k + 1] - uv![2 * i + 1]];
  const pixels = (Math.abs(su * tv - sv * tu) / 2) * width * height;
  return mm2 > 0 ? pixelMm * Math.sqrt(pixels / mm2) : 1;
}

/** Every pixel without a color takes the mean of its neighbors that have one. */
function growOver(light: Float32Array, { width, height }: Grid): void {
  const taken: [number, Light][] = [];
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      const i = y * width + x;
      if (!Number.isNaN(light[3 * i])) continue;
      let [r, g, b, n] = [0, 0, 0, 0];
      for (let row = Math.max(0, y - 1); row <= Math.min(height - 1, y + 1); row++) {
        for (let column = Math.max(0, x - 1); column <= Math.min(width - 1, x + 1); column++) {
          const o = 3 * (row * width + column);
          if (Number.isNaN(light[o])) continue;
          r += light[o];
          g += light[o + 1];
          b += light[o + 2];
          n++;
        }
      }
      if (n > 0) taken.push([i, [r / n, g / n, b / n]]);
    }
  }
  for (const [i, mean] of taken) light.set(mean, 3 * i);
}

function written(light: Float32Array): Uint8ClampedArray<ArrayBuffer> {
  const rgba = new Uint8ClampedArray((light.length / 3) * 4);
  for (let i = 0, out = 0; i < light.length; i += 3, out += 4) {
    if (Number.isNaN(light[i])) continue;
    for (let k = 0; k < 3; k++) rgba[out + k] = 255 * encoded(Math.min(1, light[i + k]));
    rgba[out + 3] = 255;
  }
  return rgba;
}
