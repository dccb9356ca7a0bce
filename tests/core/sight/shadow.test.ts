/** Shadows inside the resin: acceptance case 11, closed forms of discs, balls and posts, laws of light. */
import { beforeAll, describe, expect, it } from 'vitest';
import type { Creature, Lamp, Placement } from '../../../src/core/scene/scene.ts';
import { castShadows } from '../../../src/core/sight/casters.ts';
import { regionArea, regionBounds, type Region, type Regions } from '../../../src/core/sight/region.ts';
import { litRegion, shadowShift, solidShadow, type LitScene } from '../../../src/core/sight/shadow.ts';
import { guidesOf, sectionsFrom } from '../../../src/core/sight/slices.ts';
import { poseSolid } from '../../../src/core/solid/pose.ts';
import { openRegions } from '../../../src/files/regions.ts';
import { boxMold } from '../../reference/made.ts';

let regions: Regions;
beforeAll(async () => {
  regions = await openRegions();
});

const INDEX = 1.55;
const lit = (lamp: Partial<Lamp> = {}, more: Partial<LitScene> = {}): LitScene => ({
  cast: 'face-up', fillMm: 60, mold: boxMold(200, 120, 70), strata: [{ fromMm: 0, toMm: 60, index: INDEX, tint: null }], lamp: { fromDeg: 180, aboveDeg: 45, ...lamp }, ...more,
});
const disc = (r: number): Region => [Float64Array.from(Array.from({ length: 720 }, (_, i) => [r * Math.cos((i * Math.PI) / 360), r * Math.sin((i * Math.PI) / 360)]).flat())];
const creature: Creature = { id: 'c', name: 'Carp', shape: { type: 'cone', radiusMm: 12, heightMm: 30 }, xMm: 0, yMm: 0, baseMm: 15, turnDeg: [0, 0, 0], scale: 1, featherMm: 1.5, viewDeg: 45 };
const plane = (id: string, atMm: number, slices?: readonly string[]): Placement => ({ kind: 'plane', id, name: id, atMm, paintH: 3, dryH: 12, slices });
// cos 45°/√(n² − cos² 45°) a millimeter, by hand.
const TAN = Math.SQRT1_2 / Math.sqrt(INDEX ** 2 - 0.5);

describe('which way and how far', () => {
  it('a fish 16 mm deep, floor at 40, lamp at 45°: 12.3 mm, away from the lamp (acceptance case 11)', () => {
    const [x, y] = shadowShift(lit({}, { fillMm: 40 }), 24, 0);
    expect(x).toBeCloseTo(12.3036, 3);
    expect(y).toBeCloseTo(0, 12);
  });

  it.each([[0, -1, 0], [90, 0, -1], [180, 1, 0], [270, 0, 1]])('a lamp at %i° throws it to %i, %i', (fromDeg, dx, dy) => {
    const [x, y] = shadowShift(lit({ fromDeg }), 40, 10);
    expect(x).toBeCloseTo(dx * 30 * TAN, 9);
    expect(y).toBeCloseTo(dy * 30 * TAN, 9);
  });

  it('straight over it nowhere, and never over 0.84 of the gap (1/√(n² − 1), by hand), however low the lamp', () => {
    expect(Math.hypot(...shadowShift(lit({ aboveDeg: 90 }), 40, 10))).toBeCloseTo(0, 12);
    expect(Math.hypot(...shadowShift(lit({ aboveDeg: 5 }), 40, 10))).toBeLessThan(30 / Math.sqrt(INDEX ** 2 - 1));
  });
});

describe('a solid’s shadow on a height', () => {
  const shadow = (shape: Creature['shape'], baseMm: number, onMm: number, scene = lit()) => solidShadow(scene, poseSolid(shape, { xMm: 5, yMm: -8, baseMm, turnDeg: [0, 0, 0], scale: 1 }).mesh(), onMm);

  it('of a ball is an ellipse, r by r/cos θ′', () => {
    const region = shadow({ type: 'sphere', radiusMm: 10 }, 20, 0);
    const stretch = Math.hypot(1, TAN);
    // Facets of a ball lie inside it, and the outline is simplified to 0.06 mm: 0.1 mm of its edge.
    expect(Math.abs(regionArea(region) - Math.PI * 100 * stretch)).toBeLessThan(0.1 * 2 * Math.PI * 11);
    const { minX, maxX, minY, maxY } = regionBounds(region)!;
    expect((minX + maxX) / 2).toBeCloseTo(5 + 30 * TAN, 1);
    expect((minY + maxY) / 2).toBeCloseTo(-8, 1);
    expect(maxX - minX).toBeCloseTo(20 * stretch, 0);
  });

  it('of an upright post is its disc drawn out by its height: πr² + 2r·h tan θ′', () => {
    const region = shadow({ type: 'cylinder', radiusMm: 8, heightMm: 25 }, 0, 0);
    expect(Math.abs(regionArea(region) - (Math.PI * 64 + 16 * 25 * TAN))).toBeLessThan(0.1 * (2 * Math.PI * 8 + 2 * 25 * TAN));
  });

  it('of one that reaches through the height counts only what the light meets before it', () => {
    const post = { type: 'cylinder', radiusMm: 8, heightMm: 25 } as const;
    const expected = (before: number) => Math.PI * 64 + 16 * before * TAN;
    expect(Math.abs(regionArea(shadow(post, 0, 15)) - expected(10))).toBeLessThan(6);
    expect(Math.abs(regionArea(shadow(post, 0, 15, lit({}, { cast: 'face-down' }))) - expected(15))).toBeLessThan(6);
    expect(shadow(post, 0, 26)).toEqual([]);
  });
});

describe('where the lamp reaches', () => {
  it('the floor under a lamp from the left is dark along the left wall, by depth × tan θ′', () => {
    expect(regionArea(litRegion(lit(), 0, regions))).toBeCloseTo((200 - 60 * TAN) * 120, 1);
    expect(regionBounds(litRegion(lit(), 0, regions))!.minX).toBeCloseTo(-100 + 60 * TAN, 6);
    expect(regionArea(litRegion(lit({ aboveDeg: 90 }), 0, regions))).toBeCloseTo(200 * 120, 1);
  });
});

describe('what falls on which plane', () => {
  const cast = (placements: readonly Placement[], more: Partial<LitScene> = {}, painted = new Map<string, Region>(), who = creature) => {
    const all = { ...lit({}, more), placements, creatures: [who], fills: [], formulas: new Map() };
    return castShadows(all, { regions, guides: guidesOf(all, { regions, sectionsOf: sectionsFrom(new Map()) }), painted, figures: new Map() });
  };

  it('a creature’s on the planes under it and on the floor, not on its own planes', () => {
    const receivers = cast([plane('reeds', 5), plane('low', 20, ['c']), plane('high', 36, ['c'])]);
    expect(receivers.map(({ planeId, shadows }) => [planeId, shadows.map(({ of }) => of)])).toEqual([['reeds', ['c']], ['low', []], ['high', []], [null, ['c']]]);
    const [{ shadows: [onReeds] }, , , { shadows: [onFloor] }] = receivers;
    expect(onReeds.shiftMm).toBeCloseTo(15 * TAN, 9);
    expect(onReeds.towardDeg).toBe(0);
    expect(onFloor.shiftMm).toBeCloseTo(20 * TAN, 9);
    // Discs of 10 and 3.6 mm, thrown apart; the low one is not painted where the high one and its feather lie over it.
    const { minX, maxX } = regionBounds(onFloor.region)!;
    expect(minX).toBeCloseTo(20 * TAN - 10, 2);
    expect(maxX).toBeCloseTo(36 * TAN + 3.6, 2);
    // The ring from 10 in to 3.6 − 1.5 mm, and what of the small disc falls beside it: less than the whole of it.
    const ring = Math.PI * (100 - 2.1 ** 2);
    expect(regionArea(onFloor.region)).toBeGreaterThan(ring);
    expect(regionArea(onFloor.region)).toBeLessThan(ring + Math.PI * 3.6 ** 2);
  });

  it('of a plane that is wholly hidden, and so not painted, there is none', () => {
    const post: Creature = { ...creature, shape: { type: 'cylinder', radiusMm: 12, heightMm: 30 } };
    const { shadows: [onFloor] } = cast([plane('low', 20, ['c']), plane('high', 36, ['c'])], {}, new Map(), post).at(-1)!;
    expect(onFloor.shiftMm).toBeCloseTo(36 * TAN, 9);
    expect(regionArea(onFloor.region)).toBeCloseTo(Math.PI * 144, 0);
  });

  it('a figure’s is one outline, moved, on all that lies behind it, and cut where it stands', () => {
    const figure = poseSolid({ type: 'sphere', radiusMm: 8 }, { xMm: 0, yMm: 0, baseMm: 22, turnDeg: [0, 0, 0], scale: 1 }).mesh();
    const placements: Placement[] = [plane('low', 6), plane('near', 14), plane('through', 30), plane('over', 44), { kind: 'figure', id: 'f', name: 'Pearl', shape: { type: 'sphere', radiusMm: 8 }, xMm: 0, yMm: 0, baseMm: 22, turnDeg: [0, 0, 0], scale: 1, hold: 'rod', porous: false, sealed: true }];
    const receivers = castShadows({ ...lit(), placements, creatures: [] }, { regions, guides: [], painted: new Map(), figures: new Map([['f', figure]]) });
    const shown = receivers.map(({ planeId, shadows: [one] }) => [planeId, one?.through ?? null]);
    expect(shown).toEqual([['low', false], ['near', false], ['through', true], ['over', null], [null, false]]);
    for (const { atMm, shadows: [one] } of receivers.filter(({ planeId }) => planeId !== 'over' && planeId !== 'through')) {
      expect(Math.abs(regionArea(one.region) - regionArea(solidShadow(lit(), figure, atMm)))).toBeLessThan(0.05 * 2 * Math.PI * 8);
      expect(one.shiftMm).toBeCloseTo((22 - atMm) * TAN, 2);
    }
    // Above the cut is half a ball: its disc, and half its ellipse beyond.
    const [, , { shadows: [cut] }] = receivers;
    expect(Math.abs(regionArea(cut.region) - Math.PI * 32 * (1 + Math.hypot(1, TAN)))).toBeLessThan(0.1 * 2 * Math.PI * 8);
  });

  it('face-down the light comes from the floor, and the back is the top', () => {
    const receivers = cast([plane('low', 20, ['c']), plane('high', 36, ['c']), plane('sky', 50)], { cast: 'face-down' });
    expect(receivers.map(({ planeId, shadows }) => [planeId, shadows.length])).toEqual([['low', 0], ['high', 0], ['sky', 1], [null, 1]]);
    // The low plane's disc is the wider one and nearer the face: the high one lies hidden behind it, unpainted.
    expect(receivers[2].shadows[0].shiftMm).toBeCloseTo(30 * TAN, 9);
  });

  it('a painted picture’s is its outline, moved, inside the walls', () => {
    const [floor, high] = cast([plane('floor', 0), plane('picture', 40)], {}, new Map([['picture', disc(15)]]));
    expect(high.shadows).toEqual([]);
    expect(floor.shadows).toMatchObject([{ of: 'picture', towardDeg: 0 }]);
    expect(regionArea(floor.shadows[0].region)).toBeCloseTo(regionArea(disc(15)), 4);
    const edge = disc(15).map((loop) => loop.map((at, i) => (i % 2 === 0 ? at + 90 : at)));
    const [beside] = cast([plane('floor', 0), plane('picture', 40)], {}, new Map([['picture', edge]]));
    expect(regionBounds(beside.shadows[0]?.region ?? [])?.maxX ?? 100).toBeLessThanOrEqual(100 + 1e-6);
  });
});
