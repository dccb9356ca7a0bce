/** What even pours do not keep to is said: by hand on TL of the acceptance cases (at most 25 mm), 40 mm in two of 20 by the contract's planner. */
import { describe, expect, it } from 'vitest';
import { GOAL_SEARCH } from '../../../../src/core/plan/best/goal-search.ts';
import { besideGoal } from '../../../../src/core/plan/best/goal-words.ts';
import { planScene } from '../../../../src/core/plan/plan-scene.ts';
import type { GoalRow, Plan } from '../../../../src/core/plan/plan.ts';
import { readScene } from '../../../../src/core/scene/read.ts';
import { NO_BOOLEANS, scene } from '../../../plan/planning.ts';

function plan(wishes: object): Plan {
  const reading = readScene({ ...scene({ fillMm: 40 }), plan: wishes });
  if (!reading.ok) throw new Error(JSON.stringify(reading.problems));
  const result = planScene(reading.scene, { meshes: new Map(), search: GOAL_SEARCH, booleans: NO_BOOLEANS, heat: null, compare: true });
  if (!result.ok) throw new Error(JSON.stringify(result.problems));
  return result.plan;
}

const missed = ({ findings }: Plan) => findings.find(({ code }) => code === 'wish-not-kept')?.message;
const even = ({ goals }: Plan) => goals!.find(({ goal }) => goal === 'even')!;

describe('what even pours do not keep to', () => {
  it('is said of a line that was asked for, of one that was not, and of formulas', () => {
    expect(missed(plan({}))).toBeUndefined();
    expect(missed(plan({ pins: [20], avoid: [{ fromMm: 5, toMm: 15 }] }))).toBeUndefined();
    expect(missed(plan({ pins: [12], avoid: [{ fromMm: 18, toMm: 22 }] }))).toBe('Even pours divide each layer equally, whatever you asked for: no line at 12, where you asked for one and a line at 20, where you asked for none.');
    expect(missed(plan({ formulas: ['general'] }))).toContain('poured, which you left out of your choice');
  });

  it('is marked where other goals are compared, and they keep to it', () => {
    const pinned = plan({ goal: 'fewest', pins: [12] });
    expect(pinned.pours.map(({ toMm }) => toMm)).toContain(12);
    expect(missed(pinned)).toBeUndefined();
    expect(even(pinned).keeps).toBe(false);
    expect(besideGoal(pinned).find(({ goal }) => goal === 'even')!.words).toMatch(/; it does not keep to what you asked$/);
    expect(even(plan({ goal: 'fewest' })).keeps).toBeUndefined();
    // As seen from the even plan, which has a pour less for not keeping to it.
    expect(besideGoal(plan({ pins: [12] })).every(({ words }) => words.endsWith('; it keeps to what you asked'))).toBe(true);
  });
});

describe('plans beside each other', () => {
  const row: GoalRow = { goal: 'even', pours: 3, finish: '2026-09-14T12:15', cost: null, currency: null, mixG: 700, fullest: 0.9, warmestC: null };
  it('are not called the same when one is done three quarters of an hour sooner', () => {
    const words = (finish: string) => besideGoal({ goal: 'even', goals: [row, { ...row, goal: 'soonest', finish }] })[0].words;
    expect(words('2026-09-14T11:30')).toBe('45\u00a0min sooner');
    expect(words(row.finish)).toBe('the same');
  });
});
