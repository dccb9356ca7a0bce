/** OBJ's spellings of a face, and the cutting of faces into triangles. */

import { describe, expect, it } from 'vitest';
import { readMesh } from '../../../src/files/mesh/read.ts';
import { seeded } from '../../core/solid/oracle.ts';
import { soupOf, utf8, volumeOf } from './writers.ts';

const read = (text: string) => readMesh(utf8(text), 'a.obj');
const CORNERS = 'v 0 0 0\nv 2 0 0\nv 2 2 0\nv 0 2 0\nv 1 1 3\n';
const PYRAMID = soupOf(read(`${CORNERS}f 4 3 2 1\nf 1 2 5\nf 2 3 5\nf 3 4 5\nf 4 1 5\n`));

describe('faces', () => {
  it('a pyramid has a third of base × height', () => {
    // Standard mensuration formula; whole numbers, so exact but for the sum's rounding.
    expect(volumeOf(read(`${CORNERS}f 4 3 2 1\nf 1 2 5\nf 2 3 5\nf 3 4 5\nf 4 1 5\n`))).toBeCloseTo(4, 14);
  });

  it.each([
    ['negative numbers', `${CORNERS}f -2 -3 -4 -5\nf -5 -4 -1\nf -4 -3 -1\nf -3 -2 -1\nf -2 -5 -1`],
    ['v/vt, v//vn and v/vt/vn', `${CORNERS}vt 0 0\nvn 0 0 1\nf 4/1 3/1 2/1 1/1\nf 1//1 2//1 5//1\nf 2/1/1 3/1/1 5/1/1\nf 3 4 5\nf 4/ 1/ 5/`],
    ['groups, materials and unknown words', `mtllib a.mtl\no pond\n${CORNERS}g a b\nusemtl sand\ns off\nf 4 3 2 1\nl 1 2 3\np 1\ng c\nf 1 2 5\nshadow_obj x\nf 2 3 5\nf 3 4 5\nf 4 1 5`],
    ['continued lines and comments', `${CORNERS}f 4 3 \\\n 2 1 # base \\\nf 1 2\\\r\n5\nf 2 3 5\nf 3 4 5\nf 4 1 5`],
    ['faces before their vertices', `f 4 3 2 1\nf 1 2 5\nf 2 3 5\nf 3 4 5\nf 4 1 5\n${CORNERS}`],
    ['vertex colors and weights', `${CORNERS.replaceAll('0\n', '0 0.5 0.5 1\n')}f 4 3 2 1\nf 1 2 5\nf 2 3 5\nf 3 4 5\nf 4 1 5`],
    ['Windows line ends', `${CORNERS}f 4 3 2 1\nf 1 2 5\nf 2 3 5\nf 3 4 5\nf 4 1 5\n`.replace(/\n/g, '\r\n')],
  ])('are read with %s', (_, text) => {
    expect(soupOf(read(text))).toEqual(PYRAMID);
  });

  it.each([
    ['vertex 0', 'f 0 1 2', /"0" in a face on line 6/],
    ['a vertex too far back', 'f -6 1 2', /"-6" in a face/],
    ['a vertex too far ahead', 'f 1 2 6', /uses vertex 6; expected one of the 5/],
    ['a fraction', 'f 1.5 2 3', /"1\.5" in a face/],
    ['two corners', 'f 1 2', /a face with 2 corners on line 6/],
    ['free forms', 'surf 0 1 0 1 1 2 3 4', /free-form/],
    ['a short vertex', 'v 1 2\nf 1 2 3', /too few numbers on line 6/],
    ['4 billion', 'f 1 2 4000000000', /"4000000000" in a face/],
  ])('%s is refused', (_, line, message) => {
    expect(() => read(`${CORNERS}${line}\n`)).toThrow(message);
  });

  it('one line of 50 MB is refused or read in bounded time', () => {
    const start = performance.now();
    expect(soupOf(readMesh(utf8(`${CORNERS}f 4 3 2 1\nf 1 2 5\nf 2 3 5\nf 3 4 5\nf 4 1 5 #${' x'.repeat(25_000_000)}`), 'a.obj'))).toEqual(PYRAMID);
    expect(() => read(`${CORNERS}f${' 1'.repeat(25_000_000)}`)).toThrow(/too many corners|triangles/);
    expect(() => read(`${CORNERS}f 1 2 ${'3'.repeat(50_000_000)}`)).toThrow(/in a face on line 6/);
    // Seconds, not minutes, on a busy machine; measured 2.5 s.
    expect(performance.now() - start).toBeLessThan(30_000);
  });
});

/** A prism 1 high over a polygon, with the polygon as its two caps. */
function prism(outline: readonly (readonly [number, number])[], turned: (p: readonly number[]) => readonly number[]): string {
  const n = outline.length;
  const lines = [...outline.map(([x, y]) => [x, y, 0]), ...outline.map(([x, y]) => [x, y, 1])].map((p) => `v ${turned(p).join(' ')}`);
  lines.push(`f ${outline.map((_, i) => n - i).join(' ')}`, `f ${outline.map((_, i) => n + 1 + i).join(' ')}`);
  outline.forEach((_, i) => lines.push(`f ${i + 1} ${((i + 1) % n) + 1} ${((i + 1) % n) + 1 + n} ${i + 1 + n}`));
  return lines.join('\n');
}

/** Shoelace formula. */
const areaOf = (outline: readonly (readonly [number, number])[]): number =>
  outline.reduce((sum, [x, y], i) => sum + x * outline[(i + 1) % outline.length][1] - y * outline[(i + 1) % outline.length][0], 0) / 2;

/** Area without sign: larger than the polygon's when triangles overlap. */
function surfaceOf(soup: readonly number[]): number {
  let sum = 0;
  for (let i = 0; i < soup.length; i += 9) {
    const [u, v] = [3, 6].map((k) => [0, 1, 2].map((axis) => soup[i + k + axis] - soup[i + axis]));
    sum += Math.hypot(u[1] * v[2] - u[2] * v[1], u[2] * v[0] - u[0] * v[2], u[0] * v[1] - u[1] * v[0]) / 2;
  }
  return sum;
}

describe('cutting', () => {
  const shapes: [string, readonly (readonly [number, number])[]][] = [
    ['an L', [[0, 0], [3, 0], [3, 1], [1, 1], [1, 3], [0, 3]]],
    ['a square with corners in line', [[0, 0], [1, 0], [2, 0], [3, 0], [3, 3], [1.5, 3], [0, 3], [0, 1]]],
    ['a comb', [...Array.from({ length: 41 }, (_, i) => [i, i % 2 ? 5 : 1] as const), [40, 0], [0, 0]].reverse() as [number, number][]],
    ['a ring joined by a bridge', [[0, 0], [4, 0], [4, 4], [0, 4], [0, 0], [1, 1], [1, 3], [3, 3], [3, 1], [1, 1]]],
    ...[1, 2, 3, 4, 5, 6].map((seed): [string, [number, number][]] => {
      const random = seeded(seed);
      return [`a random star (seed ${seed})`, Array.from({ length: 10 + 40 * seed }, (_, i, { length } = { length: 10 + 40 * seed }) => {
        const [angle, radius] = [(2 * Math.PI * i) / length, 1 + 9 * random()];
        return [radius * Math.cos(angle), radius * Math.sin(angle)];
      })];
    }),
  ];
  const turns: [string, (p: readonly number[]) => readonly number[]][] = [
    ['flat', (p) => p],
    ['upright', ([x, y, z]) => [z, x, y]],
    ['tilted and a kilometer away', ([x, y, z]) => [0.6 * x - 0.8 * z + 1e6, y - 1e6, 0.8 * x + 0.6 * z]],
  ];
  for (const [name, outline] of shapes) {
    it.each(turns)(`${name}, %s: the prism has the outline's area as volume, without overlaps, closed`, (_, turned) => {
      const mesh = read(prism(outline, turned));
      const soup = soupOf(mesh);
      // Relative; doubles a kilometer away are exact to 2^-33 mm, over surfaces of hundreds of mm².
      const tolerance = 1e-7;
      expect(Math.abs(volumeOf(mesh) / areaOf(outline) - 1)).toBeLessThan(tolerance);
      const walls = outline.reduce((sum, [x, y], i) => sum + Math.hypot(x - outline[(i + 1) % outline.length][0], y - outline[(i + 1) % outline.length][1]), 0);
      expect(Math.abs(surfaceOf(soup) / (2 * areaOf(outline) + walls) - 1)).toBeLessThan(tolerance);
      const edges = new Map<string, number>();
      for (let i = 0; i < mesh.indices.length; i++) {
        const next = i % 3 === 2 ? i - 2 : i + 1;
        const [a, b] = [mesh.indices[i], mesh.indices[next]];
        edges.set(`${Math.min(a, b)}-${Math.max(a, b)}`, (edges.get(`${Math.min(a, b)}-${Math.max(a, b)}`) ?? 0) + (a < b ? 1 : -1));
      }
      expect([...edges.values()].every((balance) => balance === 0)).toBe(true);
    });
  }

  it('a concave face of more corners than can be cut in time is refused, a convex one is not', () => {
    const teeth = Array.from({ length: 25_000 }, (_, i) => `v ${i} ${i % 2 ? 5 : 1} 0`).join('\n');
    const round = Array.from({ length: 25_000 }, (_, i) => `v ${Math.cos(i / 3979)} ${Math.sin(i / 3979)} 0`).join('\n');
    const face = `f ${Array.from({ length: 25_000 }, (_, i) => i + 1).join(' ')}`;
    expect(() => read(`${teeth}\n${face}`)).toThrow(/concave faces with too many corners \(one has 25,000\)/);
    expect(read(`${round}\n${face}`).indices.length).toBe(3 * 24_998);
  });

  it('a face that crosses itself still keeps its edges and as many triangles as it must have', () => {
    expect(read('v 0 0 0\nv 2 2 0\nv 2 0 0\nv 0 2 0\nf 1 2 3 4').indices.length).toBe(6);
    expect(read('v 0 0 0\nv 1 0 0\nv 2 0 0\nv 3 0 0\nv 4 0 0\nf 1 2 3 4 5').indices.length).toBe(9);
  });
});
