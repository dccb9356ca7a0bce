/** A creature on planes: areas in closed form, laws for any mesh, and what a painter is told. */
import { beforeAll, describe, expect, it } from 'vitest';
import type { Creature, Mold, Placement, Shape } from '../../../src/core/scene/scene.ts';
import { barePatches } from '../../../src/core/sight/bare.ts';
import { edgesBetween, nearestFirst } from '../../../src/core/sight/parallax.ts';
import type { PlaneGuide } from '../../../src/core/sight/guide.ts';
import { insideRegion, regionArea, type Regions } from '../../../src/core/sight/region.ts';
import { insideTan } from '../../../src/core/sight/spacing.ts';
import { guidesOf, sectionsFrom } from '../../../src/core/sight/slices.ts';
import type { TriangleMesh } from '../../../src/core/solid/solid.ts';
import { openRegions } from '../../../src/files/regions.ts';
import { facets } from '../../../src/core/solid/facets.ts';
import { box, joined, moved, posed, star, torus, turnedInsideOut } from '../solid/made-meshes.ts';
import { seeded } from '../solid/oracle.ts';

/** mm² per mm of edge: arcs' chords stray 0.001 mm, round joins' 0.01 mm. */
const ARC = 0.001;
const JOIN = 0.011;

let regions: Regions;
beforeAll(async () => {
  regions = await openRegions();
});

const mold: Mold = { shape: 'box', lengthMm: 200, widthMm: 120, heightMm: 60, draftDeg: 0, cornerRadiusMm: 0, material: 'silicone', wallMm: 8, keep: false };

interface Made {
  readonly shape?: Shape;
  readonly mesh?: TriangleMesh;
  readonly heights: readonly number[];
  readonly cast?: 'face-up' | 'face-down';
  readonly turnDeg?: readonly [number, number, number];
  readonly baseMm?: number;
  readonly featherMm?: number;
}

function guides({ shape = { type: 'mesh', file: 'made.stl' }, mesh, heights, cast = 'face-up', turnDeg = [0, 0, 0], baseMm = 0, featherMm = 1.5 }: Made): PlaneGuide[] {
  const creature: Creature = { id: 'c', name: 'Newt', shape, xMm: 0, yMm: 0, baseMm, turnDeg, scale: 1, featherMm, viewDeg: 45 };
  const placements = heights.map((atMm, i): Placement => ({ kind: 'plane', id: `p${i}`, name: `Newt ${i + 1}`, atMm, paintH: 3, dryH: 12, slices: ['c'] }));
  const readings = new Map(mesh ? [['c', { mesh, volumeErrorFraction: 0 }]] : []);
  return guidesOf({ mold, cast, fillMm: 60, fills: [], formulas: new Map(), placements, creatures: [creature] }, { regions, sectionsOf: sectionsFrom(readings) });
}

const ball: Shape = { type: 'sphere', radiusMm: 20 };
/** Squared radius of a ball's section, r² − d². */
const squared = (z: number) => 400 - (z - 20) ** 2;

describe('a ball of 20 mm, planes at 6, 14, 22, 30 and 36', () => {
  const heights = [6, 14, 22, 30, 36];

  it('looked at from above shows a disc, then rings, then nothing new below its middle', () => {
    const stack = guides({ shape: ball, heights });
    expect(stack.map(({ order, atMm, depthMm }) => [order, atMm, depthMm])).toEqual([[1, 6, 54], [2, 14, 46], [3, 22, 38], [4, 30, 30], [5, 36, 24]]);
    const rings = [0, 0, squared(22) - squared(30), squared(30) - squared(36), squared(36)];
    stack.forEach((guide, n) => {
      expect(Math.abs(regionArea(guide.outline) - Math.PI * squared(heights[n]))).toBeLessThan(ARC * 130);
      expect(Math.abs(regionArea(guide.fresh) - Math.PI * rings[n])).toBeLessThan(ARC * 260);
      expect(Math.abs(regionArea(guide.hidden) - Math.PI * (squared(heights[n]) - rings[n]))).toBeLessThan(ARC * 260);
    });
  });

  it('looked at through the floor it is the other way round', () => {
    const stack = guides({ shape: ball, heights, cast: 'face-down' });
    expect(stack.map(({ order, depthMm }) => [order, depthMm])).toEqual([[1, 6], [2, 14], [3, 22], [4, 30], [5, 36]]);
    const rings = [squared(6), squared(14) - squared(6), squared(22) - squared(14), 0, 0];
    stack.forEach(({ fresh }, n) => expect(Math.abs(regionArea(fresh) - Math.PI * rings[n])).toBeLessThan(ARC * 260));
  });

  it('fades out over its feather under the plane nearer the viewer: a ring of that width', () => {
    const [, , wide] = guides({ shape: ball, heights, featherMm: 2 });
    const inner = Math.sqrt(squared(30));
    expect(Math.abs(regionArea(wide.feather) - Math.PI * (inner ** 2 - (inner - 2) ** 2))).toBeLessThan(JOIN * 130);
  });

  it('is told where it stands over the resin, and no plane is asked for up there; a plane it does not reach is told so', () => {
    // 40 mm tall from 32 up, in 60 mm of resin: 12 mm stand out of it.
    const [low, high] = guides({ shape: ball, baseMm: 32, heights: [10, 34] });
    expect(high.hints[0]).toMatchObject({ kind: 'over', words: '12\u00a0mm of it stand over the resin and can’t be painted. Lower it, or fill higher.' });
    expect(low.shading).toMatch(/^It does not reach this height/);
    expect(low.hints).toEqual([]);
    // A part that lies wholly over the resin is on no plane, and none can be set there.
    const mesh = joined(box(10, 10, 10), moved(box(10, 10, 9), 30, 0, 61));
    expect(guides({ mesh, heights: [5] })[0].hints.map(({ kind }) => kind)).toEqual(['over']);
  });

  it('is light near the eye and dark far from it; the glint in the eye is painted last face-up, first face-down', () => {
    const up = guides({ shape: ball, heights });
    const down = guides({ shape: ball, heights, cast: 'face-down' });
    expect(up[4].shading).toMatch(/lightest/);
    expect(up[2].shading).toMatch(/darker/);
    expect(up[0].shading).toMatch(/^Nothing new shows here/);
    expect(down[0].shading).toMatch(/lightest/);
    expect(up[0].within.at(-1)).toMatch(/glint.*eye last/);
    expect(down[0].within[0]).toMatch(/glint.*eye first/);
    expect([...down[0].within].length).toBe(up[0].within.length);
  });
});

describe.each([61, 62, 63])('for a spiky star turned at random, seed %i', (seed) => {
  it.each(['face-up', 'face-down'] as const)('%s: new and hidden make the section, new parts make the whole outline, feathers keep to their band', (cast) => {
    const random = seeded(seed);
    const mesh = posed(star(seed, 18, 2), random, 1, [0, 0, 0]);
    const heights = Array.from({ length: 6 }, (_, n) => 3 + 4 * n + 2 * random());
    const stack = guides({ mesh, heights, cast });
    const edge = 1e-5 * 500;
    for (const { outline, fresh, hidden, feather } of stack) {
      expect(Math.abs(regionArea(fresh) + regionArea(hidden) - regionArea(outline))).toBeLessThan(edge);
      expect(regionArea(regions.meet(fresh, hidden))).toBeLessThan(edge);
      expect(regionArea(regions.minus(feather, hidden))).toBeLessThan(edge);
      expect(regionArea(regions.minus(feather, regions.grow(fresh, 1.51)))).toBeLessThan(edge);
    }
    const whole = regionArea(regions.unite(stack.map(({ outline }) => outline)));
    expect(Math.abs(stack.reduce((sum, { fresh }) => sum + regionArea(fresh), 0) - whole)).toBeLessThan(edge);
  });
});

describe('hints', () => {
  const kinds = (stack: readonly PlaneGuide[]) => stack.map(({ hints }) => hints.map(({ kind }) => kind));

  it('a ring standing up splits in two and joins again', () => {
    const stack = guides({ mesh: torus(96, 48, 20, 6), turnDeg: [90, 0, 0], heights: [5, 26, 47] });
    expect(kinds(stack)).toEqual([[], ['splits'], ['joins']]);
    expect(stack[1].hints[0].words).toBe('One part of the plane below is two here.');
  });

  it('a bowl lying rim up opens, a dome closes', () => {
    const bowl = joined(box(40, 40, 20), moved(turnedInsideOut(box(20, 20, 10)), 10, 10, 5));
    expect(kinds(guides({ mesh: bowl, heights: [2, 10, 18] }))).toEqual([[], ['opens'], ['closes']]);
  });

  it('a small round part that begins above is perhaps an eye, at its place; one that ends is to be left clear', () => {
    const eye = moved(facets({ type: 'cylinder', radiusMm: 2, heightMm: 10 }), 40, 5, 8);
    const stack = guides({ mesh: joined(box(30, 20, 20), eye), heights: [4, 12, 19] });
    expect(kinds(stack)).toEqual([[], ['appears'], ['ends']]);
    const [hint] = stack[1].hints;
    // Centered in plan: the whole is 42 × 20.
    expect([hint.atXMm, hint.atYMm].map((at) => Math.round(100 * at) / 100)).toEqual([19, -5]);
    expect(hint.words).toBe('New here: a small round part 4\u00a0mm across, perhaps an eye.');
    expect(stack[2].hints[0].words).toMatch(/^What was painted here on the plane below has ended: .*Leave it clear\.$/);
  });

  it('a part that lies between two planes is told, with where it is fullest', () => {
    const knob = moved(facets({ type: 'sphere', radiusMm: 2 }), 40, 5, 9);
    const stack = guides({ mesh: joined(box(30, 20, 20), knob), heights: [4, 14] });
    expect(kinds(stack)[1]).toEqual(['between']);
    expect(stack[1].hints[0].words).toMatch(/fullest 9\u00a0mm up, and on no plane: a small round part 4\u00a0mm across/);
  });

  it('so is one under the lowest plane or over the highest', () => {
    const knobs = [moved(facets({ type: 'sphere', radiusMm: 2 }), 40, 5, 17), moved(facets({ type: 'sphere', radiusMm: 2 }), -10, 5, 3)];
    const stack = guides({ mesh: joined(box(30, 20, 20), ...knobs), heights: [7, 12] });
    expect(stack.map(({ hints }) => hints.map(({ words }) => words.slice(0, 30)))).toEqual([['Under this plane, fullest 3.5\u00a0'], ['Over this plane, fullest 17.3\u00a0']]);
  });

  it('a sheet thinner than a fin is to be painted see-through', () => {
    const fin = moved(box(20, 1, 20), 29, 10, 0);
    const [first] = guides({ mesh: joined(box(30, 20, 20), fin), heights: [5] });
    expect(first.hints.map(({ kind }) => kind)).toEqual(['thin']);
    expect(insideRegion(first.outline, first.hints[0].atXMm, first.hints[0].atYMm)).toBe(true);
  });

  it('a cone widens and narrows', () => {
    const cone: Shape = { type: 'cone', radiusMm: 20, heightMm: 40 };
    expect(kinds(guides({ shape: cone, heights: [4, 30] }))).toEqual([[], ['narrows']]);
    expect(kinds(guides({ shape: cone, turnDeg: [180, 0, 0], heights: [10, 36] }))).toEqual([[], ['widens']]);
  });

  it('says how much larger: of a cone on its tip as the squares of the heights, from ten on in whole times', () => {
    const words = (heights: number[]) => guides({ shape: { type: 'cone', radiusMm: 20, heightMm: 40 }, turnDeg: [180, 0, 0], heights })[1].hints[0].words;
    expect(words([20, 36])).toBe('Much larger here: 3.2 times the plane below.');
    expect(words([10, 36])).toBe('Much larger here: 13 times the plane below.');
  });

  it('what reaches beyond the wall is told, with how far', () => {
    const [wide] = guides({ shape: { type: 'sphere', radiusMm: 63 }, heights: [40], baseMm: -23 });
    expect(wide.hints.filter(({ kind }) => kind === 'outside').map(({ kind, words }) => [kind, words])).toEqual([['outside', 'Reaches 3\u00a0mm beyond the wall here. Move it in, or paint only up to the wall.']]);
    expect(Math.round(Math.abs(wide.hints[0].atYMm))).toBe(63);
  });

  it('a plane that misses the creature has nothing to paint', () => {
    const [, above] = guides({ shape: ball, heights: [20, 45] });
    expect([above.outline, above.fresh, above.feather]).toEqual([[], [], []]);
    expect(above.hints.map(({ kind }) => kind)).toEqual(['ends']);
  });
});

describe('seen from the side', () => {
  const post: Shape = { type: 'cylinder', radiusMm: 15, heightMm: 40 };
  /** Of two circles of radius r whose centers are d apart (lens of two circles, mensuration). */
  const lens = (r: number, d: number) => 2 * r * r * Math.acos(d / (2 * r)) - (d / 2) * Math.sqrt(4 * r * r - d * d);
  const lune = (r: number, d: number) => Math.PI * r * r - lens(r, d);
  const patches = (made: Made, viewDeg: number) => barePatches(nearestFirst(guides(made), 'c'), { viewDeg, index: 1.55, regions });

  it.each([15, 45, 60])('at %i°, what is behind an upright post’s upper plane shows bare by a lune', (viewDeg) => {
    const d = 15 * insideTan(viewDeg, 1.55);
    const [upper, lower] = patches({ shape: post, heights: [10, 25] }, viewDeg);
    expect(upper).toBeNull();
    expect(lower).toMatchObject({ viewDeg, nearId: 'p1', towardDeg: 270, rimMm: expect.closeTo(Math.ceil(10 * d) / 10, 9) });
    expect(Math.abs(lower!.areaMm2 - lune(15, d))).toBeLessThan(ARC * 200);
    // On the side the eye has gone to, the front: its middle lies there.
    expect(lower!.atYMm).toBeLessThan(-5);
    expect(lower!.atXMm).toBeCloseTo(0, 1);
  });

  it('straight down, and through a feather that has paint beside it, nothing shows', () => {
    expect(patches({ shape: post, heights: [10, 25] }, 0)).toEqual([null, null]);
    // At 45° and n 1.55 a feather of 1.5 mm hides gaps up to 2.9 mm of a dome; at 4.5 mm planes slide by 2.31 (both by hand).
    expect(patches({ shape: ball, heights: [24, 26.9, 29.8, 32.7] }, 45)).toEqual([null, null, null, null]);
    expect(patches({ shape: ball, heights: [24, 28.5, 33] }, 45).map((patch) => patch?.rimMm?.toFixed(1))).toEqual([undefined, '2.4', '2.4']);
  });

  it('of three planes of a post each shows one lune: the flank is told once', () => {
    const areas = patches({ shape: post, heights: [10, 20, 30] }, 45).map((patch) => patch?.areaMm2 ?? 0);
    areas.forEach((area, place) => expect(Math.abs(area - (place === 0 ? 0 : lune(15, 10 * insideTan(45, 1.55))))).toBeLessThan(ARC * 300 + 10 * JOIN));
  });

  it.each(['face-up', 'face-down'] as const)('as wide a rim as it asks for leaves nothing bare: spiky stars, cast %s', (cast) => {
    for (const seed of [1, 2, 3]) {
      const stack = nearestFirst(guides({ mesh: star(seed, 16, 3), heights: [4, 10, 16, 22], cast }), 'c');
      const found = barePatches(stack, { viewDeg: 45, index: 1.55, regions });
      expect(found.some((patch) => patch !== null)).toBe(true);
      const painted = stack.map((guide, place): PlaneGuide => {
        const rimMm = found[place]?.rimMm;
        return rimMm === undefined ? guide : { ...guide, feather: regions.unite([guide.feather, rimMm === null ? guide.hidden : regions.minus(guide.hidden, regions.grow(guide.hidden, -rimMm))]) };
      });
      expect(barePatches(painted, { viewDeg: 45, index: 1.55, regions }), `seed ${seed}`).toEqual(stack.map(() => null));
    }
  });

  it('from where an edge shows: sin θ = n sin atan(feather/gap)', () => {
    const [edge] = edgesBetween(nearestFirst(guides({ shape: ball, heights: [24, 26.9] }), 'c'), 1.5, 1.55);
    expect(edge.showsFromDeg!).toBeCloseTo((Math.asin(1.55 * Math.sin(Math.atan(1.5 / 2.9))) * 180) / Math.PI, 9);
  });
});

it('an unmendable mesh is refused by the creature’s name', () => {
  const sectionsOf = sectionsFrom(new Map([['c', { mesh: box(1, 1, 1), volumeErrorFraction: null }]]));
  expect(() => sectionsOf({ id: 'c', name: 'Newt', shape: { type: 'mesh', file: 'a.stl' }, xMm: 0, yMm: 0, baseMm: 0, turnDeg: [0, 0, 0], scale: 1, featherMm: 1, viewDeg: 45 })).toThrow(/^Newt can’t be cut into planes/);
});
