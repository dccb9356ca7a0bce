/** How a piece reads: what is told of colors that creatures bring, of pour lines and edges from the side, of what is not known. */
import { beforeAll, describe, expect, it } from 'vitest';
import { readScene } from '../../../src/core/scene/read.ts';
import type { Plane, Scene } from '../../../src/core/scene/scene.ts';
import { artRegions } from '../../../src/core/sheet/template-reads.ts';
import type { PlaneGuide } from '../../../src/core/sight/guide.ts';
import { planePaints } from '../../../src/core/sight/plane-paints.ts';
import { readingOf } from '../../../src/core/sight/reading.ts';
import { readingText } from '../../../src/core/sight/reading-words.ts';
import { regionArea, type Regions } from '../../../src/core/sight/region.ts';
import { guidesOf, sectionsFrom } from '../../../src/core/sight/slices.ts';
import { openRegions } from '../../../src/files/regions.ts';

let regions: Regions;
beforeAll(async () => {
  regions = await openRegions();
});

const made = (more: Record<string, unknown> = {}): Scene => {
  const reading = readScene({
    format: 'stillpool.scene', version: 1, mold: { shape: 'box', lengthMm: 120, widthMm: 80, heightMm: 50 }, fillMm: 40, fills: [{ toMm: 40, formula: 'g' }],
    formulas: [{ id: 'g', ratioByVolume: [2, 1], maxDepthMm: 20, refractiveIndex: 1.55 }],
    placements: [{ id: 'p1', kind: 'plane', name: 'Carp 1', atMm: 20, slices: ['c'] }, { id: 'p2', kind: 'plane', name: 'Carp 2', atMm: 26, slices: ['c'] }],
    creatures: [{ id: 'c', name: 'Carp', shape: { type: 'sphere', radiusMm: 12 }, baseMm: 10 }], ...more,
  });
  if (!reading.ok) throw new Error(JSON.stringify(reading.problems));
  return reading.scene;
};
const pours = [0, 20, 26].map((fromMm, i) => ({ fromMm, toMm: [20, 26, 40][i], formula: 'g', tint: null })) as never;
const read = (scene: Scene) => {
  const sectionsOf = sectionsFrom(new Map());
  return readingOf(scene, { plan: { pours }, regions, sectionsOf, guides: guidesOf(scene, { regions, sectionsOf }), painted: artRegions(scene, scene.placements.filter((placement): placement is Plane => placement.kind === 'plane'), new Map(), regions), figures: new Map() });
};

describe('colors that a creature brings', () => {
  const { creatures, placements: [plane] } = made();
  const guides = [{ planeId: 'p1', creatureId: 'c', colors: { main: [{ hex: '#3d5c2a', words: 'green', share: 0.6 }, { hex: '#102010', words: 'black', share: 0.4 }] } }] as unknown as PlaneGuide[];

  it('ask for paint of their own where the water changes them, and for none where it does not', () => {
    const paints = planePaints({ creatures }, plane as Plane, { leaves: [0.6, 0.85, 0.85], guides });
    expect(paints.map(({ of, wanted, possible }) => [of, wanted, possible])).toEqual([['Carp', '#3d5c2a', true], ['Carp', '#102010', true]]);
    expect(planePaints({ creatures }, plane as Plane, { leaves: [1, 1, 1], guides })).toEqual([]);
  });

  it('give way to those it was given', () => {
    const given = planePaints({ creatures: [{ ...creatures[0], colors: ['#c0c0c0'] }] }, plane as Plane, { leaves: [1, 1, 1], guides });
    expect(given.map(({ wanted }) => wanted)).toEqual(['#c0c0c0']);
  });
});

describe('from the side', () => {
  it('edges show from where the feather no longer hides the gap: sin θ = n sin atan(1.5/6), by hand 22.1°', () => {
    const { creatures: [{ edges, looks }] } = read(made());
    expect(edges).toMatchObject([{ nearId: 'p2', farId: 'p1', gapMm: 6 }]);
    expect(edges[0].showsFromDeg).toBeCloseTo(22.083, 2);
    expect(looks).toEqual([0, 15, 30, 45, 60].map((viewDeg) => ({ viewDeg, edges: viewDeg >= 30 ? 1 : 0 })));
  });

  it('a line between pours 14 mm deep is drawn to 7.2 mm under the edge at 45° (14 tan θ′, by hand); none in a mold that stays', () => {
    const { lines } = read(made());
    expect(lines.map(({ heightMm, on }) => [heightMm, on])).toEqual([[20, 'plane'], [26, 'plane']]);
    expect(lines[1].seenMm.find(({ viewDeg }) => viewDeg === 45)!.mm).toBeCloseTo(14 * 0.512652, 4);
    expect(read(made({ mold: { shape: 'box', lengthMm: 120, widthMm: 80, heightMm: 50, material: 'wood', keep: true } })).lines).toEqual([]);
  });
});

describe('shadows', () => {
  const strokes = [{ plane: 'p2', ink: '#223344', widthMm: 6, softMm: 0, points: [[-30, 20, 1], [10, 20, 1]] }];

  it('fall from a sketch too', () => {
    const scene = made({ lamp: {}, strokes, creatures: [], placements: [{ id: 'p1', kind: 'plane', name: 'Low', atMm: 6 }, { id: 'p2', kind: 'plane', name: 'High', atMm: 26 }] });
    const { planes, back } = read(scene);
    expect(planes[0].shadows).toMatchObject([{ of: 'p2', name: 'High', shiftMm: expect.closeTo(20 * 0.512652, 4) }]);
    // A band of 40 by 6 mm with round ends.
    expect(planes[0].shadows[0].areaCm2).toBeCloseTo((240 + Math.PI * 9) / 100, 1);
    expect(back!.shadows).toHaveLength(1);
    expect(regionArea(artRegions(scene, scene.placements as Plane[], new Map(), regions).get('p2')!)).toBeGreaterThan(260);
  });

  it('of no known outline are named', () => {
    const scene = made({ lamp: {}, placements: [{ id: 'a', kind: 'plane', name: 'Photo', atMm: 26, art: { file: 'a.png', widthMm: 50 } }, { id: 'f', kind: 'figure', name: 'Newt', shape: { type: 'library', name: 'newt' }, baseMm: 5 }], creatures: [] });
    const reading = read(scene);
    expect(reading.unknownShadows).toEqual(['Photo', 'Newt']);
    expect(readingText(scene, reading)).toContain('Photo and Newt: their shadows are not drawn, as the outline is not known.');
  });
});
