/** Where lines are drawn: at stops and tint steps they are drawn anyway; where a goal leaves a choice they lie at a bed's edge and outside of figures. */
import { describe, expect, it } from 'vitest';
import { planOf, scene, type SceneParts } from '../../../plan/planning.ts';

const GOALS = ['fewest', 'soonest', 'coolest', 'cheapest'] as const;

const planned = (parts: SceneParts, wishes: object) => planOf({ ...scene(parts), plan: wishes });
const lines = (parts: SceneParts, wishes: object) => planned(parts, wishes).pours.map(({ toMm }) => toMm);
const solid = (kind: string, id: string, size: { heightMm: number; baseMm: number }, more: object = {}) => ({ id, kind, name: id, shape: { type: 'cylinder', radiusMm: 10, heightMm: size.heightMm }, baseMm: size.baseMm, massG: 200, hold: 'fixed', ...more });

describe('lines of a goal’s plan', () => {
  // 40 mm of TL, 25 at most: two pours are the fewest, and the line may lie anywhere from 15 to 25. Equal ones would be 20.
  it('lie in the middle where nothing tells one place from another', () => {
    expect(lines({ fillMm: 40 }, { goal: 'fewest' })).toEqual([20, 40]);
  });

  it('lie at a bed’s edge', () => {
    const bed = solid('bed', 'sand', { heightMm: 17, baseMm: 0 }, { voidFraction: 0.4 });
    const { pours } = planned({ fillMm: 40, placements: [bed] }, { goal: 'fewest' });
    expect(pours.map(({ toMm }) => toMm)).toEqual([17, 40]);
    expect(pours[0].why).toContain('edge of sand');
  });

  it('lie outside of figures', () => {
    const newt = solid('figure', 'newt', { heightMm: 8, baseMm: 15.5 });
    const [line] = lines({ fillMm: 40, placements: [newt] }, { goal: 'fewest' });
    expect(line <= 15.5 || line >= 23.5).toBe(true);
    // Of the places that are left the nearest to equal pours: 23.5 and 16.5 against 15.5 and 24.5.
    expect(line).toBe(23.5);
  });

  it.each(GOALS)('%s: lie at every stop, whatever else there is', (goal) => {
    const placements = [{ id: 'p', kind: 'plane', atMm: 13 }, solid('figure', 'newt', { heightMm: 6, baseMm: 27 }, { hold: 'rests' })];
    const found = lines({ fillMm: 40, placements }, { goal });
    for (const stop of [13, 27, 40]) expect(found).toContain(stop);
  });

  it.each(GOALS)('%s: lie where the tint steps', (goal) => {
    const fills = [{ toMm: 18, formula: 'TL', tint: { percent: 0.1 } }, { toMm: 40, formula: 'TL', tint: { percent: 0.02 } }];
    expect(lines({ fillMm: 40, fills }, { goal })).toContain(18);
  });

  it('go through a figure rather than be one more', () => {
    // A figure over the whole span in which the one line can lie.
    const heron = solid('figure', 'heron', { heightMm: 12, baseMm: 14 });
    expect(lines({ fillMm: 40, placements: [heron] }, { goal: 'fewest' })).toHaveLength(2);
  });
});
