/** Damp air and warmed bottles. Borders are the trade's (common practice, no source): 65 % when pouring, 70 % and 20 °C for blush. */
import { describe, expect, it } from 'vitest';
import { dewPointC } from '../../../../src/core/cure/dew-point.ts';
import { simulatedHeat } from '../../../../src/core/plan/heat-simulated.ts';
import { planScene } from '../../../../src/core/plan/plan-scene.ts';
import { readScene } from '../../../../src/core/scene/read.ts';
import { mulberry32 } from '../../../plan/random-scenes.ts';
import { NO_BOOLEANS, planOf, problemsOf, scene } from '../../../plan/planning.ts';

const PLANE = { id: 'a', kind: 'plane', name: 'a', atMm: 20, dryH: 8 };
const of = (room: object, bench: object = {}) => planOf(scene({ fillMm: 40, placements: [PLANE], room, bench }));
const codes = (room: object, bench?: object) => of(room, bench).findings.filter(({ subject }) => subject === 'room' || subject === 'bench.bottlesC').map(({ code }) => code);
const scuffOf = (room: object) => of(room).steps.find(({ kind }) => kind === 'scuff')!.text;

describe('damp air', () => {
  it('is told over 65 % and from blush on, and never where nobody measured it', () => {
    expect(codes({ temperatureC: 23, humidity: 65 })).toEqual([]);
    expect(codes({ temperatureC: 23, humidity: 66 })).toEqual(['damp-air']);
    expect(codes({ temperatureC: 23, humidity: 71 })).toEqual(['damp-air', 'blush']);
    expect(codes({ temperatureC: 19, humidity: 50 })).toEqual(['blush']);
    expect(codes({ temperatureC: 20, humidity: 50 })).toEqual([]);
    expect(codes({ temperatureC: 12 })).toEqual([]);
  });

  it('asks for a wash before the scuff where blush is likely, and keeps the usual wash where it is not', () => {
    expect(scuffOf({ temperatureC: 23, humidity: 75 })).toMatch(/The air was damp while this set.*before you scuff, wash it with water, a drop of mild detergent and a clean pad.*dry it with fresh paper\. Then scuff/);
    expect(scuffOf({ temperatureC: 18 })).toMatch(/It was cold while this set/);
    expect(scuffOf({ temperatureC: 23, humidity: 50 })).toMatch(/Wash the surface with water and a drop of detergent, dry it with fresh paper, scuff it all over/);
  });

  it('goes by the latest entry that says a humidity, at the hours that count', () => {
    const entry = (from: string, humidity?: number) => ({ from, temperatureC: 23, ...(humidity === undefined ? {} : { humidity }) });
    // The first pour sets from 08:00 to 18:30 on the 4th, the second from the 6th on.
    expect(of({ temperatureC: 23, humidity: 50, profile: [entry('2026-05-04T12:00', 80), entry('2026-05-04T19:00'), entry('2026-05-05T00:00', 50)] }).findings.find(({ code }) => code === 'blush')?.pours).toEqual([1]);
    expect(codes({ temperatureC: 23, humidity: 50, profile: [entry('2026-05-04T19:00', 80), entry('2026-05-05T00:00', 50)] })).toEqual([]);
  });

  it('warns of water on bottles and molds colder than the dew point, and not of those above it', () => {
    // 23 °C and 60 %: dew at 14.8 °C.
    expect(dewPointC(23, 60)).toBeCloseTo(14.8, 1);
    expect(codes({ temperatureC: 23, humidity: 60 }, { bottlesC: 14 })).toEqual(['condenses', 'bottles-cold']);
    expect(codes({ temperatureC: 23, humidity: 60 }, { bottlesC: 15.5 })).toEqual(['bottles-cold']);
    const warmed = (c: number) => codes({ temperatureC: c, humidity: 60, profile: [{ from: '2026-05-04T07:00', temperatureC: 23 }] });
    expect(warmed(10)).toContain('condenses');
    expect(warmed(16)).not.toContain('condenses');
  });

  it('is refused where it can’t be', () => {
    expect(problemsOf(scene({ room: { humidity: 120 } }))).toEqual(['room.humidity: found 120; expected a number from 0 to 100 %.']);
    expect(problemsOf(scene({ bench: { bottlesC: 90 } }))).toEqual(['bench.bottlesC: found 90; expected a number from -10 to 60 °C.']);
  });
});

describe('bottles', () => {
  const minutes = (bottlesC?: number, roomC = 23) => of({ temperatureC: roomC }, bottlesC === undefined ? {} : { bottlesC }).pours[0].batches[0].usableMin;

  it('warmed by 10 °C halve the usable minutes (rate doubles per 10 °C: common practice, no source)', () => {
    expect(minutes(33) / minutes()).toBeCloseTo(0.5, 12);
    // Trade, worked out: 35 °C leaves 0.4 of the pot life.
    expect(minutes(35) / minutes()).toBeCloseTo(0.435, 3);
  });

  it('that are colder than the room, or as warm, change nothing, digit for digit', () => {
    const pours = (bottlesC?: number) => of({ temperatureC: 23 }, bottlesC === undefined ? {} : { bottlesC }).pours;
    for (const c of [5, 23]) expect(pours(c)).toEqual(pours());
  });

  it('are told on the step, with how thick and how quick the mix is', () => {
    // 25 to 35 °C: ×0.4559 as thick (physics §5, recomputed), ×0.5 of the minutes.
    expect(of({ temperatureC: 25 }, { bottlesC: 35 }).steps.find(({ kind }) => kind === 'pour')!.text).toContain('Bottles at 35\u00a0°C: the mix runs 46\u00a0% as thick as at 25\u00a0°C and keeps 50\u00a0% of its minutes.');
  });

  it('never give more minutes or depth the warmer they are, in 60 random rooms', () => {
    for (let seed = 0; seed < 60; seed++) {
      const next = mulberry32(seed);
      const roomC = 15 + 15 * next();
      const given = [undefined, 10 + 10 * next(), 20 + 10 * next(), 30 + 20 * next()].map((c) => minutes(c, roomC));
      for (let i = 1; i < given.length; i++) expect(given[i], `seed ${seed}`).toBeLessThanOrEqual(given[i - 1]);
    }
  });

  it('too warm for a cup to be poured in the minutes that are asked for leave no plan', () => {
    const asked = (bottlesC: number) => problemsOf({ ...scene({ fillMm: 20, bench: { bottlesC } }), plan: { goal: 'fewest', cupMin: 30 } });
    // 0.7 × 90 min, less by the cup's mass: 35.5 min of 558 g at 23 °C, 15.5 at 35.
    expect(asked(23)).toEqual([]);
    expect(asked(35)[0]).toMatch(/^plan\.cupMin: found 30 min/);
  });

  it('make a simulated pour and its cup no cooler, and no deeper', () => {
    const heat = simulatedHeat([], { members: 'mean' });
    const first = (bottlesC?: number) => {
      const reading = readScene({ ...scene({ fillMm: 20, room: { temperatureC: 23 }, bench: bottlesC === undefined ? {} : { bottlesC } }), heat: { model: 'simulated' } });
      if (!reading.ok) throw new Error(JSON.stringify(reading.problems));
      const result = planScene(reading.scene, { meshes: new Map(), booleans: NO_BOOLEANS, heat });
      if (!result.ok) throw new Error(JSON.stringify(result.problems));
      return result.plan.pours[0];
    };
    const [cool, warm] = [first(), first(38)];
    expect(warm.heat!.rangeC[1]).toBeGreaterThanOrEqual(cool.heat!.rangeC[1]);
    expect(warm.heat!.rangeC[1]).toBeGreaterThanOrEqual(38);
    expect(warm.heat!.safeDepthMm).toBeLessThanOrEqual(cool.heat!.safeDepthMm);
    expect(warm.batches[0].heat!.endC[1]).toBeGreaterThan(cool.batches[0].heat!.endC[1]);
    expect(warm.batches[0].usableMin).toBeLessThan(cool.batches[0].usableMin);
  });
});
