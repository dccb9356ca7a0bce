/**
 * What if: hand arithmetic on the invented formulas of the acceptance cases, by the contract's clocks; rates double per 10 °C
 * (common practice, no source). A change tried gives the plan of a document written with it, to the last digit.
 */
import { describe, expect, it } from 'vitest';
import { GOAL_SEARCH } from '../../../src/core/plan/best/goal-search.ts';
import { planScene } from '../../../src/core/plan/plan-scene.ts';
import { tried, whatIf, type Trial, type WhatIf } from '../../../src/core/plan/what-if.ts';
import { readTrials } from '../../../src/core/plan/what-if-text.ts';
import { readScene } from '../../../src/core/scene/read.ts';
import type { Scene } from '../../../src/core/scene/scene.ts';
import { sceneFile, type SceneFile } from '../../../src/core/scene/edit/file.ts';
import { minutesOf } from '../../plan/check-time.ts';
import { planJson } from '../../plan/plan-json.ts';
import { NO_BOOLEANS, planOf, scene, TG, TL, type SceneParts } from '../../plan/planning.ts';
import { randomScene } from '../../plan/random-scenes.ts';

const FIRST_SEED = 41_000;
const SCENES = 20;

function fileOf(document: object): SceneFile {
  const read = sceneFile(document);
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return read.file;
}

function trialsOf(file: SceneFile, text: string): readonly Trial[] {
  const read = readTrials(text, file);
  if (!read.ok) throw new Error(read.reason);
  return read.trials;
}

function asked(document: object, change: string): WhatIf {
  const file = fileOf(document);
  const plan = planOf(document);
  const before = { plan, scene: sceneOf(document) };
  const result = whatIf(file, before, { change, trials: trialsOf(file, change), plan: (scene, notes) => planScene(scene, { meshes: new Map(), search: GOAL_SEARCH, booleans: NO_BOOLEANS, notes, heat: null }) });
  if (!result.ok) throw new Error(result.reason);
  return result.answer;
}

function sceneOf(document: object): Scene {
  const reading = readScene(document);
  if (!reading.ok) throw new Error(JSON.stringify(reading.problems));
  return reading.scene;
}

function fileAfter(document: object, change: string): SceneFile {
  const file = fileOf(document);
  const edit = tried(file, trialsOf(file, change));
  if (!edit.ok) throw new Error(edit.reason);
  return edit.file;
}

const said = (parts: SceneParts, change: string, more: object = {}) => asked({ ...scene(parts), ...more }, change).sentence.replaceAll('\u00a0', ' ');
const PLANES = [8, 14, 20, 26, 32, 38].map((atMm, i) => ({ id: `p${i}`, name: `Plane ${i}`, kind: 'plane', atMm, paintH: 3, dryH: 12 }));

describe('the sentence', () => {
  it('tells days: a room 10 °C colder doubles 48 h to the demold', () => {
    expect(said({ fillMm: 6 }, 'room=13 C')).toBe('At 13 °C: 2 d later.');
    expect(said({ fillMm: 6 }, 'room=55.4 F')).toBe('At 13 °C: 2 d later.');
    expect(asked(scene({ fillMm: 6 }), 'room=13 C')).toMatchObject({ finish: '2026-05-08T08:30', laterMin: 2880, pours: 1, costTotal: null, newHalts: [] });
  });

  it('tells what drying buys: the case of six planes, 5½ days', () => {
    const parts = { fillMm: 44, placements: PLANES, bench: { start: '2026-05-04T19:30', watchH: 0 } };
    expect(said(parts, 'dry=8 h')).toBe('With planes drying 8 h: 5 d 12½ h sooner.');
    // Of the last plane alone: dry at 19:30 instead of 23:30, so its pour comes the evening before 08:00.
    expect(said(parts, 'dry:p5=8 h')).toBe('With Plane 5 drying 8 h: 12½ h sooner.');
  });

  it('takes up what the plan itself offers, and it buys what was said', () => {
    const own = [...PLANES.slice(0, 5), { ...PLANES[5], dryH: 6 }];
    const slow = scene({ fillMm: 44, placements: own, bench: { start: '2026-05-04T19:30', watchH: 0 } });
    const offered = planOf(slow).findings.find(({ code }) => code === 'drying-days')!;
    // The sixth dries in 6 h as it is.
    expect(offered.whatIf).toBe('dry:p0=8 h; dry:p1=8 h; dry:p2=8 h; dry:p3=8 h; dry:p4=8 h');
    const taken = asked(slow, offered.whatIf!);
    expect(planOf(fileAfter(slow, offered.whatIf!)).findings.some(({ code }) => code === 'drying-days')).toBe(false);
    expect(taken.sentence).toMatch(/^With 5 planes drying 8\u00a0h: /);
    const bought = /: ([^,;]*) sooner\.$/.exec(taken.sentence)![1];
    expect(offered.message).toContain(`bring the end ${bought} closer`);
  });

  it('tells pours and grams of another formula', () => {
    // 720 mL net. TL: two pours, 772 mL mixed: A 591.9, B 249.6 g, the second at 18:30, out 48 h after 19:00.
    // TG: three of 10 mm, 780 mL: A 452.4, B 390.0 g, the last at 19:00, out 36 h after 19:30.
    expect(said({ fillMm: 30 }, 'formula:TL=TG')).toBe('With TG in place of TL: 11½ h sooner, one more pour, 139 g less resin, 140 g more hardener.');
    expect(said({ fillMm: 30 }, 'fill:1=TG')).toBe('With TG: 11½ h sooner, one more pour, 139 g less resin, 140 g more hardener.');
    expect(said({ fillMm: 30, fills: [{ toMm: 30, formula: 'TG' }] }, 'formula:TG=TL')).toBe('With TL in place of TG: 11½ h later, one fewer pour, 139 g more resin, 140 g less hardener.');
  });

  it('tells money line by line: used up, and whole kits', () => {
    const formulas = [{ ...TL, price: { kitMl: 500, amount: 10, currency: 'USD' } }, { ...TG, price: { kitMl: 1000, amount: 30, currency: 'USD' } }];
    // 772 mL at 0.02 against 780 at 0.03; two kits of 10 against one of 30.
    expect(said({ fillMm: 30, formulas }, 'fill:1=TG')).toContain('7.96 USD more in all, 10.00 USD more to pay out');
  });

  it('tells first what must not be poured, and what may be again', () => {
    // 2.9 mm is within 0.6 of TG's least 3 mm and under 0.6 of TL's 5 mm.
    const thin = { fillMm: 2.9, fills: [{ toMm: 2.9, formula: 'TG' }] };
    expect(said(thin, 'formula:TG=TL')).toMatch(/^With TL in place of TG: do not pour then, pour 1 would be too thin; 12 h later, /);
    expect(asked(scene(thin), 'formula:TG=TL').newHalts.map(({ code }) => code)).toEqual(['layer-too-thin']);
    expect(said({ fillMm: 2.9 }, 'formula:TL=TG')).toMatch(/^With TG in place of TL: 12 h sooner, .*; pour 1 is no longer too thin\.$/);
    expect(said({ fillMm: 2.9 }, 'room=13 C')).toBe('At 13 °C: 2 d later; what must not be poured now must not be poured then either.');
  });

  it('tells which joints change, and why', () => {
    // Tacky from 18:30 to 20:00; an hour with its watch ends at 19:30. Else scuffed on Wednesday, out 48 h after 09:00 instead of after Monday 19:00.
    const parts = { fillMm: 40, formulas: [{ ...TL, bondClosesH: 12 }] };
    expect(said(parts, 'hours=08:00-19:00')).toBe('With hands there 08:00 to 19:00: 1 d 14 h later; pour 1 now has to cure and be scuffed before pour 2, as its window, Mon 18:30 to Mon 20:00, leaves no hour of yours for a pour.');
    expect(said({ ...parts, bench: { hours: [{ days: 'Mon-Sun', from: '08:00', to: '19:00' }] } }, 'hours:Mon=08:00-20:00')).toBe('With hands there 08:00 to 20:00 on Mon: 1 d 14 h sooner; pour 2 now goes onto the tacky surface of pour 1, with no scuffing.');
    expect(said({ ...parts, bench: { hours: [{ days: 'Mon-Sun', from: '08:00', to: '19:00' }] } }, 'hours:2026-05-04=08:00-19:30')).toMatch(/^With hands there 08:00 to 19:30 on Mon 4 May: 1 d 14 h sooner; /);
    // 2^0.6 = 1.5157: 26 h from 08:00 are 17 h 9 min, into the night.
    expect(said({ fillMm: 40 }, 'room=29 C')).toMatch(/; the window of pour 1 now closes at night, 01:09\.$/);
  });

  it('tells what a day away costs', () => {
    // From Monday at 8:00 to Tuesday at 8:00.
    expect(said({ fillMm: 6 }, 'hours:2026-05-04=none')).toBe('With nobody at the bench on Mon 4 May: 1 d later.');
    expect(said({ fillMm: 6 }, 'hours:Mon=none')).toBe('With nobody at the bench on Mon: 1 d later.');
    expect(readTrials('hours=none', scene({ fillMm: 6 }) as never)).toMatchObject({ ok: false, reason: 'found “hours=none”; expected two clock times, like hours=08:00-22:00.' });
  });

  it('tells the day it is wanted by', () => {
    const bench = { readyBy: '2026-05-07T12:00' };
    expect(said({ fillMm: 6, bench }, 'room=13 C')).toBe('At 13 °C: 2 d later; too late for when you want it, done Fri 8 May, 08:30.');
    expect(said({ fillMm: 6, bench, room: { temperatureC: 13 } }, 'room=23')).toBe('At 23 °C: 2 d sooner; done by when you want it.');
  });

  it('waits for hours in which nobody sleeps there, and says where a change leaves none', () => {
    // Begun at 11:30 it is tacky at 22:00; at 13 °C, 20 h after 12:00, in the morning: no day is long enough.
    const parts = { fillMm: 6, bench: { start: '2026-05-04T11:30' } };
    const sleep = [{ days: 'Mon-Sun', from: '22:00', to: '07:00' }];
    expect(said({ ...parts, room: { temperatureC: 23, sleep } }, 'room=13')).toMatch(/^At 13 °C: there is no plan then\. room\.sleep: leaves no hours/);
    // At 33 °C it is tacky at 18:30 and comes out a day after 13:30; at 23 °C it waits for 08:00 and takes two.
    expect(said({ fillMm: 6, bench: { start: '2026-05-04T13:00' }, room: { temperatureC: 33, sleep } }, 'room=23')).toBe('At 23 °C: 1 d 19 h later.');
  });

  it('says so where nothing changes, and where there is no plan', () => {
    expect(said({ fillMm: 6 }, 'room=23')).toBe('At 23 °C: the plan stays as it is.');
    expect(said({ fillMm: 6 }, 'hours=08:00-08:30')).toMatch(/^With hands there 08:00 to 08:30: there is no plan then\. bench\.hours: found no 1 h at a stretch; expected /);
  });

  it('holds the room from beginning to end', () => {
    const room = { temperatureC: 23, profile: [{ from: '2026-05-04T19:00', temperatureC: 18 }] };
    const file = fileOf(scene({ fillMm: 6, room }));
    const edit = tried(file, [{ kind: 'room', temperatureC: 20 }]);
    expect(edit.ok && edit.file.room).toEqual({ temperatureC: 20 });
    expect(said({ fillMm: 6, room }, 'room=20')).toMatch(/^At 20 °C throughout: /);
  });
});

describe('a change tried', () => {
  /** By hand, in the document itself. */
  const written: readonly (readonly [string, (document: Record<string, never>) => object])[] = [
    ['room=18.5 C', (document) => ({ ...document, room: { temperatureC: 18.5 } })],
    ['watch=0', (document) => ({ ...document, bench: { ...(document.bench as object), watchH: 0 } })],
    ['hours=06:30-22:00', (document) => ({ ...document, bench: { ...(document.bench as object), hours: [{ days: 'Mon-Sun', from: '06:30', to: '22:00' }] } })],
  ];

  it.each(written)(`${'%s'}: seeds ${FIRST_SEED} to ${FIRST_SEED + SCENES - 1}, the plan of a document written so, to the last digit`, (change, write) => {
    for (let seed = FIRST_SEED; seed < FIRST_SEED + SCENES; seed++) {
      const drawn = randomScene(seed) as unknown as { placements?: { kind: string }[]; bench?: { hours?: unknown } };
      const document = { ...drawn, placements: drawn.placements?.filter(({ kind }) => kind === 'plane'), bench: { ...drawn.bench, hours: [{ days: 'Mon-Sun', from: '08:00', to: '20:00' }] } };
      const file = fileOf(document);
      const edit = tried(file, trialsOf(file, change));
      if (!edit.ok) throw new Error(`seed ${seed}: ${edit.reason}`);
      const plan = planJson(write(document as never), NO_BOOLEANS);
      expect(planJson(edit.file, NO_BOOLEANS), `seed ${seed}`).toEqual(plan);
      const answer = asked(document, change);
      expect([answer.finish, answer.laterMin], `seed ${seed}`).toEqual([plan.finish, minutesOf(plan.finish) - minutesOf(planJson(document, NO_BOOLEANS).finish)]);
    }
  });

  it('is one edit that leaves the scene it was tried on alone', () => {
    const file = fileOf(scene({ placements: PLANES, bench: { hours: [{ days: 'Mon-Fri', from: '08:00', to: '20:00' }, { days: 'Sat,Sun', from: '10:00', to: '16:00' }] } }));
    const before = JSON.stringify(file);
    const edit = tried(file, trialsOf(file, 'room=20 C; hours:Wed,Sat=07:00-21:00; dry:p1=8 h'));
    expect(JSON.stringify(file)).toBe(before);
    if (!edit.ok) throw new Error(edit.reason);
    expect(edit.file.bench!.hours).toEqual([{ days: 'Mon,Tue,Thu,Fri', from: '08:00', to: '20:00' }, { days: 'Sun', from: '10:00', to: '16:00' }, { days: 'Wed,Sat', from: '07:00', to: '21:00' }]);
    expect(edit.file.placements!.map((plane) => (plane.kind === 'plane' ? plane.dryH : null))).toEqual([12, 8, 12, 12, 12, 12]);
    expect(edit.label.replaceAll('\u00a0', ' ')).toBe('room at 20 °C, bench hours and plane 1: painting and drying');
  });

  it.each([
    ['', 'found nothing; expected room=20 C'],
    ['warm', 'found “warm”; expected room=20 C'],
    ['mood=20', 'found “mood=20”; expected room=20 C'],
    ['room=warm', 'expected a temperature like room=20 C or room=68 F'],
    ['room:p1=20', 'expected room=… alone'],
    ['hours=8-22', 'expected two clock times, like hours=08:00-22:00'],
    ['hours=08:00-25:00', 'expected two clock times'],
    ['hours:Moonday=08:00-20:00', 'expected days or a date'],
    ['formula=TG', 'expected which formula'],
    ['formula:zz=TG', 'expected a formula that is poured: TL'],
    ['fill:2=TG', 'expected fill:1=…, the only one'],
    ['dry:zz=8 h', 'expected a painted plane: p0, p1'],
    ['dry=-8 h', 'expected hours like dry=8 h'],
    ['watch=9999 h', 'expected hours like watch=0.5 h'],
    ['x'.repeat(20_001), 'found 20001 characters'],
  ])('refuses %j in words', (text, reason) => {
    const read = readTrials(text, fileOf(scene({ placements: PLANES })));
    expect(read).toEqual({ ok: false, reason: expect.stringContaining(reason) });
  });

  it('says what can’t be made of a change that can be read', () => {
    const file = fileOf(scene());
    expect(tried(file, trialsOf(file, 'fill:1=zz'))).toMatchObject({ ok: false, reason: expect.stringContaining('expected one of') });
    expect(tried(file, trialsOf(file, 'room=500'))).toMatchObject({ ok: false, reason: expect.stringContaining('expected a number from -40 to 120') });
    expect(readTrials('dry=8 h', file)).toMatchObject({ ok: false, reason: expect.stringContaining('no painted plane to dry') });
  });
});
