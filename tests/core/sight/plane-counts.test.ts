/** How many planes: rows follow the planner's own plans, and lines between pours. */
import { beforeAll, describe, expect, it } from 'vitest';
import type { Plan } from '../../../src/core/plan/plan.ts';
import { planScene } from '../../../src/core/plan/plan-scene.ts';
import { sceneFile, type SceneFile } from '../../../src/core/scene/edit/file.ts';
import { readScene } from '../../../src/core/scene/read.ts';
import type { Scene } from '../../../src/core/scene/scene.ts';
import type { Booleans } from '../../../src/core/solid/solid.ts';
import { countChoices, countRow, fewestHidden, withoutPlanes, type CountRow } from '../../../src/core/sight/plane-counts.ts';
import { lineSeenMm, pourLines, wallsHide } from '../../../src/core/sight/pour-lines.ts';
import { openBooleans } from '../../../src/files/booleans.ts';

const document = {
  format: 'stillpool.scene', version: 1, mold: { shape: 'box', lengthMm: 100, widthMm: 80, heightMm: 50 }, fillMm: 40, heat: { model: 'label' },
  fills: [{ toMm: 15, formula: 'low-viscosity', tint: { percent: 0.1 } }, { toMm: 40, formula: 'general' }], bench: { start: '2026-05-04T08:00' },
  placements: [{ id: 'p1', kind: 'plane', name: 'Newt 1', atMm: 24, paintH: 5, slices: ['c1'] }],
  creatures: [{ id: 'c1', name: 'Newt', shape: { type: 'ellipsoid', lengthMm: 50, widthMm: 20, heightMm: 12 }, baseMm: 18 }],
};
const opened = sceneFile(document);
if (!opened.ok) throw new Error(opened.problems[0].message);
const { file } = opened;

let booleans: Booleans;
beforeAll(async () => {
  booleans = await openBooleans();
});

function sceneOf(of: SceneFile): Scene {
  const reading = readScene(of);
  if (!reading.ok) throw new Error(reading.problems[0].message);
  return reading.scene;
}
function planOf(of: SceneFile): Plan {
  const result = planScene(sceneOf(of), { meshes: new Map(), booleans, heat: null });
  if (!result.ok) throw new Error(result.problems[0].message);
  return result.plan;
}

describe('how many planes', () => {
  let rows: CountRow[];
  const [creature] = sceneOf(file).creatures;
  beforeAll(() => {
    const without = planOf(withoutPlanes(file, 'c1'));
    rows = countChoices(sceneOf(file), { file, creature, tallMm: 12 }).map((choice) => countRow(choice, creature, { plan: planOf(choice.file), without }));
  });

  it('from one to as many as the general formula’s least depth (3 mm) levels between, 0.6 of it at the least', () => {
    expect(rows.map(({ planes }) => planes)).toEqual([1, 2, 3, 4, 5, 6]);
    expect(rows.map(({ gapMm }) => gapMm)).toEqual([null, 6, 4, 3, 12 / 5, 2]);
  });

  it('is counted from a piece that can be planned also where a plane was sketched on, or is a class’s to paint', () => {
    const sketched = { ...file, strokes: [{ plane: 'p1', ink: '#204060', points: [[0, 0, 1], [5, 0, 1]] }] } as unknown as SceneFile;
    expect(sceneOf(withoutPlanes(sketched, 'c1')).placements.map(({ id }) => id)).toEqual(['p1']);
    const classed = { ...file, class: { students: 6, at: '2026-05-09T10:00', hours: 2, youngest: 20, perStudent: { paint: ['p1'] } } } as unknown as SceneFile;
    expect(sceneOf(withoutPlanes(classed, 'c1')).placements).toEqual([]);
  });

  it('tells the widest gap of the planes as they lie, where another stop has moved some', () => {
    const stopped = { ...file, placements: [...(file.placements ?? []), { id: 'p9', kind: 'plane' as const, name: 'Reeds', atMm: 25.5 }] } as SceneFile;
    const plan = planOf(withoutPlanes(stopped, 'c1'));
    const told = countChoices(sceneOf(stopped), { file: stopped, creature, tallMm: 12 }).filter(({ planes }) => planes > 1).map((choice) => {
      const heights = sceneOf(choice.file).placements.flatMap((placement) => (placement.kind === 'plane' && placement.slices?.includes('c1') ? [placement.atMm] : [])).sort((a, b) => a - b);
      return { widest: Math.max(...heights.slice(1).map((atMm, i) => atMm - heights[i])), even: choice.gapMm, said: countRow(choice, creature, { plan, without: plan }).gapMm! };
    });
    for (const { widest, said } of told) expect(Math.abs(said - widest)).toBeLessThanOrEqual(0.05);
    expect(told.some(({ widest, even }) => widest - even > 0.05)).toBe(true);
  });

  it('steps at 45° are gap × tan asin(sin 45°/n), n of the general class (Snell’s law)', () => {
    const index = sceneOf(file).formulas.get('general')!.refractiveIndex;
    const tan = Math.tan(Math.asin(Math.sin(Math.PI / 4) / index));
    rows.slice(1).forEach(({ stepAt45Mm, gapMm, hidden }) => {
      expect(stepAt45Mm).toBeCloseTo(gapMm! * tan, 12);
      expect(hidden).toBe(gapMm! * tan <= 1.5);
    });
    expect(fewestHidden(rows)).toMatchObject({ planes: rows.find(({ planes, hidden }) => planes > 1 && hidden)!.planes });
  });

  it('every plane takes its painting, a stop and days; the painting of planes that stay is kept', () => {
    // The plane that is there takes 5 h; new ones the usual 3.
    expect(rows.map(({ paintH }) => paintH)).toEqual([5, 8, 11, 14, 17, 20]);
    rows.slice(1).forEach(({ daysAdded, pours }, n) => {
      expect(daysAdded).toBeGreaterThan(rows[n].daysAdded);
      expect(pours).toBeGreaterThanOrEqual(rows[n].pours);
    });
    expect(rows[0].daysAdded).toBeGreaterThan(0);
    expect(rows.every(({ halts }) => !halts.includes('layer-too-thin'))).toBe(true);
  });

  it('a creature out of the resin has no choice', () => {
    const [away] = sceneOf({ ...file, placements: [], creatures: [{ ...file.creatures![0], baseMm: 90 }] }).creatures;
    expect(countChoices(sceneOf(file), { file, creature: away, tallMm: 12 })).toEqual([]);
  });
});

describe('lines between pours', () => {
  it('lie on a plane, a change of fill, or bare', () => {
    const scene = sceneOf({ ...file, placements: [{ ...file.placements![0], name: 'Newt 1' }] } as SceneFile);
    const plan = planOf(file);
    const lines = pourLines(scene, plan);
    expect(lines.length).toBe(plan.pours.length - 1);
    expect(lines.find(({ heightMm }) => heightMm === 24)).toEqual({ heightMm: 24, depthMm: 16, on: 'plane', name: 'Newt 1' });
    expect(lines.find(({ heightMm }) => heightMm === 15)).toMatchObject({ on: 'fill', name: null });
    expect(lines.filter(({ on }) => on === 'bare').every(({ heightMm }) => heightMm !== 24 && heightMm !== 15)).toBe(true);
  });

  it('straight down none shows; at 45° in n 1.55 a line 20 mm deep shows 10.3 mm in from the far edge', () => {
    const face = { acrossMm: 30, index: 1.55 };
    expect(lineSeenMm(20, 0, face)).toBe(0);
    expect(lineSeenMm(20, 45, face)).toBeCloseTo(10.253, 3);
  });

  it('a face 30 mm long lets a look at 45° down to 58.5 mm (30/tan θ′, by hand)', () => {
    const face = { acrossMm: 30, index: 1.55 };
    expect(lineSeenMm(58.5, 45, face)).toBeCloseTo(29.99, 2);
    expect(lineSeenMm(58.6, 45, face)).toBeNull();
  });

  it('walls of wood that stay hide them, of acrylic not', () => {
    const mold = sceneOf(file).mold;
    expect([wallsHide({ mold }), wallsHide({ mold: { ...mold, keep: true, material: 'wood' } }), wallsHide({ mold: { ...mold, keep: true, material: 'acrylic' } })]).toEqual([false, true, false]);
  });
});
