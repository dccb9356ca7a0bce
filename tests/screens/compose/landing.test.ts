/** Where a new figure lands in the demo: clear of its figures' boxes and, point by point, not inside its bed. */
import { beforeAll, expect, it } from 'vitest';
import type { SceneFile } from '../../../src/core/scene/edit/file.ts';
import { addBed, addFigure } from '../../../src/core/scene/edit/place.ts';
import type { Derived } from '../../../src/store/piece-state.ts';
import { landingOf, planeLandingOf, sizeOfShape } from '../../../src/screens/compose/landing.ts';
import { derivedFrom } from '../../store/in-process.ts';
import { demo } from './demo.ts';

/** The worker is started in this process and plans the demo, ms. */
const START_MS = 60_000;
const BALL = { type: 'sphere', radiusMm: 6 } as const;
const SIZE = sizeOfShape(BALL)!;

let derived: Derived;
beforeAll(async () => {
  const { scene, solids, forms } = await derivedFrom(null);
  derived = { scene, solids: solids.map(({ form, ...solid }) => ({ ...solid, ...forms.get(form)!, turnZDeg: 0 })) } as unknown as Derived;
}, START_MS);

/** The demo's bed: a wedge 0 to 16 mm high over the mold's length (assets/scenes). */
function bedAt(file: SceneFile, xMm: number): number {
  const bed = file.placements!.find(({ kind }) => kind === 'bed')!;
  const { lengthMm, heightMm } = (bed as unknown as { shape: { lengthMm: number; heightMm: number } }).shape;
  return Math.max(0, Math.min(1, xMm / lengthMm + 0.5)) * heightMm;
}

it('sets ten balls one after the other without one lying in another, a figure or the bed', () => {
  let file: SceneFile = demo;
  const boxes = derived.solids.filter(({ kind }) => kind === 'figure').map(({ bounds }) => bounds);
  for (let count = 0; count < 10; count++) {
    const at = landingOf(file, derived, SIZE);
    const { xMm = 0, yMm = 0, baseMm = 0 } = at;
    const box = { min: [xMm - 6, yMm - 6, baseMm], max: [xMm + 6, yMm + 6, baseMm + 12] } as const;
    for (const other of boxes) expect([0, 1, 2].every((k) => box.min[k] < other.max[k] && other.min[k] < box.max[k]), `ball ${count + 1}`).toBe(false);
    for (const dx of [-6, 0, 6]) expect(baseMm).toBeGreaterThanOrEqual(bedAt(file, xMm + dx) - 1e-3);
    expect(at.hold).toBe(baseMm > 0.05 ? 'stands' : undefined);
    boxes.push(box);
    const made = addFigure(file, { shape: BALL, ...at });
    if (!made.ok) throw new Error(made.reason);
    file = made.file;
  }
});

it('sets a ball down on a bed that was set in this moment', () => {
  const made = addBed({ ...demo, placements: [] }, { shape: { type: 'box', lengthMm: 400, widthMm: 300, heightMm: 9 }, name: 'Slab' });
  if (!made.ok) throw new Error(made.reason);
  expect(landingOf(made.file, { ...derived, solids: [] }, SIZE)).toMatchObject({ baseMm: 9, hold: 'stands' });
});

it('sets a plane over a ball that was set in this moment, not through it', () => {
  const bare = { ...demo, placements: [], fills: demo.fills.slice(-1), fillMm: 55 };
  const made = addFigure(bare, { shape: { type: 'sphere', radiusMm: 20 } });
  if (!made.ok) throw new Error(made.reason);
  expect(planeLandingOf(bare, { ...derived, solids: [] })).toEqual({ atMm: 28 });
  // The middle of 40 to 55, to a whole millimeter.
  expect(planeLandingOf(made.file, { ...derived, solids: [] })).toEqual({ atMm: 48 });
});
