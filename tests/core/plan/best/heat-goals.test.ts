/**
 * Goals under a heat that is known exactly (tests/plan/made-heat.ts). What is compared is the plans' own JSON; the coolest is
 * worked out by hand, and random scenes are held against the contract by the independent checker.
 */
import { describe, expect, it } from 'vitest';
import { GOAL_SEARCH } from '../../../../src/core/plan/best/goal-search.ts';
import { remembering } from '../../../../src/core/plan/best/remembering.ts';
import type { HeatJudge } from '../../../../src/core/plan/heat-judge.ts';
import { planScene } from '../../../../src/core/plan/plan-scene.ts';
import type { GoalRow, Plan } from '../../../../src/core/plan/plan.ts';
import { readScene } from '../../../../src/core/scene/read.ts';
import type { SceneJson, PlanJson } from '../../../plan/check-types.ts';
import { checkPlan } from '../../../plan/checker.ts';
import { madeHeat, type Say } from '../../../plan/made-heat.ts';
import { NO_BOOLEANS, scene, TG, TL, type SceneParts } from '../../../plan/planning.ts';
import { mulberry32 } from '../../../plan/random-scenes.ts';

const GOALS = ['fewest', 'soonest', 'coolest', 'cheapest'] as const;
const HOUR = 60;
/** Temperatures nearer than this are one to the coolest plan, °C. */
const STEP_C = 0.5;
/** Weights nearer than this are one to the cheapest, g. */
const WEIGHED_G = 0.1;

function plan(parts: SceneParts | SceneJson, wishes: object, heat: HeatJudge): Plan {
  const reading = readScene({ ...('format' in parts ? parts : scene(parts as SceneParts)), heat: { model: 'simulated' }, plan: wishes });
  if (!reading.ok) throw new Error(JSON.stringify(reading.problems));
  const result = planScene(reading.scene, { meshes: new Map(), search: GOAL_SEARCH, booleans: NO_BOOLEANS, notes: reading.notes, heat, compare: true });
  if (!result.ok) throw new Error(JSON.stringify(result.problems));
  return result.plan;
}

const depths = ({ pours }: Plan) => pours.map(({ depthMm }) => depthMm);
const warmest = ({ pours }: Plan) => Math.max(...pours.map(({ heat }) => heat!.rangeC[1]));
const rowOf = ({ goals }: Plan, goal: string): GoalRow => goals!.find((row) => row.goal === goal)!;

/** 23 °C and so much more for each millimeter; what goes on a pour that began less than 30 h before is so much warmer. */
const rising = (perMm: number, onWarmC: number): Say => (pour, below) => {
  const last = below[below.length - 1];
  const onWarm = last !== undefined && pour.fromMin - last.fromMin < 30 * HOUR;
  return { rangeC: [23, 23 + perMm * pour.depthMm + (onWarm ? onWarmC : 0)] };
};

describe('the coolest plan', () => {
  it('lets every pour cure where a warm one below counts for more than its own depth', () => {
    // 20 mm of TL in pours of 5 at the least: 23 + 2 × 5 = 33 °C cured, and 10 more on what is still tacky.
    const cured = plan({ fillMm: 20, bench: { start: '2026-05-04T08:00', watchH: 0 } }, { goal: 'coolest' }, madeHeat(rising(2, 10)));
    expect(depths(cured)).toEqual([5, 5, 5, 5]);
    expect(cured.pours.slice(1).every(({ route }) => route === 'cure-scuff-wipe')).toBe(true);
    expect(warmest(cured)).toBe(33);
    expect(rowOf(cured, 'coolest').warmestC).toBe(33);
  });

  it('pours onto the tacky surface where that is no warmer', () => {
    const tacky = plan({ fillMm: 20, bench: { start: '2026-05-04T08:00', watchH: 0 } }, { goal: 'coolest' }, madeHeat(rising(2, 0)));
    expect(depths(tacky)).toEqual([5, 5, 5, 5]);
    expect(tacky.pours.slice(1).map(({ route }) => route)).toContain('wet-on-tacky');
    expect(warmest(tacky)).toBe(33);
  });

  it('buys no day for less than half a degree', () => {
    // 0.01 °C for each millimeter: 23.2 in one pour of 20, 23.05 in four; both within the same half degree.
    expect(depths(plan({ fillMm: 20 }, { goal: 'coolest' }, madeHeat(rising(0.01, 0))))).toEqual([20]);
  });

  it('takes the resin that stays cooler, whatever its label allows', () => {
    // By the label TG would be poured 6 of 12 mm and TL 6 of 25; here TL is the warmer one by far.
    const heat = madeHeat((pour) => ({ rangeC: [23, 23 + (pour.formula.id === 'TL' ? 6 : 1) * pour.depthMm] }));
    const parts = { fillMm: 6, fills: [{ toMm: 6, formula: 'TL' }], formulas: [TL, TG] };
    const { pours } = plan(parts, { goal: 'coolest', formulas: ['TL', 'TG'] }, heat);
    expect(pours.map(({ formula, depthMm }) => [formula, depthMm])).toEqual([['TG', 3], ['TG', 3]]);
  });
});

describe('other goals under heat', () => {
  it('are judged as well, and told with their degrees', () => {
    const { goals } = plan({ fillMm: 40 }, { goal: 'fewest' }, madeHeat(rising(1, 5)));
    expect(goals!.map(({ goal }) => goal)).toEqual(['even', ...GOALS]);
    for (const { goal, warmestC } of goals!) expect(warmestC, goal).toBeGreaterThan(23);
    const row = (goal: string) => goals!.find((each) => each.goal === goal)!;
    expect(row('fewest').warmestC).toBeGreaterThan(row('coolest').warmestC!);
  });

  it('fall to the next best where the model refuses the best', () => {
    // The label allows 25 mm: two pours of 40. The model allows 0.5 of it: four of 10, none over 12.5 mm.
    const half = madeHeat(() => ({ share: 0.5 }));
    for (const goal of GOALS) {
      const { pours, findings, goals } = plan({ fillMm: 40 }, { goal }, half);
      expect(Math.max(...pours.map(({ depthMm }) => depthMm)), goal).toBeLessThanOrEqual(12.5);
      expect(findings.filter(({ code }) => code === 'hot')).toEqual([]);
      for (const row of goals!) expect(row.pours, `${goal} beside ${row.goal}`).toBeGreaterThanOrEqual(4);
    }
  });

  it('are never later than the even plan where only its last pour waits for its warmth', () => {
    // The top pour of two opens two hours late: its lesson says nothing of the pour below it.
    const heat = madeHeat((pour, below) => ({ windows: below.length === 1 ? { opensMin: pour.fromMin + 13 * HOUR } : {} }));
    const even = plan({ fillMm: 40 }, { goal: 'even' }, heat);
    expect(plan({ fillMm: 40 }, { goal: 'soonest' }, heat).finish).toBe(even.finish);
  });
});

describe('random boxes under random heat', () => {
  const FIRST = 5_000;
  const SCENES = Number(process.env.STILLPOOL_GOAL_SCENES ?? 3);
  it(`seeds ${FIRST} to ${FIRST + SCENES - 1}: every goal within every limit, none worse by its own measure than another that is told beside it`, { timeout: 120_000 }, () => {
    const wrong: string[] = [];
    for (let seed = FIRST; seed < FIRST + SCENES && wrong.length < 5; seed++) {
      const dice = mulberry32(seed);
      const drawn = boxScene(dice);
      const [perMm, onWarmC, share] = [dice() * 2, dice() * 15, 0.3 + dice()];
      const heat = madeHeat((pour, below) => ({ ...rising(perMm, onWarmC)(pour, below), share: Math.min(1, share * (below.length % 2 === 0 ? 1 : 0.8)) }));
      for (const goal of GOALS) {
        const found = plan(drawn, { goal }, heat);
        const asked = { ...drawn, heat: { model: 'simulated' }, plan: { goal } } as unknown as SceneJson;
        wrong.push(...checkPlan(asked, JSON.parse(JSON.stringify(found)) as PlanJson).map((problem) => `seed ${seed}, ${goal}: ${problem}`));
        const own = rowOf(found, goal);
        if (own.warmestC !== warmest(found) || own.pours !== found.pours.length || own.finish !== found.finish) wrong.push(`seed ${seed}, ${goal}: its row is not its plan`);
        if (found.goals!.some(({ warmestC }) => warmestC === null)) wrong.push(`seed ${seed}, ${goal}: a row was not judged`);
        wrong.push(...worseRows(found, goal).map((text) => `seed ${seed}, ${goal}: ${text}`));
      }
    }
    expect(wrong).toEqual([]);
  });
});

/** No stop but fills and planes, no figures: nothing that a rule must give way for. */
function boxScene(dice: () => number): SceneJson {
  const whole = (from: number, to: number) => from + Math.floor(dice() * (to - from + 1));
  const between = whole(12, 24);
  return scene({
    fillMm: 40,
    fills: [{ toMm: between, formula: 'TL' }, { toMm: 40, formula: dice() < 0.5 ? 'TL' : 'TG' }],
    formulas: [{ ...TL, minDepthMm: 3 }, TG],
    placements: dice() < 0.5 ? [{ id: 'p', kind: 'plane', atMm: between, paintH: 2, dryH: whole(6, 14) }] : [],
    bench: { start: '2026-05-04T08:00', watchH: 0 },
  }) as unknown as SceneJson;
}

/** Of the rows beside the chosen one's. */
function worseRows({ goals }: Plan, chosen: string): string[] {
  const measure = {
    fewest: (row: GoalRow) => row.pours,
    soonest: (row: GoalRow) => Date.parse(`${row.finish}Z`) / 60_000,
    coolest: (row: GoalRow) => Math.ceil(row.warmestC! / STEP_C - 1e-6),
    cheapest: (row: GoalRow) => Math.round(row.mixG / WEIGHED_G),
  };
  return GOALS.filter((goal) => goal !== chosen).flatMap((goal) => {
    const row = goals!.find((each) => each.goal === goal);
    return row ? goals!.filter((other) => measure[goal](other) < measure[goal](row) - 1e-9 && other.goal !== 'even').map((other) => `${goal}: ${other.goal} does better, ${measure[goal](other)} to ${measure[goal](row)}`) : [];
  });
}

describe('a judge that remembers', () => {
  it('judges what begins alike once, and tells formulas, depths, moments and rooms apart', () => {
    const inner = madeHeat(rising(1, 5));
    const judge = remembering(inner);
    const reading = readScene(scene({ formulas: [TL, TG] }));
    if (!reading.ok) throw new Error('the scene of the test is refused');
    const { mold, room, formulas } = reading.scene;
    const pour = (id: string, depthMm: number, fromMin: number) => ({ formula: formulas.get(id)!, family: judge.familyOf(formulas.get(id)!), depthMm, fromMin });
    const once = judge.begin(mold, room).pour(pour('TL', 10, 0));
    expect(judge.begin(mold, room).pour(pour('TL', 10, 0)).verdict).toBe(once.verdict);
    expect(inner.judged()).toBe(1);
    judge.begin(mold, room).pour(pour('TL', 10, 1));
    judge.begin(mold, room).pour(pour('TL', 11, 0));
    judge.begin(mold, { ...room, temperatureC: 30 }).pour(pour('TL', 10, 0));
    judge.begin(mold, room).pour({ ...pour('TL', 10, 0), mixC: 30 });
    once.then.pour(pour('TL', 10, 0));
    expect(inner.judged()).toBe(6);
  });
});
