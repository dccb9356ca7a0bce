/**
 * The curing box: a pour's clock by hand, then whole plans replayed by the checker's clock. Hours are of the invented
 * formula TL (10 to tacky, 26 to the end of the bond, 36 to scuffing and painting, 48 to come out, at 23 °C); the rate
 * doubles for every 10 °C (common practice, no source), so a box at 33 °C does two hours in one.
 */
import { describe, expect, it } from 'vitest';
import { beginBuild } from '../../../../src/core/cure/verdict.ts';
import { familyOf } from '../../../../src/core/cure/family.ts';
import { judgedAs, roomOfPlan } from '../../../../src/core/plan/box/as-planned.ts';
import { boxedRoom, boxOf } from '../../../../src/core/plan/box/boxed-room.ts';
import { GOAL_SEARCH } from '../../../../src/core/plan/best/goal-search.ts';
import { simulatedHeat } from '../../../../src/core/plan/heat-simulated.ts';
import { planScene } from '../../../../src/core/plan/plan-scene.ts';
import type { Plan } from '../../../../src/core/plan/plan.ts';
import { completeFormula } from '../../../../src/core/resin/formula.ts';
import { readScene } from '../../../../src/core/scene/read.ts';
import type { CureFamily } from '../../../../src/core/cure/family-types.ts';
import type { Mold, Room } from '../../../../src/core/scene/scene.ts';
import type { BuildPour } from '../../../../src/core/cure/verdict-types.ts';
import { parseLocalTime } from '../../../../src/core/units/time.ts';
import { madeHeat } from '../../../plan/made-heat.ts';
import { mulberry32 } from '../../../plan/random-scenes.ts';
import { NO_BOOLEANS, planOf, problemsOf, scene, TG, TL } from '../../../plan/planning.ts';
import { replayed, type BoxScene } from './replay.ts';

const plane = (id: string, atMm: number) => ({ id, kind: 'plane', name: id, atMm, paintH: 3, dryH: 8 });
const BOX = { temperatureC: 33 };
const FAMILIES = new Map<string, CureFamily>();
const painted = (room: object, more: Parameters<typeof scene>[0] = {}) => scene({ fillMm: 40, placements: [plane('a', 20)], room, ...more });
const times = ({ pours: [{ scuffable, paintable, demold, box }] }: Plan) => ({ scuffable, paintable, demold, box });

describe('by hand', () => {
  it('tacky within bench hours it goes in at once: 26 of 36 hours are left and take 13', () => {
    // Poured 08:00 to 08:30, tacky 18:30.
    const plan = planOf(painted({ temperatureC: 23, box: BOX }));
    expect(times(plan)).toMatchObject({ scuffable: '2026-05-05T07:30', paintable: '2026-05-05T07:30', box: { from: '2026-05-04T18:30', to: '2026-05-05T08:00' } });
    expect(planOf(painted({ temperatureC: 23 })).pours[0].scuffable).toBe('2026-05-05T20:30');
  });

  it('tacky at night it goes in when the bench opens', () => {
    // Poured 12:00 to 12:30, tacky 22:30; by 08:00 it has 19.5 of 36 hours, the other 16.5 take 8.25.
    const plan = planOf(painted({ temperatureC: 23, box: BOX }, { bench: { start: '2026-05-04T12:00' } }));
    expect(times(plan)).toMatchObject({ scuffable: '2026-05-05T16:15', box: { from: '2026-05-05T08:00', to: '2026-05-05T16:15' } });
  });

  it('a box that is warm at some hours is the room at others', () => {
    // In at 18:30; 1.5 h do 3 until 20:00, 12 h do 12 until 08:00: 25 of 36; 11 more take 5.5.
    const plan = planOf(painted({ temperatureC: 23, box: { ...BOX, hours: [{ days: 'Mon-Sun', from: '08:00', to: '20:00' }] } }));
    expect(times(plan).scuffable).toBe('2026-05-05T13:30');
  });

  it('a room warmer than the box counts as the room', () => {
    const room: Room = { temperatureC: 23, profile: [{ fromMin: 100, temperatureC: 40 }, { fromMin: 200, temperatureC: 23 }] };
    const { profile } = boxedRoom(room, { temperatureC: 33, hours: [] }, [{ from: 50, to: 150 }]);
    expect(profile).toEqual([{ fromMin: 50, temperatureC: 33 }, { fromMin: 100, temperatureC: 40 }, { fromMin: 150, temperatureC: 40 }, { fromMin: 200, temperatureC: 23 }]);
  });

  it('a pour below counts the hours that the piece is out of the box', () => {
    // The lower pour, slow to come out, is under the quicker ones: its hours are those of the piece, in and out.
    const slow = { ...TL, id: 'slow', demoldH: 120 };
    const made = scene({ fillMm: 30, fills: [{ toMm: 20, formula: 'slow' }, { toMm: 30, formula: 'TG' }], formulas: [slow, TG], placements: [plane('a', 20)], room: { temperatureC: 23, box: BOX } });
    const plan = planOf(made);
    // In 18:30 to 08:00 (scuff), out until the next pour is tacky, in again to the end: counted in hours by the plan's own steps.
    const [first, second] = plan.pours.map(({ box }) => box!);
    const hours = (from: string, to: string) => (Date.parse(`${to}Z`) - Date.parse(`${from}Z`)) / 3.6e6;
    const done = hours('2026-05-04T08:30', first.from) + 2 * hours(first.from, first.to) + hours(first.to, second.from) + 2 * hours(second.from, plan.pours[0].demold);
    expect(done).toBeCloseTo(120, 1);
    expect(plan.finish).toBe(plan.pours[0].demold);
    expect(replayed(made as unknown as BoxScene, plan)).toEqual([]);
  });
});

describe('whole plans', () => {
  it('a box no warmer than the room changes nothing, digit for digit, and says so', () => {
    for (const [roomC, boxC] of [[23, 23], [25, 22]]) {
      const [without, plan] = [planOf(painted({ temperatureC: roomC })), planOf(painted({ temperatureC: roomC, box: { temperatureC: boxC } }))];
      expect([plan.pours, plan.steps, plan.finish]).toEqual([without.pours, without.steps, without.finish]);
      expect(plan.findings.filter(({ code }) => code === 'box-unused')).toHaveLength(1);
    }
    expect(boxOf({ temperatureC: 23, profile: [{ fromMin: 0, temperatureC: 18 }], box: { temperatureC: 20, hours: [] } })).not.toBeNull();
  });

  it('a pour onto a tacky surface stays in the room, and is what it is without a box', () => {
    const wet = { fillMm: 50, placements: [], bench: { watchH: 0 } };
    const [without, plan] = [planOf(scene({ ...wet, room: { temperatureC: 23 } })), planOf(scene({ ...wet, room: { temperatureC: 23, box: BOX } }))];
    expect(plan.pours.map(({ route }) => route)).toEqual([null, 'wet-on-tacky']);
    expect(plan.pours[0]).toMatchObject({ opens: without.pours[0].opens, closes: without.pours[0].closes, ends: without.pours[0].ends });
    expect(plan.pours[0].box).toBeUndefined();
    expect(plan.pours[1].starts).toBe(without.pours[1].starts);
  });

  it('a piece out of a box over 5 °C warmer than the room stands an hour before it is poured on', () => {
    // No window: cured, scuffed, poured. Half an hour is the scuff.
    const quick = { ...TL, bondClosesH: 10.5 };
    const gap = (boxC: number) => {
      const { pours, steps } = planOf(scene({ fillMm: 50, formulas: [quick], room: { temperatureC: 23, box: { temperatureC: boxC } } }));
      return (Date.parse(`${pours[1].starts}Z`) - Date.parse(`${steps.find(({ kind }) => kind === 'scuff')!.from}Z`)) / 60000;
    };
    expect([gap(28), gap(33)]).toEqual([30, 60]);
  });

  it('every plan of 100 random scenes replays', () => {
    for (let seed = 0; seed < 100; seed++) {
      const made = randomBoxScene(seed);
      const goal = ['even', 'soonest', 'fewest'][seed % 3];
      const plan = planOf({ ...made, plan: { goal } });
      expect(replayed(made as unknown as BoxScene, plan), `seed ${seed}, ${goal}`).toEqual([]);
    }
  });

  it('under simulated heat, by the middle of each family, none of 8 is looser than its label', () => {
    for (let seed = 300; seed < 308; seed++) {
      const made = { ...randomBoxScene(seed), heat: { model: 'simulated' }, plan: { goal: seed % 2 === 0 ? 'even' : 'soonest' } };
      const reading = readScene(made);
      if (!reading.ok) throw new Error(JSON.stringify(reading.problems));
      const result = planScene(reading.scene, { meshes: new Map(), search: GOAL_SEARCH, booleans: NO_BOOLEANS, heat: simulatedHeat([], { members: 'mean', families: FAMILIES }) });
      if (!result.ok) throw new Error(JSON.stringify(result.problems));
      expect(replayed(made as unknown as BoxScene, result.plan, { simulated: true }), `seed ${seed}`).toEqual([]);
    }
  });

  it('tells who runs its heat again what it was judged with', () => {
    const asked: BuildPour[] = [];
    const heat = madeHeat((pour) => {
      asked.push(pour);
      return {};
    });
    const made = { ...scene({ fillMm: 55, placements: [plane('a', 20), plane('b', 30)], room: { temperatureC: 20, box: BOX }, bench: { bottlesC: 30 } }), heat: { model: 'simulated' } };
    const reading = readScene(made);
    if (!reading.ok) throw new Error(JSON.stringify(reading.problems));
    const result = planScene(reading.scene, { meshes: new Map(), booleans: NO_BOOLEANS, heat });
    if (!result.ok) throw new Error(JSON.stringify(result.problems));
    const { pours } = result.plan;
    expect(pours.filter(({ box }) => box).length).toBeGreaterThan(1);
    pours.forEach(({ starts }, i) => {
      const { mixC, room } = asked.findLast(({ fromMin }) => fromMin === parseLocalTime(starts))!;
      expect(judgedAs(reading.scene.room, pours, i)).toEqual(room ? { mixC, room } : { mixC });
    });
    // In the end it is where its stays are, and nowhere else.
    expect(roomOfPlan(reading.scene.room, pours).profile.map(({ temperatureC }) => temperatureC)).toEqual(pours.flatMap(({ box }) => (box ? [33, 20] : [])));
  });

  it('soonest is no later than even with the same box', () => {
    for (let seed = 200; seed < 230; seed++) {
      const made = randomBoxScene(seed);
      const [even, soonest] = ['even', 'soonest'].map((goal) => planOf({ ...made, plan: { goal } }).finish);
      expect(soonest <= even, `seed ${seed}: ${soonest} after ${even}`).toBe(true);
    }
  });
});

describe('what it warns of', () => {
  const found = (box: object, more: Parameters<typeof scene>[0] = {}) => planOf(painted({ temperatureC: 21, box }, more)).findings.filter(({ code }) => code.startsWith('box'));
  it('over 30 °C a caution, over 40 °C a halt for the pours in it, at 28 °C nothing', () => {
    expect(found({ temperatureC: 28 })).toEqual([]);
    expect(found({ temperatureC: 34 })).toMatchObject([{ code: 'box-too-warm', severity: 'caution' }]);
    expect(found({ temperatureC: 45 })).toMatchObject([{ code: 'box-too-warm', severity: 'halt', pours: [1, 2] }]);
  });

  it('a figure whose limit it reaches is a halt', () => {
    const wax = { id: 'w', kind: 'figure', name: 'Moon', shape: { type: 'sphere', radiusMm: 4 }, baseMm: 20, massG: 2, hold: 'rests', limitC: 28 };
    expect(found({ temperatureC: 28 }, { placements: [plane('a', 20), wax] })).toMatchObject([{ severity: 'halt', subject: 'w', pours: [2] }]);
    expect(found({ temperatureC: 27 }, { placements: [plane('a', 20), wax] })).toEqual([]);
  });

  it('tells what a box must not be, on every plan that has one', () => {
    expect(planOf(painted({ temperatureC: 21, box: { temperatureC: 28 } })).cautions.join(' ')).toContain('Never a kitchen oven');
    expect(planOf(painted({ temperatureC: 21 })).cautions.join(' ')).not.toContain('oven');
  });

  it('refuses a box that is none', () => {
    expect(problemsOf(painted({ box: { temperatureC: 80 } }))).toEqual(['room.box.temperatureC: found 80; expected a number from 10 to 60 °C.']);
    expect(problemsOf(painted({ box: { temperatureC: 28, hours: [{ days: 'Someday', from: '08:00', to: '20:00' }] } }))[0]).toContain('room.box.hours[0].days');
  });
});

describe('heat', () => {
  const mold: Mold = { shape: 'box', lengthMm: 200, widthMm: 120, heightMm: 60, draftDeg: 0, cornerRadiusMm: 0, material: 'silicone', wallMm: 8, keep: false };
  const formula = completeFormula(TL as never);
  const family = familyOf(formula);
  const room: Room = { temperatureC: 20, profile: [] };
  const judged = (around?: Room) => beginBuild(mold, room, { members: 'mean' }).pour({ fromMin: 0, depthMm: 20, formula, family, room: around }).verdict;

  it('the same room given as what is around the piece is the same verdict, digit for digit', () => {
    expect(judged({ ...room })).toEqual(judged());
  });

  it('what a warm box does to a tacky pour is seen, and the sooner it goes in the warmer it gets', () => {
    const inAfter = (hours: number) => judged(boxedRoom(room, { temperatureC: 40, hours: [] }, [{ from: hours * 60, to: Infinity }]));
    const peaks = [inAfter(2), inAfter(8), inAfter(14)].map(({ rangeC }) => rangeC[1]);
    expect(peaks[0]).toBeGreaterThan(peaks[1]);
    expect(peaks[1]).toBeGreaterThan(peaks[2]);
    // It takes on the box's own warmth at the least, and its own heat on top of it.
    expect(peaks[2]).toBeGreaterThan(39);
    expect(inAfter(2).safeDepthMm).toBeLessThanOrEqual(judged().safeDepthMm);
  });
});

/** Planes, floaters' absence and one or two resins; rooms with nights, benches with odd hours, boxes with and without hours. */
function randomBoxScene(seed: number): Record<string, unknown> {
  const next = mulberry32(seed * 7919 + 17);
  const pick = <T,>(from: readonly T[]): T => from[Math.floor(next() * from.length)];
  const fillMm = pick([20, 30, 40, 55]);
  const planes = Array.from({ length: Math.floor(next() * 4) }, (_, i) => plane(`p${i}`, pick([0, 10, 12.5, 15, 20, fillMm]))).filter(({ atMm }) => atMm <= fillMm);
  const nights = Array.from({ length: 12 }, (_, day) => [{ from: `2026-05-${String(4 + day).padStart(2, '0')}T20:00`, temperatureC: pick([15, 17, 19]) }, { from: `2026-05-${String(5 + day).padStart(2, '0')}T07:30`, temperatureC: pick([20, 22, 30]) }]).flat();
  const hours = pick([undefined, [{ days: 'Mon-Fri', from: '17:00', to: '21:00' }, { days: 'Sat,Sun', from: '09:00', to: '18:00' }], [{ days: 'Mon-Sun', from: '22:00', to: '06:00' }]]);
  const boxHours = pick([undefined, [{ days: 'Mon-Sun', from: '07:00', to: '23:00' }], [{ days: 'Mon-Fri', from: '20:00', to: '08:00' }]]);
  return scene({
    fillMm,
    fills: next() < 0.4 ? [{ toMm: 12, formula: 'TG' }, { toMm: fillMm, formula: 'TL' }] : [{ toMm: fillMm, formula: pick(['TL', 'TG']) }],
    placements: planes,
    room: { temperatureC: pick([18, 21, 23]), profile: next() < 0.5 ? nights : [], box: { temperatureC: pick([25, 28, 33]), ...(boxHours && { hours: boxHours }) } },
    bench: { start: pick(['2026-05-04T08:00', '2026-05-06T18:10']), watchH: pick([0, 0.5]), ...(hours && { hours }) },
  });
}
