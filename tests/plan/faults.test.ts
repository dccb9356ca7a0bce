/**
 * The checker itself: its arithmetic against closed forms and published cases, and that it sees every kind of fault.
 * Faults are planted twice over: in the numbers of a good plan, and as planners that leave out one rule
 * (the real planner given a scene without it, its plan held against the scene with it).
 */

import { beforeAll, describe, expect, it } from 'vitest';
import type { Formula } from '../../src/core/scene/scene.ts';
import { openBooleans } from '../../src/files/booleans.ts';
import type { Booleans } from '../../src/core/solid/solid.ts';
import { CLASS_VALUES } from './check-scene.ts';
import { moldBetween, solidOf } from './check-solids.ts';
import { benchHours, minutesOf, roomPieces, textOf, whenProgressed } from './check-time.ts';
import type { PlanJson } from './check-types.ts';
import { checkPlan } from './checker.ts';
import { GOOD_SCENE } from './good-scene.ts';
import { madeHeat } from './made-heat.ts';
import { planJson } from './plan-json.ts';
import { mulberry32 } from './random-scenes.ts';

type Open<T> = T extends readonly (infer U)[] ? Open<U>[] : T extends object ? { -readonly [K in keyof T]: Open<T[K]> } : T extends number ? number : T extends string ? string : T;
type OpenPlan = Open<PlanJson>;
type OpenScene = Open<typeof GOOD_SCENE>;

let booleans: Booleans;
let good: PlanJson;

beforeAll(async () => {
  booleans = await openBooleans();
  good = planJson(GOOD_SCENE, booleans);
});

const later = (time: string, minutes: number) => textOf(minutesOf(time) + minutes);
const step = (plan: OpenPlan, kind: string) => plan.steps.find((s) => s.kind === kind)!;
const without = (plan: OpenPlan, code: string) => { plan.findings = plan.findings.filter((f) => f.code !== code); };

/** What is planted, what is done to the plan, and what the checker must say. */
const PLANTED: readonly [string, (plan: OpenPlan) => void, RegExp][] = [
  ['a stop moved by 0.01 mm', (p) => { p.layers[0].toMm += 0.01; }, /layer 1 ends at 20.01 mm where the stop is at 20/],
  ['a cause of a stop left out', (p) => { p.layers[0].stops.pop(); }, /layer 1 stops for .* where .* is expected/],
  ['a layer left out', (p) => { p.layers.pop(); }, /2 layers where the stops ask for 3/],
  ['the neighboring formula', (p) => { p.layers[1].formula = 'low'; }, /layer 2 is of low where its fill is gen/],
  ['gross volume a millionth off', (p) => { p.layers[0].grossMl *= 1 + 1e-6; }, /layer 1 gross/],
  ['net that is not gross less displaced', (p) => { p.pours[1].netMl += 0.001; }, /pour 2 net \+ displaced/],
  ['gravel counted as solid', (p) => { p.pours[0].displacedMl += 6.4; p.pours[0].netMl -= 6.4; }, /pour 1 displaced/],
  ['capacity without the draft', (p) => { p.mold.capacityMl = (160 * 110 - (4 - Math.PI) * 36) * 0.06; }, /mold capacity/],
  ['a pour over its depth limit', (p) => { p.pours[0].toMm = 12.5; p.pours[0].depthMm = 12.5; p.pours[1].fromMm = 12.5; p.pours[1].depthMm = 7.5; }, /pour 1 is 12.5 mm deep, over the 12 mm/],
  ['unequal pours', (p) => { p.pours[0].toMm = 9.5; p.pours[0].depthMm = 9.5; p.pours[1].fromMm = 9.5; p.pours[1].depthMm = 10.5; }, /layer 1 is poured to 9.5, 20 mm where 10, 20 is expected/],
  ['a pour more than needed', (p) => { p.pours.splice(4, 1, { ...p.pours[4], toMm: 43, depthMm: 7 }, { ...p.pours[4], index: 6, fromMm: 43, depthMm: 7 }); }, /layer 3 is poured to 43, 50 mm where 50 is expected/],
  ['a gap between pours', (p) => { p.pours[2].fromMm = 20.5; p.pours[2].depthMm = 9; }, /pour 3 starts at 20.5 mm where the one below ends at 20/],
  ['a locking division one step lower', (p) => { p.pours[2].toMm = 29; p.pours[2].depthMm = 9; p.pours[3].fromMm = 29; p.pours[3].depthMm = 7; }, /layer 2 is poured to 29, 36 mm where 29.5, 36 is expected/],
  ['no locking pour', (p) => { p.pours[2].toMm = 36; p.pours[2].depthMm = 16; p.pours.splice(3, 1); }, /layer 2 is poured to 36 mm where 29.5, 36 is expected/],
  ['a floater not named in its lock', (p) => { p.pours[2].locks = []; }, /pour 3 covers the base of newt first and does not name it/],
  ['a lock named in a later pour', (p) => { p.pours[3].locks = ['newt']; }, /pour 4 is said to lock newt, whose base pour 3 covers first/],
  ['a lift with the mass added', (p) => { p.placements.find((x) => x.id === 'newt')!.liftG! += 5.4; }, /newt lifts .* where 3.24/],
  ['a safe lock without the 0.8', (p) => { p.placements.find((x) => x.id === 'newt')!.safeLockMm! /= 0.8; }, /newt safe lock 12.*where 9.99/],
  ['a floater said to lie still', (p) => { p.placements.find((x) => x.id === 'newt')!.floats = false; }, /newt .* is not said to float/],
  ['a fastened reed said to float', (p) => { p.placements.find((x) => x.id === 'reed')!.floats = true; }, /reed \(fixed.*is said to float/],
  ['a finished mass without the figures', (p) => { p.mold.finishedG! -= 5.4; }, /the finished piece weighs/],
  ['a mix without hold-up', (p) => { p.pours[0].mixMl -= 16; }, /pour 1 mixes/],
  ['one cup too many', (p) => { p.pours[4].batches.push(p.pours[4].batches[0]); }, /pour 5 has 2 cups where 1 of .* would do/],
  ['a cup over its limit', (p) => { p.pours[0].batches.pop(); }, /pour 1 has 1 cups of .* over the 150 g of low/],
  ['unequal cups', (p) => { p.pours[0].batches[0].mixMl += 1; }, /pour 1 cup 1 holds .* not an equal share/],
  ['parts swapped', (p) => { const b = p.pours[2].batches[0]; [b.partA, b.partB] = [b.partB, b.partA]; }, /pour 3 cup 1 part A/],
  ['one scale stop a division off', (p) => { p.pours[2].batches[0].scaleStopsG[1] += 0.1; }, /pour 3 cup 1 scale stop 2/],
  ['a scale stop between divisions', (p) => { p.pours[2].batches[0].scaleStopsG[0] += 0.03; }, /is not on a 0.1 g scale/],
  ['dye by volume', (p) => { p.pours[0].batches[0].tintG = p.pours[0].batches[0].mixMl / 1000; }, /pour 1 cup 1 takes .* g of dye/],
  ['usable minutes of the whole pot life', (p) => { p.pours[0].batches[0].usableMin /= 0.7; }, /pour 1 cup 1 is usable for/],
  ['a fill mark from the floor', (p) => { p.pours[0].fillMarkFromRimMm = 10; }, /pour 1 fill mark is 10 mm/],
  ['shopping one pour short', (p) => { p.shopping[0].partA.g -= p.pours[0].partA.g; }, /shopping of low: .* part A g/],
  ['a window that opens a minute early', (p) => { p.pours[0].opens = later(p.pours[0].opens, -1); }, /pour 1 opens .* where .* is expected/],
  ['a window that closes a minute late', (p) => { p.pours[1].closes = later(p.pours[1].closes, 1); }, /pour 2 closes/],
  ['a night left out of scuffable', (p) => { p.pours[1].scuffable = later(p.pours[1].scuffable, -200); }, /pour 2 is scuffable/],
  ['paintable a minute early', (p) => { p.pours[1].paintable = later(p.pours[1].paintable, -1); }, /pour 2 is paintable/],
  ['demold a minute late', (p) => { p.pours[3].demold = later(p.pours[3].demold, 1); }, /pour 4 comes out/],
  ['a pour that ends early', (p) => { p.pours[2].ends = p.pours[2].starts; }, /pour 3 ends/],
  ['a pour outside bench hours', (p) => { p.pours[0].starts = later(p.pours[0].starts, -1); }, /pour 1 at .* is outside bench hours/],
  ['a watch outside bench hours', (p) => { p.pours[2].starts = '2028-03-01T19:30'; p.pours[2].ends = '2028-03-01T20:00'; }, /pour 3 at 2028-03-01T19:30 with its watch is outside bench hours/],
  ['a pour later than it could be', (p) => { p.pours[1].starts = later(p.pours[1].starts, 1); p.pours[1].ends = later(p.pours[1].ends, 1); }, /pour 2 starts 2028-02-26T18:31 where 2028-02-26T18:30 is expected/],
  ['a route over paint without curing', (p) => { p.pours[2].route = 'wet-on-tacky'; }, /pour 3 joins by wet-on-tacky where cure-scuff-wipe/],
  ['a window not used', (p) => { p.pours[1].route = 'cure-scuff-wipe'; }, /pour 2 joins by cure-scuff-wipe where wet-on-tacky/],
  ['a scuff before its time', (p) => { step(p, 'scuff').from = later(step(p, 'scuff').from, -30); step(p, 'scuff').to = later(step(p, 'scuff').to, -30); }, /scuff from .* is not in the steps/],
  ['painting times not added', (p) => { const s = p.steps.filter((x) => x.kind === 'paint')[1]; s.to = later(s.to, -60); }, /paint of p1, p2 from .* is not in the steps/],
  ['a plane not painted', (p) => { p.steps.filter((x) => x.kind === 'paint')[1].placements = ['p1']; }, /does not name p2/],
  ['drying cut short', (p) => { const s = p.steps.filter((x) => x.kind === 'dry')[1]; s.to = later(s.to, -120); }, /dry of p1, p2 from .* is not in the steps/],
  ['a scuff of no joint', (p) => { p.steps.push({ ...p.steps[p.steps.length - 1], kind: 'scuff' }); }, /the scuff step from .* belongs to no joint/],
  ['finish before the last demold', (p) => { p.finish = later(p.finish, -1); }, /finish is .* where .* is expected/],
  ['steps out of order', (p) => { p.steps.reverse(); }, /step at .* comes after one at/],
  ['two hands at once', (p) => { const s = p.steps.find((x) => x.kind === 'pour')!; s.to = later(s.to, 16 * 60); }, /overlaps work that lasts until/],
  ['a pour without its step', (p) => { p.steps = p.steps.filter((s) => s.kind !== 'pour' || s.pour !== 4); }, /pour 4 has 0 pour steps/],
  ['no test cup the day before', (p) => { p.steps = p.steps.filter((s) => minutesOf(s.from) >= minutesOf('2028-02-26T00:00')); }, /24 h before the first pour, for the test cup/],
  ['a figure never placed', (p) => { p.steps = p.steps.filter((s) => s.kind !== 'place' || !s.placements.includes('newt')); }, /newt has no place step/],
  ['a floater not told', (p) => without(p, 'floats'), /newt floats with .* and no caution says so/],
  ['a cut figure not told', (p) => without(p, 'plane-cuts-figure'), /reed from 0 to 30 mm is cut by a plane and nothing says so/],
  ['a layer wrongly called thin', (p) => { p.findings.push({ code: 'layer-too-thin', severity: 'caution', subject: 'layer 1', message: 'thin', remedy: 'none' }); }, /layer 1 is called too thin/],
  ['a ratio wrongly called a conflict', (p) => { p.findings.push({ code: 'ratio-conflict', severity: 'halt', subject: 'formula low', message: 'off', remedy: 'none' }); }, /low .* is called a conflict/],
  ['an assumed start that was given', (p) => { p.findings.push({ code: 'start', severity: 'note', subject: 'bench.start', message: 'start is taken as 2000-01-03', remedy: 'none' }); }, /a note says that one was assumed/],
  ['a known field called unknown', (p) => { p.findings.push({ code: 'unknown-field', severity: 'note', subject: 'mold', message: 'unknown', remedy: 'none' }); }, /mold is called an unknown field/],
  ['a weight asked of a fastened reed', (p) => { p.findings.push({ code: 'weight-unknown', severity: 'caution', subject: 'reed', message: 'unknown', remedy: 'none' }); }, /reed is held .* and is asked for its weight/],
  ['a finding on a pour that is not there', (p) => { p.findings[0].pours = [9]; }, /concerns pour 9, which is not in the plan/],
  ['no finish step', (p) => { p.steps = p.steps.filter((s) => s.kind !== 'finish'); }, /no finish step at/],
  ['a finding without a remedy', (p) => { p.findings[0].remedy = ''; }, /lacks its subject, message or remedy/],
];

/** A planner that leaves out a rule, as the scene it would then have read. */
const LEFT_OUT: readonly [string, (scene: OpenScene) => void, RegExp][] = [
  ['the draft', (s) => { s.mold.draftDeg = 0; }, /layer 1 gross/],
  ['the corner radius', (s) => { s.mold.cornerRadiusMm = 0; }, /layer 1 gross/],
  ['the gaps in gravel', (s) => { s.placements[4] = { ...s.placements[4], voidFraction: 0 } as never; }, /layer 1 displaced/],
  ['what a figure displaces', (s) => { s.placements.pop(); }, /layer 1 displaced/],
  ['what floats', (s) => { s.placements[5] = { ...s.placements[5], hold: 'fixed' } as never; }, /newt .* is not said to float/],
  ['the depth limit', (s) => { s.formulas[0].maxDepthMm = 20; }, /pour 1 is 20 mm deep, over the 12 mm/],
  ['the least depth', (s) => { s.formulas[1].minDepthMm = 7; }, /is poured to .* mm where/],
  ['the cup limit', (s) => { s.formulas[0].maxBatchG = 5000; }, /pour 1 has 1 cups of .* over the 150 g/],
  ['shrinkage', (s) => { s.formulas[0].shrinkageFraction = 0; }, /pour 1 mixes/],
  ['the ratio by mass winning', (s) => { s.formulas[0] = { ...s.formulas[0], ratioByMass: [100, 43] } as never; }, /pour 1 part A mL/],
  ['the allowance', (s) => { s.bench.allowanceFraction = 0; }, /pour 1 mixes/],
  ['the hold-up', (s) => { s.bench.holdUpMl = 0; }, /pour 1 mixes/],
  ['the scale', (s) => { s.bench.scaleG = 0.01; }, /is not on a 0.1 g scale/],
  ['a coarse scale', (s) => { s.bench.scaleG = 5; }, /nothing is expected/],
  ['cold nights', (s) => { s.room.profile = []; }, /pour 1 is paintable/],
  ['the label temperature', (s) => { s.formulas[0].atC = 20; }, /pour 1 opens/],
  ['the pot life of big cups', (s) => { s.formulas[0].potLifeMassG = 1000; }, /is usable for/],
  ['the end of the window', (s) => { s.formulas[1].bondClosesH = 60; }, /pour 4 closes/],
  ['the watch', (s) => { s.bench.watchH = 0; }, /pour 1 at .* with its watch is outside bench hours/],
  ['bench hours', (s) => { s.bench.hours = [{ days: 'Mon-Sun', from: '00:00', to: '00:00' }]; }, /is outside bench hours/],
  ['the weekday', (s) => { s.bench.hours = [{ days: 'Mon-Fri', from: '08:00', to: '20:00' }]; }, /pour 1 starts .* where/],
  ['drying', (s) => { s.placements[2] = { ...s.placements[2], dryH: 8 } as never; }, /dry of p1, p2 from .* is not in the steps/],
  ['the second painting', (s) => { s.placements[2] = { ...s.placements[2], paintH: 0 } as never; }, /paint of p1, p2 from .* is not in the steps/],
  ['the plane on the floor', (s) => { s.placements.shift(); }, /paint of p0 from .* is not in the steps/],
  ['the plane on the top', (s) => { s.placements.splice(3, 1); }, /layer 3 stops for/],
  ['merging of near stops', (s) => { s.placements[2] = { ...s.placements[2], atMm: 20.06 } as never; }, /4 layers where the stops ask for 3/],
  ['the piece that stays in', (s) => { Object.assign(s.mold, { keep: true }); }, /there is no demold step/],
];

describe('the checker sees faults', () => {
  it('accepts the good plan', () => {
    expect(checkPlan(GOOD_SCENE, good)).toEqual([]);
  });

  it.each(PLANTED)('planted in a plan: %s', (_name, plant, told) => {
    const plan = structuredClone(good) as OpenPlan;
    plant(plan);
    expect(checkPlan(GOOD_SCENE, plan).join('\n')).toMatch(told);
  });

  it.each(LEFT_OUT)('a planner that leaves out %s', (_name, leaveOut, told) => {
    const scene = structuredClone(GOOD_SCENE) as unknown as OpenScene;
    leaveOut(scene);
    expect(checkPlan(GOOD_SCENE, planJson(scene, booleans)).join('\n')).toMatch(told);
  });
});

/** The good scene where 0.7 of the label's depth is safe and warmth moves every time by an hour: what is planted there, and what the checker must say. */
const HEAT_PLANTED: readonly [string, (plan: OpenPlan) => void, RegExp][] = [
  ['heat left out', (p) => { p.pours[0].heat = null; }, /pour 1 tells nothing of its heat/],
  ['a pour over its safe depth', (p) => { p.pours[0].heat!.safeDepthMm = 6; }, /pour 1 is 6.66.* mm deep where 6 are safe and is not called hot/],
  ['a safe depth over the label’s', (p) => { p.pours[0].heat!.safeDepthMm = 12.5; }, /pour 1 is said to be safe to 12.5 mm, the label of low allows 12/],
  ['a hot pour that is none', (p) => { p.findings.push({ code: 'hot', severity: 'halt', subject: 'pour 2', message: 'hot', remedy: 'cool', pours: [2] }); }, /pour 2 is 6.66.* mm deep where 8.39.* are safe and is called hot/],
  ['a near pour not told', (p) => { p.pours[0].heat!.safeDepthMm = 6.7; }, /pour 1 .* is not called near to too much/],
  ['a harsh place called mild', (p) => { p.pours[0].heat!.harsher = false; }, /not called harsher/],
  ['a range upside down', (p) => { p.pours[0].heat!.rangeC = [40, 30]; }, /gets 40 to 30 °C, which is no range/],
  ['a word there is none of', (p) => { p.pours[0].heat!.words = 'tepid'; }, /is called “tepid”/],
  ['a cause there is none of', (p) => { p.pours[0].heat!.cause = 'the moon'; }, /is warm for “the moon”/],
  ['no model', (p) => { p.pours[0].heat!.model = ''; }, /does not say how its heat was judged/],
  ['a window that opens before the label’s', (p) => { p.pours[1].opens = later(p.pours[1].opens, -61); }, /pour 2 opens/],
  ['a move of under 15 minutes', (p) => { p.pours[1].opens = later(p.pours[1].opens, -50); }, /pour 2 opens/],
  ['a window that closes after the label’s', (p) => { p.pours[1].closes = later(p.pours[1].closes, 61); }, /pour 2 closes/],
  ['more usable minutes than the label’s', (p) => { p.pours[0].batches[0].usableMin *= 1.01; }, /pour 1 cup 1 is usable for/],
  ['a cup’s heat left out', (p) => { p.pours[0].batches[0].heat = null; }, /a cup of pour 1 tells nothing of its heat/],
  ['a hot cup not told', (p) => { p.pours[0].batches = p.pours[0].batches.map((batch) => ({ ...batch, heat: { ...batch.heat!, hot: true } })); }, /a cup of pour 1 gets hot and is not called so/],
  ['a cool cup called hot', (p) => { p.findings.push({ code: 'cup-hot', severity: 'halt', subject: 'pour 1', message: 'hot', remedy: 'cool', pours: [1] }); }, /a cup of pour 1 gets not hot and is called so/],
  ['a pour less than the heat asks for', (p) => { p.pours[1].toMm = 20; p.pours[1].depthMm = 20 - p.pours[1].fromMm; p.pours.splice(2, 1); }, /mm deep where 8.39.* are safe and is not called hot/],
  ['unequal pours', (p) => { p.pours[0].toMm = 6; p.pours[0].depthMm = 6; p.pours[1].fromMm = 6; p.pours[1].depthMm += 2 / 3; }, /layer 1 is poured to/],
];

describe('the checker sees faults of heat', () => {
  const scene = { ...GOOD_SCENE, heat: { model: 'simulated' } };
  const heat = madeHeat((pour) => {
    const label = timesByLabel(pour.fromMin, pour.formula);
    return { share: 0.7, windows: { opensMin: label.opens + 60, closesMin: label.closes - 60, scuffableMin: label.scuffable + 60, paintableMin: label.paintable + 60, demoldMin: label.demold + 60 } };
  });
  /** The good scene's own clocks: far enough for its rooms that an hour's move stays one of 15 minutes or more. */
  const timesByLabel = (fromMin: number, formula: Formula) => {
    const room = roomPieces(GOOD_SCENE.room);
    const zero = minutesOf('2000-01-01T00:00');
    const at = (from: number, hours: number) => whenProgressed(room, formula.atC, from + zero, hours) - zero;
    const ends = fromMin + 30;
    return { opens: at(ends, formula.bondOpensH), closes: at(fromMin, formula.bondClosesH), scuffable: at(ends, formula.scuffableH), paintable: at(ends, formula.paintableH), demold: at(ends, formula.demoldH) };
  };

  it('accepts the good plan, split thinner', () => {
    const plan = planJson(scene, booleans, heat);
    expect(checkPlan(scene, plan)).toEqual([]);
    expect(plan.pours.length).toBeGreaterThan(good.pours.length);
  });

  it.each(HEAT_PLANTED)('%s', (_name, plant, told) => {
    const plan = planJson(scene, booleans, heat) as OpenPlan;
    plant(plan);
    expect(checkPlan(scene, plan).join('\n')).toMatch(told);
  });

  it('heat told under the label model, and the other way about', () => {
    const warm = planJson(scene, booleans, heat);
    expect(checkPlan(GOOD_SCENE, warm).join('\n')).toMatch(/pour 1 tells of heat under the label model/);
    expect(checkPlan(scene, good).join('\n')).toMatch(/pour 1 tells nothing of its heat/);
  });
});

describe('the checker counts right', () => {
  /** Literals are rounded to their last digit. mm³. */
  const LITERAL_MM3 = 5e-4;
  const volumeOf = (shape: object, z: number) => solidOf({ id: 'x', kind: 'figure', shape: shape as never }, { shape: 'round', diameterMm: 500, heightMm: 100 }).below(z);

  it('knows a round and a rectangular frustum (physics.md §7)', () => {
    const round = { shape: 'round' as const, diameterMm: 90, heightMm: 80, draftDeg: (Math.atan(15 / 80) * 180) / Math.PI };
    expect(Math.abs(moldBetween(round, 0, 80) - 697433.569)).toBeLessThan(LITERAL_MM3);
    const box = { shape: 'box' as const, lengthMm: 100, widthMm: 60, heightMm: 50, draftDeg: (Math.atan(10 / 50) * 180) / Math.PI };
    expect(Math.abs(moldBetween(box, 0, 50) - 386666.667)).toBeLessThan(LITERAL_MM3);
    const rounded = { shape: 'box' as const, lengthMm: 100, widthMm: 80, heightMm: 60, cornerRadiusMm: 10 };
    expect(Math.abs(moldBetween(rounded, 0, 60) - 474849.556)).toBeLessThan(LITERAL_MM3);
  });

  it('knows a cap, a zone of a sphere, the bottom of an ellipsoid and a cone (physics.md §7)', () => {
    expect(Math.abs(volumeOf({ type: 'cap', sphereRadiusMm: 50, rimRadiusMm: 40 }, 20) - 54454.273)).toBeLessThan(LITERAL_MM3);
    expect(Math.abs(volumeOf({ type: 'sphere', radiusMm: 50 }, 80) - volumeOf({ type: 'sphere', radiusMm: 50 }, 60) - 129852.496)).toBeLessThan(LITERAL_MM3);
    expect(Math.abs(volumeOf({ type: 'ellipsoid', lengthMm: 60, widthMm: 40, heightMm: 20 }, 5) - 3926.991)).toBeLessThan(LITERAL_MM3);
    expect(Math.abs(volumeOf({ type: 'cone', radiusMm: 30, heightMm: 40 }, 40) - 37699.112)).toBeLessThan(LITERAL_MM3);
  });

  it('knows a wedge (case 5: 90 mL of resin to half its height, 270 mL above)', () => {
    const below = (z: number) => volumeOf({ type: 'wedge', lengthMm: 200, widthMm: 120, heightMm: 30 }, z);
    expect(200 * 120 * 15 - below(15)).toBeCloseTo(90e3, 6);
    expect(200 * 120 * 15 - (below(30) - below(15))).toBeCloseTo(270e3, 6);
  });

  it('keeps the calendar that the platform keeps', () => {
    for (let day = -200_000; day <= 400_000; day += 499) {
      const minutes = day * 1440 + (((day * 7) % 1440) + 1440) % 1440;
      const text = new Date(minutes * 60_000).toISOString().slice(0, 16);
      if (!/^\d{4}-/.test(text)) continue;
      expect(textOf(minutes)).toBe(text);
      expect(minutesOf(text)).toBe(minutes);
    }
    expect(minutesOf('2100-02-29T10:00')).toBeNaN();
    expect(minutesOf('2028-02-29T10:00')).not.toBeNaN();
  });

  it('adds up a cold night (case 8)', () => {
    const room = roomPieces({ temperatureC: 23, profile: [{ from: '2026-05-04T19:00', temperatureC: 18 }, { from: '2026-05-05T08:00', temperatureC: 23 }] });
    expect(textOf(Math.ceil(whenProgressed(room, 23, minutesOf('2026-05-04T20:00'), 10)))).toBe('2026-05-05T09:31');
    expect(textOf(Math.floor(whenProgressed(room, 23, minutesOf('2026-05-04T19:30'), 26)))).toBe('2026-05-06T01:09');
  });

  it('reads spans, lists, nights and touching hours', () => {
    const from = minutesOf('2026-05-04T00:00');
    const lengths = (days: string, opens: string, shuts: string) => benchHours([{ days, from: opens, to: shuts }], from, from + 7 * 1440).intervals.filter((i) => i.from >= from && i.from < from + 7 * 1440).map((i) => `${textOf(i.from).slice(8)}+${i.to - i.from}`);
    expect(lengths('Sat-Mon', '10:00', '16:00')).toEqual(['04T10:00+360', '09T10:00+360', '10T10:00+360']);
    expect(lengths('Mon,Thu', '22:00', '06:00')).toEqual(['04T22:00+480', '07T22:00+480']);
    expect(lengths('Tue-Wed', '08:00', '08:00')).toEqual(['05T08:00+2880']);
    expect(benchHours([{ days: 'Mon-Sun', from: '00:00', to: '00:00' }], from, from + 7 * 1440).longest).toBe(Infinity);
  });

  it('takes class values from inside the ranges of the trade (trade.md §2)', () => {
    const ranges: Record<string, Record<string, readonly [number, number]>> = {
      general: { maxDepthMm: [6, 15], bondOpensH: [4, 6], bondClosesH: [12, 18], scuffableH: [18, 24], paintableH: [20, 24], demoldH: [24, 48], maxBatchG: [300, 500], potLifeMin: [30, 50] },
      'low-viscosity': { maxDepthMm: [20, 30], bondOpensH: [8, 14], bondClosesH: [20, 30], scuffableH: [30, 48], paintableH: [30, 48], demoldH: [36, 72], maxBatchG: [1000, 2000], potLifeMin: [60, 180] },
      coating: { maxDepthMm: [3, 6], bondOpensH: [3, 5], bondClosesH: [8, 16], scuffableH: [18, 24], paintableH: [14, 24], demoldH: [24, 24], maxBatchG: [200, 400], potLifeMin: [20, 40] },
      'deep-pour': { maxDepthMm: [50, 75], bondOpensH: [18, 30], bondClosesH: [36, 72], scuffableH: [60, 96], paintableH: [48, 96], demoldH: [72, 168], maxBatchG: [5000, 15000], potLifeMin: [180, 600] },
      uv: { maxDepthMm: [1, 2], maxBatchG: [20, 20], densityAGPerMl: [1.08, 1.12], shrinkageFraction: [0.05, 0.08] },
    };
    for (const [family, rows] of Object.entries(ranges)) {
      for (const [key, [low, high]] of Object.entries(rows)) {
        const value = CLASS_VALUES[family][key as 'maxDepthMm'];
        expect(value, `${family} ${key}`).toBeGreaterThanOrEqual(low);
        expect(value, `${family} ${key}`).toBeLessThanOrEqual(high);
      }
    }
  });

  it('draws even numbers: 100 bins of 100,000 draws, seed 7', () => {
    const next = mulberry32(7);
    const bins = new Array<number>(100).fill(0);
    for (let i = 0; i < 100_000; i++) bins[Math.floor(next() * 100)]++;
    const chiSquare = bins.reduce((sum, n) => sum + (n - 1000) ** 2 / 1000, 0);
    // 99 degrees of freedom: 0.01 % of fair generators lie outside these (chi-square tables, from memory).
    expect(chiSquare).toBeGreaterThan(54);
    expect(chiSquare).toBeLessThan(161);
  });
});
