/** What lies where in a casting: figures by their meshes, walls and resin by shares of cells, and who is round. */
import { describe, expect, it } from 'vitest';
import { bodyOf } from '../../../src/core/cure/body/build.ts';
import { cellsByLayer } from '../../../src/core/cure/body/cells.ts';
import { linesThrough } from '../../../src/core/cure/body/grid.ts';
import { placementSampler } from '../../../src/core/cure/body/inside.ts';
import { roundOnAxis } from '../../../src/core/cure/body/round.ts';
import { castInMaterial } from '../../../src/core/cure/body/thermal-materials.ts';
import { MATERIALS } from '../../../src/core/resin/materials.ts';
import type { Mold, Shape } from '../../../src/core/scene/scene.ts';
import { moldVolumeBelow } from '../../../src/core/solid/mold.ts';
import { poseSolid } from '../../../src/core/solid/pose.ts';
import { seeded } from '../../view/seeded.ts';
import { EPOXY } from './bodies.ts';
import { INERT } from './laws.ts';
import { endOf } from './plain-bodies.ts';

const UPRIGHT = { turnDeg: [0, 0, 0] as const, scale: 1 };

describe('which figure a point lies in', () => {
  it('a faceted ball and the ball agree but within its facets, at 20,000 points, seed 11', () => {
    const random = seeded(11);
    const radiusMm = 17;
    const at = placementSampler([poseSolid({ type: 'sphere', radiusMm }, { ...UPRIGHT, xMm: 4, yMm: -3, baseMm: 6 }).mesh()]);
    for (let p = 0; p < 20_000; p++) {
      const [x, y, z] = [4 + 40 * (random() - 0.5), -3 + 40 * (random() - 0.5), 6 + 36 * random()];
      const away = Math.hypot(x - 4, y + 3, z - 6 - radiusMm);
      // 96 × 48 facets of the same volume: a chord's sag is r (π/48)²/2, half of it either way, with a margin.
      if (Math.abs(away - radiusMm) > 0.05) expect(at(x, y, z)).toBe(away < radiusMm ? 0 : -1);
    }
  });

  it('a box down to its edges, going up columns and jumping about alike', () => {
    const at = placementSampler([poseSolid({ type: 'box', lengthMm: 20, widthMm: 10, heightMm: 8 }, { ...UPRIGHT, xMm: 0, yMm: 0, baseMm: 2 }).mesh()]);
    for (const x of [-9.9, 0, 9.9]) for (const y of [-4.9, 0, 4.9]) for (const z of [2.1, 6, 9.9]) expect(at(x, y, z), `${x} ${y} ${z}`).toBe(0);
    for (const [x, y, z] of [[-10.1, 0, 6], [0, 5.1, 6], [0, 0, 1.9], [0, 0, 10.1], [300, 0, 6]]) expect(at(x, y, z), `${x} ${y} ${z}`).toBe(-1);
  });

  it('the first of those that overlap, and none of a hollow', () => {
    const ball = (radiusMm: number, xMm: number) => poseSolid({ type: 'sphere', radiusMm }, { ...UPRIGHT, xMm, yMm: 0, baseMm: 20 - radiusMm }).mesh();
    const at = placementSampler([ball(10, 0), ball(10, 12)]);
    expect([at(0, 0, 20), at(6, 0, 20), at(16, 0, 20), at(30, 0, 20)]).toEqual([0, 0, 1, -1]);
    const inner = ball(5, 0);
    const outer = ball(10, 0);
    const turned = inner.indices.slice().reverse();
    const hollow = {
      positions: Float64Array.from([...outer.positions, ...inner.positions]),
      indices: Uint32Array.from([...outer.indices, ...turned.map((v) => v + outer.positions.length / 3)]),
    };
    const shell = placementSampler([hollow]);
    expect([shell(0, 0, 20), shell(7, 0, 20), shell(0, 0, 28), shell(0, 0, 31)]).toEqual([-1, 0, 0, -1]);
  });

  it('nothing without figures', () => {
    expect(placementSampler([])(0, 0, 0)).toBe(-1);
  });
});

describe('shares of cells', () => {
  const wall = { heightMm: 50, material: 'acrylic', wallMm: 5, keep: false } as const;
  it.each<[string, Mold, boolean]>([
    ['a box', { shape: 'box', lengthMm: 80, widthMm: 50, cornerRadiusMm: 0, draftDeg: 0, ...wall }, false],
    ['a box with round corners that leans', { shape: 'box', lengthMm: 80, widthMm: 50, cornerRadiusMm: 12, draftDeg: 8, ...wall }, false],
    ['a round mold in boxes', { shape: 'round', diameterMm: 70, draftDeg: 5, ...wall }, false],
    ['a round mold in rings', { shape: 'round', diameterMm: 70, draftDeg: 5, ...wall }, true],
  ])('hold as much resin as the mold holds, less the figure: %s', (_, mold, castInRound) => {
    const solid = poseSolid({ type: 'sphere', radiusMm: 9 }, { ...UPRIGHT, xMm: 0, yMm: 0, baseMm: 4 });
    const pours = [{ fromMm: 0, toMm: 15, atS: 0, kinetics: INERT, material: EPOXY }, { fromMm: 15, toMm: 32, atS: 1, kinetics: INERT, material: EPOXY }];
    const body = bodyOf({ mold, pours, castIn: [{ material: castInMaterial('glass', 2.5) }], placementAt: placementSampler([solid.mesh()]), castInRound, room: [{ fromS: 0, temperatureC: 20 }], endS: 2 }, { mostCells: 40_000 });
    const { resinM3 } = endOf(cellsByLayer(body.grid, body.solids, body.sample, () => EPOXY));
    const resin = resinM3.reduce((sum, m3) => sum + m3, 0) * 1e9;
    const whole = moldVolumeBelow(mold, 32) - solid.profile.volumeMm3;
    // 27 points a cell along the walls and the figure's skin.
    expect(Math.abs(resin / whole - 1)).toBeLessThan(0.003);
  });

  it('have lines on every pour\'s surface, on floor and walls', () => {
    const mold: Mold = { shape: 'box', lengthMm: 80, widthMm: 50, cornerRadiusMm: 0, draftDeg: 0, ...wall };
    const tops = [7, 7.9, 21.3];
    const pours = tops.map((toMm, p) => ({ fromMm: p === 0 ? 0 : tops[p - 1], toMm, atS: p, kinetics: INERT, material: EPOXY }));
    const { grid } = bodyOf({ mold, pours, castIn: [], placementAt: () => -1, castInRound: false, room: [{ fromS: 0, temperatureC: 20 }], endS: 9 });
    for (const z of [0, -5, -25, ...tops]) expect([...grid.zMm]).toContain(z);
    for (const x of [-45, -40, 40, 45]) expect([...grid.xMm]).toContain(x);
    for (const y of [-30, -25, 25, 30]) expect([...grid.yMm]).toContain(y);
    // Even the thin pour has three cells.
    expect([...grid.zMm].filter((z) => z > 7 && z < 7.9)).toHaveLength(2);
  });

  it('lines go through every stop, none farther apart than asked', () => {
    const lines = linesThrough([0, 10, 3, 3.0000001], 2);
    expect([...lines]).toEqual([0, 1.5, 3, 4.75, 6.5, 8.25, 10]);
  });
});

describe('who is round about the axis', () => {
  const on = (shape: Shape, turnDeg: readonly [number, number, number] = [0, 0, 0], xMm = 0) => roundOnAxis({ shape, turnDeg, xMm, yMm: 0 });
  it('a ball however it is turned, cylinders, cones, caps and round ellipsoids upright or upside down', () => {
    expect(on({ type: 'sphere', radiusMm: 5 }, [10, 20, 30])).toBe(true);
    expect(on({ type: 'cylinder', radiusMm: 5, heightMm: 9 }, [180, 0, 77])).toBe(true);
    expect(on({ type: 'cone', radiusMm: 5, heightMm: 9 })).toBe(true);
    expect(on({ type: 'cap', sphereRadiusMm: 9, rimRadiusMm: 5 })).toBe(true);
    expect(on({ type: 'ellipsoid', lengthMm: 5, widthMm: 5, heightMm: 9 })).toBe(true);
  });

  it('nothing else', () => {
    expect(on({ type: 'sphere', radiusMm: 5 }, [0, 0, 0], 1)).toBe(false);
    expect(on({ type: 'cylinder', radiusMm: 5, heightMm: 9 }, [90, 0, 0])).toBe(false);
    expect(on({ type: 'ellipsoid', lengthMm: 5, widthMm: 6, heightMm: 9 })).toBe(false);
    expect(on({ type: 'box', lengthMm: 5, widthMm: 5, heightMm: 9 })).toBe(false);
    expect(on({ type: 'library', name: 'any' })).toBe(false);
  });
});

describe('what is cast in', () => {
  it('has properties for every material a scene knows, metals conducting best', () => {
    for (const name of MATERIALS) {
      const { conductivityWPerMK } = castInMaterial(name, 1);
      // Every material is told apart from an unknown one by something.
      expect(castInMaterial(name, 1), name).not.toEqual(castInMaterial(undefined, 1));
      expect(conductivityWPerMK > 10, name).toBe(['steel', 'brass', 'copper'].includes(name));
    }
  });
});
