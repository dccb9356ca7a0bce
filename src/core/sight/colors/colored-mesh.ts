/** A mesh that brings its own colors, beside the plain one that everything is measured by: parts with paint on them. */
import { middleOf, turnedMesh } from '../../solid/pose.ts';
import { turnOf } from '../../solid/shape-turn.ts';
import type { Light } from '../color.ts';
import type { Texture } from './texture.ts';

export interface ColoredPart {
  /** x, y, z per vertex, mm, z up, as the file places them. */
  readonly positions: Float64Array;
  /** Three vertex numbers per triangle, in range. */
  readonly indices: Uint32Array;
  /** The color of all of it, in linear light; vertices and picture are multiplied with it. */
  readonly light: Light;
  /** Red, green, blue per vertex, in linear light. */
  readonly vertexLight?: Float32Array;
  /** With `uv`: two per vertex, 0 to 1 across and down the picture. */
  readonly texture?: Texture;
  readonly uv?: Float32Array;
}

export type ColoredMesh = readonly ColoredPart[];

export interface ColoredPose {
  readonly xMm: number;
  readonly yMm: number;
  readonly baseMm: number;
  readonly turnDeg: readonly [number, number, number];
  readonly scale: number;
}

/**
 * The same where a creature stands, as `poseSolid` puts the plain mesh: the center of its bounds at x, y, its lowest point
 * at the base. Triangles with two corners in one place count for nothing there, nor do they here.
 */
export function posedColors(mesh: ColoredMesh, { xMm, yMm, baseMm, turnDeg, scale }: ColoredPose): ColoredMesh {
  const middle = middleOf(boundsOf(mesh));
  const turned = mesh.map((part) => ({ ...part, ...turnedMesh(part, turnOf(turnDeg), scale, middle) }));
  const { min, max } = boundsOf(turned);
  const shift = [xMm - (min[0] + max[0]) / 2, yMm - (min[1] + max[1]) / 2, baseMm - min[2]];
  for (const { positions } of turned) for (let i = 0; i < positions.length; i++) positions[i] += shift[i % 3];
  return turned;
}

interface Box {
  readonly min: [number, number, number];
  readonly max: [number, number, number];
}

function boundsOf(mesh: ColoredMesh): Box {
  const box: Box = { min: [Infinity, Infinity, Infinity], max: [-Infinity, -Infinity, -Infinity] };
  for (const { positions: p, indices } of mesh) {
    const same = (a: number, b: number): boolean => p[a] === p[b] && p[a + 1] === p[b + 1] && p[a + 2] === p[b + 2];
    for (let i = 0; i < indices.length; i += 3) {
      const corners = [3 * indices[i], 3 * indices[i + 1], 3 * indices[i + 2]];
      const [a, b, c] = corners;
      if (same(a, b) || same(b, c) || same(c, a)) continue;
      for (const corner of corners) {
        for (let k = 0; k < 3; k++) {
          const value = p[corner + k];
          if (value < box.min[k]) box.min[k] = value;
          if (value > box.max[k]) box.max[k] = value;
        }
      }
    }
  }
  return box;
}
