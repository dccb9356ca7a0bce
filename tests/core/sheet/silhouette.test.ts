import { describe, expect, it } from 'vitest';
import type { Polygon } from '../../../src/core/sheet/polygon.ts';
import { boxOf, polygonArea, ringsOf } from '../../../src/core/sheet/polygon.ts';
import { silhouetteOf, simplifyRing } from '../../../src/core/sheet/silhouette.ts';
import type { TriangleMesh } from '../../../src/core/solid/solid.ts';

/** mm. A corner is cut by at most a cell's diagonal, and points stray by the simplification: 0.05·√2 + 0.06. */
const OUTLINE_MM = 0.14;

const totalArea = (polygons: readonly Polygon[]): number => polygons.reduce((sum, polygon) => sum + polygonArea(polygon), 0);

describe('silhouetteOf', () => {
  it('of a sphere is a circle: area πr² (closed form)', () => {
    const r = 12;
    const outline = silhouetteOf(sphere(r, 96, 0, 0, 0));
    expect(outline).toHaveLength(1);
    // The outline may lie off the circle by OUTLINE_MM all round.
    expect(Math.abs(totalArea(outline) - Math.PI * r * r)).toBeLessThan(2 * Math.PI * r * OUTLINE_MM);
    for (const [x, z] of outline[0].outer) expect(Math.abs(Math.hypot(x, z) - r)).toBeLessThan(OUTLINE_MM);
  });

  it('of a box is its rectangle, wherever it stands', () => {
    for (const [dx, dz] of [[0, 0], [1e5, -3e4]]) {
      const [polygon] = silhouetteOf(box(dx - 20, dx + 20, dz, dz + 7.3));
      const bounds = boxOf(ringsOf(polygon));
      expect(Math.abs(bounds.x0 - (dx - 20))).toBeLessThan(OUTLINE_MM);
      expect(Math.abs(bounds.x1 - (dx + 20))).toBeLessThan(OUTLINE_MM);
      expect(Math.abs(bounds.y1 - (dz + 7.3))).toBeLessThan(OUTLINE_MM);
      expect(Math.abs(totalArea([polygon]) - 40 * 7.3)).toBeLessThan(2 * 47.3 * OUTLINE_MM);
    }
  });

  it('of a ring seen from its hollow side has a hole: π(R + r)² − π(R − r)² (closed form)', () => {
    const [big, small] = [10, 3];
    const [polygon, ...rest] = silhouetteOf(torus(big, small, 90, 36));
    expect(rest).toHaveLength(0);
    expect(polygon.holes).toHaveLength(1);
    const expected = Math.PI * ((big + small) ** 2 - (big - small) ** 2);
    expect(Math.abs(polygonArea(polygon) - expected)).toBeLessThan(2 * Math.PI * 2 * big * OUTLINE_MM);
  });

  it('of two bodies apart is two outlines, the larger first', () => {
    const outlines = silhouetteOf(join(sphere(3, 32, -20, 0, 5), sphere(6, 32, 10, 0, 5)));
    expect(outlines).toHaveLength(2);
    expect(polygonArea(outlines[0])).toBeGreaterThan(polygonArea(outlines[1]));
  });

  it('does not count twice where bodies lie one behind the other', () => {
    const one = totalArea(silhouetteOf(sphere(6, 48, 0, 0, 0)));
    const two = totalArea(silhouetteOf(join(sphere(6, 48, 0, -30, 0), sphere(6, 48, 0, 30, 0))));
    expect(Math.abs(two - one)).toBeLessThan(1e-9 * one);
  });

  it('does not depend on how a mesh is wound or repeated', () => {
    const mesh = sphere(5, 32, 1, 2, 3);
    const flipped = { ...mesh, indices: mesh.indices.slice().reverse() };
    expect(silhouetteOf(flipped)).toEqual(silhouetteOf(mesh));
  });

  it('of nothing, or of a sheet on edge, is nothing', () => {
    expect(silhouetteOf({ positions: new Float64Array(0), indices: new Uint32Array(0) })).toEqual([]);
    expect(silhouetteOf({ positions: new Float64Array([0, 0, 0, 10, 0, 0, 0, 10, 0]), indices: new Uint32Array([0, 1, 2]) })).toEqual([]);
  });

  it('refuses coordinates that are not finite', () => {
    expect(() => silhouetteOf({ positions: new Float64Array([0, 0, 0, NaN, 0, 1, 0, 0, 1]), indices: new Uint32Array([0, 1, 2]) })).toThrow(/Vertex 1 .*finite/);
  });

  it('takes its time from the grid, not from the mesh: a rod ten meters long ends at once', () => {
    const began = performance.now();
    const outline = silhouetteOf(box(0, 1e4, 0, 5));
    expect(outline).toHaveLength(1);
    // ms. Two shared cores; measured 60.
    expect(performance.now() - began).toBeLessThan(3000);
  });
});

describe('simplifyRing', () => {
  it('keeps corners and drops what lies on the lines between', () => {
    const ring: [number, number][] = [];
    for (let i = 0; i < 10; i++) ring.push([i, 0]);
    for (let i = 0; i < 10; i++) ring.push([10, i]);
    for (let i = 10; i > 0; i--) ring.push([i, 10]);
    for (let i = 10; i > 0; i--) ring.push([0, i]);
    expect(simplifyRing(ring, 1e-9)).toEqual([[0, 0], [10, 0], [10, 10], [0, 10]]);
  });
});

function sphere(r: number, n: number, cx: number, cy: number, cz: number): TriangleMesh {
  const positions: number[] = [];
  const indices: number[] = [];
  for (let i = 0; i <= n; i++) {
    for (let j = 0; j <= 2 * n; j++) {
      const [a, b] = [(Math.PI * i) / n, (Math.PI * j) / n];
      positions.push(cx + r * Math.sin(a) * Math.cos(b), cy + r * Math.sin(a) * Math.sin(b), cz + r * Math.cos(a));
      if (i < n && j < 2 * n) {
        const v = i * (2 * n + 1) + j;
        indices.push(v, v + 2 * n + 1, v + 1, v + 1, v + 2 * n + 1, v + 2 * n + 2);
      }
    }
  }
  return { positions: new Float64Array(positions), indices: new Uint32Array(indices) };
}

/** A ring in the x–z plane, round the y axis. */
function torus(big: number, small: number, n: number, m: number): TriangleMesh {
  const positions: number[] = [];
  const indices: number[] = [];
  for (let i = 0; i < n; i++) {
    for (let j = 0; j < m; j++) {
      const [a, b] = [(2 * Math.PI * i) / n, (2 * Math.PI * j) / m];
      const reach = big + small * Math.cos(b);
      positions.push(reach * Math.cos(a), small * Math.sin(b), reach * Math.sin(a));
      const [v, right, up] = [i * m + j, ((i + 1) % n) * m + j, i * m + ((j + 1) % m)];
      indices.push(v, right, up, up, right, ((i + 1) % n) * m + ((j + 1) % m));
    }
  }
  return { positions: new Float64Array(positions), indices: new Uint32Array(indices) };
}

function box(x0: number, x1: number, z0: number, z1: number): TriangleMesh {
  const positions = new Float64Array(24);
  for (let i = 0; i < 8; i++) positions.set([i & 1 ? x1 : x0, i & 2 ? 5 : -5, i & 4 ? z1 : z0], 3 * i);
  return { positions, indices: new Uint32Array([0, 2, 1, 1, 2, 3, 4, 5, 6, 5, 7, 6, 0, 1, 4, 1, 5, 4, 2, 6, 3, 3, 6, 7, 0, 4, 2, 2, 4, 6, 1, 3, 5, 3, 7, 5]) };
}

function join(a: TriangleMesh, b: TriangleMesh): TriangleMesh {
  const offset = a.positions.length / 3;
  return { positions: new Float64Array([...a.positions, ...b.positions]), indices: new Uint32Array([...a.indices, ...b.indices.map((i) => i + offset)]) };
}
