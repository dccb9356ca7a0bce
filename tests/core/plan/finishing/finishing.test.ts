/**
 * The finish by hand arithmetic from the trade's table: §8 (a coat of 100 to 150 mL on 500 cm², 12 to 24 h a face, 10 °C
 * an hour at most, 40 °C for 4 h first, 2 to 3 mm off a sanded face, the ladder of grits), common practice, no source.
 */
import { describe, expect, it } from 'vitest';
import type { Plan, Step } from '../../../../src/core/plan/plan.ts';
import { planOf, problemsOf, scene, TG, TL } from '../../../plan/planning.ts';

/** Invented: no shrinkage, 1:1, mixed 1.08 g/mL. */
const COAT = { id: 'coat', name: 'Coat', family: 'coating', ratioByVolume: [1, 1], densityAGPerMl: 1.16, densityBGPerMl: 1, maxDepthMm: 4, minDepthMm: 1.5, maxBatchG: 60, shrinkageFraction: 0, atC: 23, potLifeMin: 30, potLifeMassG: 100, bondOpensH: 4, bondClosesH: 12, scuffableH: 20, paintableH: 20, demoldH: 24, fullCureH: 72 };
const FORMULAS = [{ ...TL, fullCureH: 168 }, TG, COAT];
/** One pour of 20 mm, Mon 4 May 08:00 to 08:30; out Wed 6 May 08:30; hard Mon 11 May 08:30. */
const slab = (finishing: object | undefined, more: object = {}) => ({ ...scene({ fillMm: 20, formulas: FORMULAS }), ...(finishing && { finishing }), ...more });
const stepsFor = (plan: Plan, ...works: string[]): Step[] => plan.steps.filter(({ finishing }) => finishing && works.includes(finishing.work));
const spans = (plan: Plan, ...works: string[]) => stepsFor(plan, ...works).map(({ from, to }) => [from.slice(5), to.slice(5)]);

describe('the finish on the calendar', () => {
  it('is not there where nobody asks for it', () => {
    const plan = planOf(slab(undefined));
    expect(Object.keys(plan)).not.toContain('ready');
    expect(Object.keys(plan)).not.toContain('finishing');
    expect(plan.steps.map(({ kind }) => kind).slice(-2)).toEqual(['demold', 'finish']);
    expect(plan.steps.every((step) => !('finishing' in step))).toBe(true);
  });

  it('trims, rests until hard, bevels, sands and polishes one after the other, and leaves the pours as they were', () => {
    const plan = planOf(slab({ top: 'polished' }));
    expect(plan.finish).toBe('2026-05-06T08:30');
    expect(spans(plan, 'trim')).toEqual([['05-06T08:30', '05-06T08:45']]);
    expect(spans(plan, 'rest')).toEqual([['05-06T08:45', '05-11T08:30']]);
    // 4 × (200 + 120 + 20) mm of edges at a quarter of an hour a meter: 0.34 h, in quarters 0.5.
    expect(spans(plan, 'edges')).toEqual([['05-11T08:30', '05-11T09:00']]);
    // 240 cm²: 2.4 × (0.1 + 10 grits × 0.05) = 1.44 h; 2.4 × 0.15 = 0.36 h.
    expect(spans(plan, 'sand')).toEqual([['05-11T09:00', '05-11T10:30']]);
    expect(spans(plan, 'polish')).toEqual([['05-11T10:30', '05-11T11:00']]);
    expect(plan.ready).toBe('2026-05-11T11:00');
    expect(plan.finishing!.handsH).toBe(0.25 + 0.5 + 1.5 + 0.5);
    expect(plan.finishing!.faces[0].grits).toEqual([180, 240, 320, 400, 600, 800, 1000, 1500, 2000, 3000]);
    expect(plan.pours).toEqual(planOf(slab(undefined)).pours);
  });

  it('takes the hours that were typed, and goes on the next day', () => {
    const plan = planOf(slab({ top: 'sanded', sides: 'sanded', edgeMm: 0, hours: { trim: 1, sand: 14 } }));
    expect(spans(plan, 'trim')).toEqual([['05-06T08:30', '05-06T09:30']]);
    expect(spans(plan, 'edges')).toEqual([]);
    const sand = stepsFor(plan, 'sand');
    // Sides 2 × (200 + 120) × 20 = 128 cm², top 240: 14 h are shared 128 : 240, to whole minutes up.
    expect(sand.map(({ finishing }) => finishing!.face)).toEqual(['sides', 'top']);
    expect(spans(plan, 'sand')).toEqual([['05-11T08:30', '05-11T13:23'], ['05-12T08:00', '05-12T17:08']]);
    // Longer than any stretch of hours: it goes on the next morning.
    expect(spans(planOf(slab({ top: 'sanded', edgeMm: 0, hours: { sand: 14 } })), 'sand')).toEqual([['05-11T08:30', '05-11T20:00'], ['05-12T08:00', '05-12T10:30']]);
  });

  it('coats face by face, each lying until it is firm, the show face last, and is done when the last is hard', () => {
    const plan = planOf(slab({ top: 'flood-coat', bottom: 'flood-coat', edgeMm: 0, coat: { formula: 'coat' } }));
    // 2.4 × (0.1 + 4 × 0.05) = 0.72 h of sanding each.
    expect(spans(plan, 'sand')).toEqual([['05-11T08:30', '05-11T09:15'], ['05-11T09:15', '05-11T10:00']]);
    expect(plan.finishing!.coats.map(({ face }) => face)).toEqual(['bottom', 'top']);
    expect(spans(plan, 'coat')).toEqual([['05-11T10:00', '05-11T10:30'], ['05-12T10:30', '05-12T11:00']]);
    expect(plan.finishing!.coats[0]).toMatchObject({ opens: '2026-05-11T14:30', closes: '2026-05-11T22:00', firm: '2026-05-12T10:30', scuffable: '2026-05-12T06:30' });
    expect(plan.ready).toBe('2026-05-15T11:00');
    const downwards = planOf({ ...slab({ top: 'flood-coat', bottom: 'flood-coat', coat: { formula: 'coat' } }), cast: 'face-down' });
    expect(downwards.finishing!.coats.map(({ face }) => face)).toEqual(['top', 'bottom']);
  });

  it('lets a quick coat lie 12 h all the same', () => {
    const quick = { ...COAT, demoldH: 6, fullCureH: 10 };
    const plan = planOf({ ...slab({ top: 'flood-coat', bottom: 'flood-coat', edgeMm: 0, coat: { formula: 'coat' } }), formulas: [...FORMULAS.slice(0, 2), quick] });
    expect(plan.finishing!.coats[0].firm).toBe('2026-05-11T22:30');
    expect(spans(plan, 'coat')[1][0]).toBe('05-12T08:00');
  });

  it('leaves nothing liquid while someone sleeps there', () => {
    const night = { room: { temperatureC: 23, sleep: [{ days: 'Mon-Sun', from: '22:00', to: '07:00' }] }, bench: { start: '2026-05-04T08:00', hours: [{ days: 'Mon-Sun', from: '08:00', to: '23:00' }] } };
    // Sanding takes until 18:30; tacky four hours after half an hour of pouring would be 23:00.
    const plan = planOf(slab({ top: 'flood-coat', edgeMm: 0, hours: { sand: 10 }, coat: { formula: 'coat' } }, night));
    expect(spans(plan, 'sand')).toEqual([['05-11T08:30', '05-11T18:30']]);
    expect(spans(plan, 'coat')).toEqual([['05-12T08:00', '05-12T08:30']]);
    // A coat that is tacky after 16 h has no start between 07:00 and 22:00.
    const slow = planOf(slab({ top: 'flood-coat', coat: { formula: 'coat' } }, { ...night, formulas: [...FORMULAS.slice(0, 2), { ...COAT, bondOpensH: 16, bondClosesH: 20 }] }));
    expect(slow.findings.find(({ code, subject }) => code === 'cures-in-sleep' && subject === 'finish')?.severity).toBe('caution');
  });

  it('never rests a low-viscosity casting less than seven days, whatever its label says', () => {
    const plan = planOf({ ...slab({ top: 'sanded' }), formulas: [{ ...TL, fullCureH: 60 }, TG, COAT] });
    expect(spans(plan, 'rest')[0][1]).toBe('05-11T08:30');
  });

  it('finishes only the top of a piece that stays in its mold, and does not sand a painted top that is coated', () => {
    const kept = planOf(slab({ top: 'polished', sides: 'polished', bottom: 'flood-coat' }, { mold: { shape: 'box', lengthMm: 200, widthMm: 120, heightMm: 60, keep: true } }));
    expect(kept.finishing!.faces.map(({ face }) => face)).toEqual(['top']);
    expect(kept.findings.map(({ code }) => code)).toContain('face-in-mold');
    expect(stepsFor(kept, 'edges', 'demold')).toEqual([]);
    const painted = planOf(slab({ top: 'flood-coat', coat: { formula: 'coat' } }, { placements: [{ id: 'p', kind: 'plane', name: 'Ripples', atMm: 20 }] }));
    expect(stepsFor(painted, 'sand')).toEqual([]);
    expect(stepsFor(painted, 'coat')).toHaveLength(1);
    // Trade §6: no flame near paint, silicone or what burns.
    expect(stepsFor(painted, 'coat')[0].text).toContain('no flame here');
    const box = planOf(slab({ top: 'flood-coat', coat: { formula: 'coat' } }, { mold: { shape: 'box', lengthMm: 200, widthMm: 120, heightMm: 60, keep: true, material: 'wood' } }));
    expect(stepsFor(box, 'coat')[0].text).toContain('no flame here');
  });

  it('takes as long again for each copy, and mixes the coats of all of them', () => {
    const [one, three] = [1, 3].map((copies) => planOf(slab({ top: 'flood-coat', edgeMm: 0, hours: { sand: 1 }, coat: { formula: 'coat' } }, { copies })));
    const minutes = (plan: Plan, work: string) => stepsFor(plan, work).reduce((sum, { from, to }) => sum + (Date.parse(`${to}Z`) - Date.parse(`${from}Z`)) / 60_000, 0);
    expect([minutes(one, 'sand'), minutes(three, 'sand')]).toEqual([60, 180]);
    const [single, all] = [one, three].map((plan) => plan.finishing!.coats[0]);
    expect(all.netMl).toBe(single.netMl);
    expect(all.mixMl - 8 * all.batches.length).toBeCloseTo(3 * (single.mixMl - 8 * single.batches.length), 9);
  });
});

describe('a flood coat', () => {
  const coated = (mm: number) => planOf({ ...slab({ top: 'flood-coat', coat: { formula: 'coat', mm } }), mold: { shape: 'box', lengthMm: 250, widthMm: 200, heightMm: 60 } });

  it.each([[2, 100], [3, 150]])('of %d mm on 500 cm² is %d mL, as the trade has it', (mm, ml) => {
    const [coat] = coated(mm).finishing!.coats;
    expect(coat.areaCm2).toBeCloseTo(500, 9);
    expect(coat.netMl).toBeCloseTo(ml, 9);
  });

  it('from bottles 10 °C warmer than the room is usable for half as long (a rate doubles every 10 °C)', () => {
    const usable = (bench: object) => planOf(slab({ top: 'flood-coat', coat: { formula: 'coat' } }, { bench: Object.assign({}, scene({}).bench, bench) })).finishing!.coats[0].batches[0].usableMin;
    expect(usable({ bottlesC: 33 }) / usable({})).toBeCloseTo(0.5, 9);
    expect(usable({ bottlesC: 15 })).toBe(usable({}));
  });

  it('is mixed and weighed as a pour is', () => {
    const [coat] = coated(2).finishing!.coats;
    // 105 mL with the allowance, 113.4 g; a cup of 60 g takes 51.36 beside what stays in it: three cups, 129 mL.
    expect(coat.batches).toHaveLength(3);
    expect(coat.mixMl).toBeCloseTo(129, 9);
    // 43 mL: 21.5 of A, 24.94 g; then × (1 + 1/1.16).
    expect(coat.batches[0].partA.g).toBeCloseTo(24.94, 9);
    expect(coat.batches[0].scaleStopsG[0]).toBeCloseTo(24.9, 9);
    expect(coat.batches[0].scaleStopsG[1]).toBeCloseTo(46.4, 9);
  });

  it('covers the whole wall of a box: four sides of a leaning one by their slant', () => {
    const mold = { shape: 'box', lengthMm: 200, widthMm: 120, heightMm: 60, draftDeg: 10, cornerRadiusMm: 5 };
    const { coats } = planOf(slab({ sides: 'flood-coat', coat: { formula: 'coat' } }, { mold })).finishing!;
    // Mean length 200 + 20·tan 10°, less 2 radii, plus half of two quarter circles; slant 20 / cos 10°.
    const slant = 20 / Math.cos(Math.PI / 18);
    const wall = (length: number) => ((length + 20 * Math.tan(Math.PI / 18) - 10 + (5 * Math.PI) / 2) * slant) / 100;
    expect(coats.map(({ face }) => face)).toEqual(['front', 'right', 'back', 'left']);
    expect(coats[0].areaCm2).toBeCloseTo(wall(200), 9);
    expect(coats[1].areaCm2).toBeCloseTo(wall(120), 9);
  });

  it('is not tried on a round side, which is polished and told', () => {
    const plan = planOf(slab({ sides: 'flood-coat' }, { mold: { shape: 'round', diameterMm: 150, heightMm: 60 } }));
    expect(plan.finishing!.coats).toEqual([]);
    // π × 150 × 20 mm².
    expect(plan.finishing!.faces[0]).toMatchObject({ finish: 'polished', areaCm2: (Math.PI * 150 * 20) / 100 });
    expect(plan.findings.map(({ code }) => code)).toContain('round-side');
  });

  it('is in the shopping and in what the pours cost', () => {
    const plan = planOf({ ...slab({ top: 'flood-coat', coat: { formula: 'coat' } }), plan: { pourCost: 3 }, labor: { currency: 'USD' } });
    expect(plan.shopping.map(({ formula, mixMl }) => [formula, mixMl])).toEqual([['TL', plan.pours[0].mixMl], ['coat', plan.finishing!.coats[0].mixMl]]);
    expect(plan.cost!.consumables).toBe(6);
  });

  it('says do not pour, and gives no amounts, where its label contradicts itself', () => {
    const plan = planOf({ ...slab({ top: 'flood-coat', coat: { formula: 'coat' } }), formulas: [...FORMULAS.slice(0, 2), { ...COAT, ratioByMass: [100, 100] }] });
    expect(plan.findings.find(({ severity }) => severity === 'halt')).toMatchObject({ code: 'ratio-conflict', subject: 'formula coat', pours: [] });
    expect(stepsFor(plan, 'coat')[0].text).toMatch(/^DO NOT POUR\. Coat: 100:100 by weight/);
    expect(plan.finishing!.coatHalt).toContain('DO NOT POUR');
  });

  it('is told where it is too thin to level, or too little to weigh', () => {
    const plan = planOf({ ...slab({ top: 'flood-coat', coat: { formula: 'coat', mm: 1 } }), bench: { start: '2026-05-04T08:00', scaleG: 0.5 } });
    expect(plan.findings.filter(({ subject }) => subject === 'finish').map(({ code, severity }) => [code, severity])).toEqual(expect.arrayContaining([['coat-too-thin', 'caution'], ['scale-coarse', 'caution']]));
  });
});

describe('a warm rest', () => {
  const warm = (postCure: object, more: object = {}) => planOf(slab({ top: 'sanded', edgeMm: 0, postCure }, more));
  const figure = (parts: object) => ({ placements: [{ id: 'n', kind: 'figure', name: 'Newt', shape: { type: 'sphere', radiusMm: 4 }, hold: 'rod', baseMm: 8, massG: 1, ...parts }] });
  const told = (plan: Plan) => plan.findings.find(({ code }) => code === 'warm-rest-lowered')?.message;

  it('goes up and down by 10 °C an hour, first to 40 °C for four hours, in the mold', () => {
    const plan = warm({ temperatureC: 50, hours: 6 });
    // Set up 08:30 to 08:45; 1.7 h, 4 h, 1 h, 6 h, 2.7 h.
    expect(plan.finishing!.warmRest).toEqual({ temperatureC: 50, from: '2026-05-06T08:45', to: '2026-05-07T00:09' });
    expect(spans(plan, 'demold')[0][0]).toBe('05-07T00:09');
    expect(plan.finish).toBe('2026-05-06T08:30');
    // Of 168 h at 23 °C: 48.25 until then; 1 + 0.7 × 2 rising; 4 × 2^1.7; 2^1.7; 6 × 2^2.7; 2^1.7 + 2^0.7 + 0.7 falling: 56.54 h left.
    expect(spans(plan, 'rest')[0][1]).toBe('05-09T08:42');
  });

  it('needs no stage on the way to 40 °C', () => {
    expect(warm({ temperatureC: 40, hours: 4 }).finishing!.warmRest).toMatchObject({ from: '2026-05-06T08:45', to: '2026-05-06T16:09' });
  });

  it.each<[string, object, object, number | null, RegExp]>([
    ['no label is known to allow more', { temperatureC: 60, hours: 4 }, {}, 50, /no label is known that allows more than 50.°C\. It is planned at 50.°C/],
    ['the label does', { temperatureC: 60, hours: 4, labelC: 55 }, {}, 55, /label allows 55.°C/],
    ['a figure stands less', { temperatureC: 50, hours: 4 }, figure({ limitC: 42 }), 42, /Newt stands 42.°C/],
    ['a figure is of PLA', { temperatureC: 40, hours: 4 }, figure({ material: 'pla' }), null, /Newt bears no warm rest\. It rests in the room/],
    ['a figure is of wax', { temperatureC: 40, hours: 4 }, figure({ material: 'wax' }), null, /Newt bears no warm rest/],
    ['its mold softens', { temperatureC: 90, hours: 4, labelC: 100 }, { mold: { shape: 'box', lengthMm: 200, widthMm: 120, heightMm: 60, material: 'foam' } }, 70, /its mold softens near 70.°C/],
  ])('is never warmer than what bears it: %s', (_why, asked, more, warmC, says) => {
    const plan = warm(asked, more);
    expect(plan.finishing!.warmRest?.temperatureC ?? null).toBe(warmC);
    expect(told(plan)).toMatch(says);
    if (warmC === null) expect(spans(plan, 'rest')[0][1]).toBe('05-11T08:30');
  });

  it('is not told of where it is borne', () => {
    expect(told(warm({ temperatureC: 45, hours: 4 }, figure({ material: 'petg' })))).toBeUndefined();
  });
});

describe('what sanding takes', () => {
  const margin = (finishing: object, placements: object[]) => planOf(slab(finishing, { placements })).findings.find(({ code }) => code === 'sanding-margin');

  it('is told, with what is left', () => {
    expect(margin({ top: 'sanded', bottom: 'polished' }, [])).toMatchObject({ severity: 'note', message: 'Sanding takes 2 to 3\u00a0mm off the bottom and the top. Of 20\u00a0mm of height 14 to 16\u00a0mm are left.' });
    expect(margin({ top: 'as-cast' }, [])).toBeUndefined();
  });

  it('is a caution where it would reach something', () => {
    const near = [{ id: 'p', kind: 'plane', name: 'Lilies', atMm: 17.5 }, { id: 'q', kind: 'plane', name: 'Mud', atMm: 4 }, { id: 's', kind: 'figure', name: 'Snail', shape: { type: 'sphere', radiusMm: 4 }, xMm: 94, baseMm: 6, massG: 1, hold: 'rod' }];
    expect(margin({ top: 'sanded', sides: 'sanded' }, near)).toMatchObject({ severity: 'caution', message: expect.stringContaining('It would reach Snail at the right side and Lilies at the top.') });
    expect(margin({ bottom: 'sanded' }, near)?.severity).toBe('note');
  });
});

describe('what the finish costs', () => {
  const cost = (labor: object) => planOf(slab({ top: 'polished', cost: 12.5 }, { labor: { currency: 'USD', ...labor } })).cost!;

  it('counts its hours where none are typed, and what it uses up', () => {
    // Half an hour of pouring and the 2.75 h above.
    expect(cost({ perHour: 20 }).labor).toEqual({ hours: 3.25, perHour: 20, amount: 65 });
    expect(cost({ perHour: 20, finishH: 1 }).labor.hours).toBe(1.5);
    expect(cost({ perHour: 20, finishH: 0 }).labor.hours).toBe(0.5);
    expect(cost({ perHour: 20, hours: 9 }).labor.hours).toBe(9);
    expect(cost({ consumables: 4 }).consumables).toBe(16.5);
  });
});

describe('a wanted day', () => {
  it('is that of the finished piece', () => {
    const wanted = (readyBy: string) => planOf(slab({ top: 'polished' }, { bench: { start: '2026-05-04T08:00', readyBy } })).findings.filter(({ code }) => code === 'ready-by');
    expect(wanted('2026-05-11T09:00')).toEqual([expect.objectContaining({ severity: 'caution', message: expect.stringContaining('2\u00a0h after Mon') })]);
    expect(wanted('2026-05-12T11:00')).toEqual([expect.objectContaining({ severity: 'note', message: expect.stringContaining('1\u00a0d before Tue') })]);
  });
});

describe('reading it', () => {
  it.each([
    [{ top: 'glossy' }, 'finishing.top'],
    [{ edgeMm: -1 }, 'finishing.edgeMm'],
    [{ base: 'gold' }, 'finishing.base'],
    [{ hours: { sand: -1 } }, 'finishing.hours.sand'],
    [{ hours: { coat: 0 } }, 'finishing.hours.coat'],
    [{ postCure: { temperatureC: 50 } }, 'finishing.postCure.hours'],
    [{ postCure: { temperatureC: 400, hours: 4 } }, 'finishing.postCure.temperatureC'],
    [{ top: 'flood-coat', coat: { formula: 'nothing' } }, 'finishing.coat.formula'],
    [{ top: 'flood-coat', coat: { formula: 'coat', mm: 4.1 } }, 'finishing.coat.mm'],
    [{ top: 'flood-coat', coat: { formula: 'coat' }, hours: { coat: 12 } }, 'finishing.hours.coat'],
    [{ cost: Infinity }, 'finishing.cost'],
    ['polished', 'finishing'],
  ])('refuses %j with its path', (finishing, path) => {
    const problems = problemsOf(slab(finishing as object));
    expect(problems.map((problem) => problem.split(':')[0])).toEqual([path]);
    expect(problems[0]).toMatch(/found|missing|has no/);
    expect(problems[0]).toContain('expected');
  });

  it('asks nothing of a coat that is not made', () => {
    expect(problemsOf(slab({ top: 'sanded', coat: { formula: 'nothing', mm: 20 } }))).toEqual([]);
  });
});
