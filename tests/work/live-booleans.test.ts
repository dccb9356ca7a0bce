import { describe, expect, it } from 'vitest';
import { meshVolume } from '../../src/core/solid/shape-volume.ts';
import type { Booleans, TriangleMesh } from '../../src/core/solid/solid.ts';
import { openBooleans } from '../../src/files/booleans.ts';
import { RememberedBooleans } from '../../src/work/live-booleans.ts';

/** mm³. The library joins in doubles at a box's size. */
const VOLUME_MM3 = 1e-6;
/** A join of more triangles than this waits for the hand to rest. */
const TOO_MANY = 50_000;

function box(at: number, size: number, triangles = 12): TriangleMesh {
  const [a, b] = [at, at + size];
  const positions = Float64Array.from([a, a, a, b, a, a, b, b, a, a, b, a, a, a, b, b, a, b, b, b, b, a, b, b]);
  const indices = [0, 2, 1, 0, 3, 2, 4, 5, 6, 4, 6, 7, 0, 1, 5, 0, 5, 4, 1, 2, 6, 1, 6, 5, 2, 3, 7, 2, 7, 6, 3, 0, 4, 3, 4, 7];
  // Triangles without area: heavy, and the same solid.
  while (indices.length < 3 * triangles) indices.push(0, 0, 0);
  return { positions, indices: Uint32Array.from(indices) };
}

function counted(booleans: Booleans) {
  const made: string[] = [];
  const count = <K extends 'union' | 'intersect' | 'subtract'>(name: K): Booleans[K] =>
    ((...given: unknown[]) => {
      made.push(name);
      return (booleans[name] as (...given: unknown[]) => TriangleMesh)(...given);
    }) as Booleans[K];
  return { made, booleans: { ...booleans, union: count('union'), intersect: count('intersect'), subtract: count('subtract') } };
}

describe('booleans that remember', () => {
  it('join once what has the same points, whoever made the mesh', async () => {
    const { made, booleans } = counted(await openBooleans());
    const remembered = new RememberedBooleans(booleans);
    for (const live of [false, true, false]) {
      const planning = remembered.forPlanning(live);
      expect(meshVolume(planning.booleans.intersect(box(0, 10), box(5, 10)))).toBeCloseTo(125, -Math.log10(VOLUME_MM3));
      expect(planning.about()).toBe(false);
    }
    expect(made).toEqual(['intersect']);
    remembered.forPlanning(false).booleans.intersect(box(0, 10), box(5.001, 10));
    remembered.forPlanning(false).booleans.subtract(box(0, 10), box(5, 10));
    expect(made).toEqual(['intersect', 'intersect', 'subtract']);
  });

  it('put off a large join while live, say so, and make it at rest', async () => {
    const { made, booleans } = counted(await openBooleans());
    const remembered = new RememberedBooleans(booleans);
    const heavy = box(2, 4, TOO_MANY);
    const live = remembered.forPlanning(true);
    // Wholly inside: the guess is right.
    expect(meshVolume(live.booleans.intersect(heavy, box(0, 10)))).toBeCloseTo(64, 9);
    expect(meshVolume(live.booleans.intersect(heavy, box(20, 5)))).toBe(0);
    expect(meshVolume(live.booleans.subtract(heavy, box(20, 5)))).toBeCloseTo(64, 9);
    expect(meshVolume(live.booleans.union([heavy, box(20, 5)]))).toBeCloseTo(64 + 125, 9);
    expect(live.about()).toBe(true);
    expect(made).toEqual([]);
    const rest = remembered.forPlanning(false);
    expect(meshVolume(rest.booleans.intersect(heavy, box(0, 10)))).toBeCloseTo(64, -Math.log10(VOLUME_MM3));
    expect(rest.about()).toBe(false);
    expect(made).toEqual(['intersect']);
    const again = remembered.forPlanning(true);
    again.booleans.intersect(heavy, box(0, 10));
    expect(again.about()).toBe(false);
  });

  it('allow so many triangles to a planning, not to a join', async () => {
    const remembered = new RememberedBooleans(await openBooleans());
    const planning = remembered.forPlanning(true);
    planning.booleans.intersect(box(0, 10, 30_000), box(5, 10));
    expect(planning.about()).toBe(false);
    planning.booleans.intersect(box(0, 10, 30_001), box(6, 10));
    expect(planning.about()).toBe(true);
  });
});
