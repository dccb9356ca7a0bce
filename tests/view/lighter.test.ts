/** The copy for drawing: light enough, the same bounds, the same form to about a cell. Plain forms and normals beside it. */
import { describe, expect, it } from 'vitest';
import { footprint, formOf, turnedCenter } from '../../src/view/form.ts';
import { lighterCopy, lighterSteps } from '../../src/view/lighter.ts';
import { creases, shaded, smoothNormals } from '../../src/view/normals.ts';
import { seeded } from './seeded.ts';

/** A sphere of radius 20 about (x, 0, 0): 2·n·(n−1) triangles, wound outward. */
function sphere(n: number, x = 0): { positions: Float32Array; indices: Uint32Array } {
  const positions: number[] = [x, 0, -20];
  for (let i = 1; i < n; i++) {
    for (let j = 0; j < n; j++) {
      const [polar, round] = [Math.PI * (1 - i / n), (2 * Math.PI * j) / n];
      positions.push(x + 20 * Math.sin(polar) * Math.cos(round), 20 * Math.sin(polar) * Math.sin(round), 20 * Math.cos(polar));
    }
  }
  positions.push(x, 0, 20);
  const at = (i: number, j: number): number => (i === 0 ? 0 : i === n ? 1 + (n - 1) * n : 1 + (i - 1) * n + (j % n));
  const indices: number[] = [];
  for (let i = 0; i < n; i++) {
    for (let j = 0; j < n; j++) {
      if (i > 0) indices.push(at(i, j), at(i, j + 1), at(i + 1, j));
      if (i < n - 1) indices.push(at(i, j + 1), at(i + 1, j + 1), at(i + 1, j));
    }
  }
  return { positions: new Float32Array(positions), indices: new Uint32Array(indices) };
}

/** Signed volume by the divergence theorem, mm³. */
function volumeOf({ positions: p, indices }: { positions: Float32Array; indices: Uint32Array }): number {
  let six = 0;
  for (let t = 0; t < indices.length; t += 3) {
    const [a, b, c] = [3 * indices[t], 3 * indices[t + 1], 3 * indices[t + 2]];
    six += p[a] * (p[b + 1] * p[c + 2] - p[b + 2] * p[c + 1]) + p[a + 1] * (p[b + 2] * p[c] - p[b] * p[c + 2]) + p[a + 2] * (p[b] * p[c + 1] - p[b + 1] * p[c]);
  }
  return six / 6;
}

describe('lighter copy', () => {
  const full = sphere(180);

  it.each([20_000, 5_000, 500, 40])('at most %d triangles, exactly the same bounds', (most) => {
    const copy = lighterCopy(full.positions, full.indices, most);
    expect(copy.indices.length / 3).toBeLessThanOrEqual(most);
    expect(copy.indices.length).toBeGreaterThan(0);
    expect(formOf(copy.positions).bounds).toEqual(formOf(full.positions).bounds);
  });

  it('20,000 triangles of a 64,440-triangle sphere enclose its 4/3·π·r³ to 1 % and wind the same way', () => {
    const copy = lighterCopy(full.positions, full.indices, 20_000);
    // A mean of points in a cell of side h lies inside by about h²/(24·r) a direction: 0.1 % here; 1 % leaves room for the grid's place.
    expect(Math.abs(volumeOf(copy) / ((4 / 3) * Math.PI * 8000) - 1)).toBeLessThan(0.01);
    expect(copy.indices.length / 3).toBeGreaterThan(5_000);
  });

  it('leaves a light mesh as it is, in arrays of its own', () => {
    const light = sphere(12);
    const copy = lighterCopy(light.positions, light.indices, 1000);
    expect(copy).toEqual(light);
    expect(copy.positions).not.toBe(light.positions);
  });

  it('of triangles that share no points, as an STL has them, runs every edge equally often both ways', () => {
    const positions = new Float32Array(full.indices.length * 3);
    full.indices.forEach((v, i) => positions.set(full.positions.subarray(3 * v, 3 * v + 3), 3 * i));
    const copy = lighterCopy(positions, new Uint32Array(full.indices.length).map((_, i) => i), 5_000);
    const runs = new Map<string, number>();
    for (let i = 0; i < copy.indices.length; i++) {
      const [a, b] = [copy.indices[i], copy.indices[i % 3 === 2 ? i - 2 : i + 1]];
      const key = `${Math.min(a, b)} ${Math.max(a, b)}`;
      runs.set(key, (runs.get(key) ?? 0) + (a < b ? 1 : -1));
    }
    expect(new Set(runs.values())).toEqual(new Set([0]));
    expect(copy.indices.length / 3).toBeGreaterThan(1_500);
    expect(Math.abs(volumeOf(copy) / ((4 / 3) * Math.PI * 8000) - 1)).toBeLessThan(0.01);
  });

  it('pauses: no stretch of work over 40,000 points or triangles', () => {
    const steps = lighterSteps(full.positions, full.indices, 20_000);
    let pauses = 0;
    while (!steps.next().done) pauses++;
    expect(pauses).toBeGreaterThanOrEqual(Math.floor(full.positions.length / 3 / 40_000) + Math.floor(full.indices.length / 3 / 40_000));
  });

  it('a mesh of one point, and a wish that no closed mesh meets', () => {
    expect(lighterCopy(new Float32Array(9).fill(7), new Uint32Array(60).map((_, i) => i % 3), 4).indices.length).toBe(0);
    expect(() => lighterCopy(full.positions, full.indices, 3)).toThrow('least closed mesh has 4');
  });
});

describe('form', () => {
  it('turned bounds are those of the turned points, seed 31', () => {
    const random = seeded(31);
    const points = new Float32Array(300).map(() => 50 * random() - 10);
    const turn = 0.7;
    const moved = new Float32Array(points);
    for (let i = 0; i < points.length; i += 3) {
      moved[i] = Math.cos(turn) * points[i] - Math.sin(turn) * points[i + 1];
      moved[i + 1] = Math.sin(turn) * points[i] + Math.cos(turn) * points[i + 1];
    }
    const { min, max } = formOf(moved).bounds;
    const center = turnedCenter(formOf(points), turn);
    expect(center[0]).toBeCloseTo((min[0] + max[0]) / 2, 4); // moved is in 32-bit floats: 24 bits of 60 mm
    expect(center[1]).toBeCloseTo((min[1] + max[1]) / 2, 4);
  });

  it('a ball covers a circle', () => {
    const outline = footprint(formOf(sphere(80).positions));
    for (let i = 0; i < outline.length; i += 2) expect(Math.hypot(outline[i], outline[i + 1])).toBeCloseTo(20, 3);
    expect(outline.length).toBe(80);
  });
});

describe('normals', () => {
  it('of a ball point out', () => {
    const { positions, indices } = sphere(40);
    const normals = smoothNormals(positions, indices);
    for (let i = 0; i < positions.length; i += 3) {
      const cosine = (positions[i] * normals[i] + positions[i + 1] * normals[i + 1] + positions[i + 2] * normals[i + 2]) / 20;
      expect(cosine).toBeGreaterThan(0.995); // the facets turn by 4.5° from one to the next
    }
  });

  it('of a cube stay square to its faces, and its twelve edges are its creases', () => {
    const positions = new Float32Array([0, 0, 0, 1, 0, 0, 1, 1, 0, 0, 1, 0, 0, 0, 1, 1, 0, 1, 1, 1, 1, 0, 1, 1]);
    const indices = new Uint32Array([0, 2, 1, 0, 3, 2, 4, 5, 6, 4, 6, 7, 0, 1, 5, 0, 5, 4, 1, 2, 6, 1, 6, 5, 2, 3, 7, 2, 7, 6, 3, 0, 4, 3, 4, 7]);
    const drawn = shaded(positions, indices, smoothNormals(positions, indices));
    for (let i = 0; i < drawn.normals.length; i += 3) {
      const sizes = [0, 1, 2].map((k) => Math.abs(drawn.normals[i + k])).sort();
      expect(sizes).toEqual([0, 0, 1]);
    }
    expect(creases(positions, indices).length / 6).toBe(12);
  });
});
