/**
 * Hours of sleep by hand, on TL of the acceptance cases: poured in half an hour, tacky 10 h after that, no bond 26 h after its
 * start, scuffable after 36 h. Hands are there from 08:00 to 20:00, someone sleeps from 22:00 to 07:00: it has to begin by 11:30.
 */
import { describe, expect, it } from 'vitest';
import { GOAL_SEARCH } from '../../../src/core/plan/best/goal-search.ts';
import type { HeatJudge } from '../../../src/core/plan/heat-judge.ts';
import { planScene } from '../../../src/core/plan/plan-scene.ts';
import { readScene } from '../../../src/core/scene/read.ts';
import { parseLocalTime } from '../../../src/core/units/time.ts';
import { madeHeat } from '../../plan/made-heat.ts';
import { NO_BOOLEANS, scene, TL, type SceneParts } from '../../plan/planning.ts';

const HOUR = 60;
const night = (from = '22:00') => ({ temperatureC: 23, sleep: [{ days: 'Mon-Sun', from, to: '07:00' }] });

function planned(parts: SceneParts, { heat = null, more = {} }: { readonly heat?: HeatJudge | null; readonly more?: object } = {}) {
  const reading = readScene({ ...scene(parts), ...(heat && { heat: { model: 'simulated' } }), ...more });
  if (!reading.ok) throw new Error(JSON.stringify(reading.problems));
  return planScene(reading.scene, { meshes: new Map(), search: GOAL_SEARCH, booleans: NO_BOOLEANS, heat, compare: true });
}

function plan(...asked: Parameters<typeof planned>) {
  const result = planned(...asked);
  if (!result.ok) throw new Error(JSON.stringify(result.problems));
  return result.plan;
}

const joints = ({ pours }: ReturnType<typeof plan>) => pours.map(({ starts, route }) => [starts, route]);

describe('even pours where someone sleeps', () => {
  it('wait with the first, and with the next as long as its window is open', () => {
    // 40 mm in two of 20. The second may start from 18:30 to 09:30; by 22:00 it is tacky only from 08:00 on.
    const two = plan({ fillMm: 40, room: night(), bench: { start: '2026-05-04T13:00' } });
    expect(joints(two)).toEqual([['2026-05-05T08:00', null], ['2026-05-06T08:00', 'wet-on-tacky']]);
    expect(two.pours.map(({ why }) => why.replaceAll('\u00a0', ' '))).toEqual([expect.stringContaining('Begun sooner, on Mon 4 May, 13:00, it would be liquid while someone sleeps in the room.'), expect.stringContaining('Begun sooner, on Tue 5 May, 18:30, it would')]);
    expect(two.goals!.find(({ goal }) => goal === 'even')!.keeps).toBeUndefined();
  });

  it('cure and scuff where no start in the window will do, and say why', () => {
    // It closes at 04:00; scuffable at 20:30 the next day, so scuffed from 08:00 the day after.
    const two = plan({ fillMm: 40, formulas: [{ ...TL, bondClosesH: 20 }], room: night() });
    expect(joints(two)).toEqual([['2026-05-04T08:00', null], ['2026-05-06T08:30', 'cure-scuff-wipe']]);
    expect(two.findings.find(({ code }) => code === 'route-changed')!.message).toContain('a pour in those hours would be liquid while someone sleeps in the room');
  });

  it('part a scuff from its pour where the pour has to begin with the day', () => {
    // In a night from 18:30 on the pour begins at 08:00 sharp: scuffed at 20:30 by hands that stay until 21:00.
    const hours = [{ days: 'Mon-Sun', from: '08:00', to: '21:00' }];
    const two = plan({ fillMm: 40, formulas: [{ ...TL, bondClosesH: 20 }], room: night('18:30'), bench: { hours } });
    expect(joints(two)).toEqual([['2026-05-04T08:00', null], ['2026-05-06T08:00', 'cure-scuff-wipe']]);
    expect(two.steps.find(({ kind }) => kind === 'scuff')).toMatchObject({ from: '2026-05-05T20:30', to: '2026-05-05T21:00' });
  });

  it('tell the latest start that leaves nobody beside a liquid pour', () => {
    // The window takes a start until 09:30; it is tacky by 19:00 from 08:30 at the latest.
    const latest = (room: object) => plan({ fillMm: 40, room, bench: { watchH: 0 } }).pours[1].latestStart;
    expect(latest(night('19:00'))).toBe('2026-05-05T08:30');
    expect(latest({ temperatureC: 23 })).toBe('2026-05-05T09:30');
  });

  it('see the night after a start at the minute at which someone gets up', () => {
    // From 08:00, when they are up, it is tacky at 18:30: too late for a night from 18:00 on.
    const result = planned({ fillMm: 6, room: { temperatureC: 23, sleep: [{ days: 'Mon-Sun', from: '18:00', to: '08:00' }] } });
    expect(result).toMatchObject({ ok: false, problems: [{ path: 'room.sleep' }] });
  });
});

describe('heat that keeps a pour liquid for longer', () => {
  /** Tacky 15 h after the start instead of 10½, on the first day or on all. */
  const slow = (untilMin: number) => madeHeat((pour) => ({ windows: { opensMin: pour.fromMin < untilMin ? pour.fromMin + 15 * HOUR : null } }));

  it.each(['even', 'fewest', 'soonest', 'coolest', 'cheapest'])('%s: waits for a day on which it is tacky in time', (goal) => {
    const tuesday = parseLocalTime('2026-05-05T00:00')!;
    const made = plan({ fillMm: 6, room: night() }, { heat: slow(tuesday), more: { plan: { goal } } });
    for (const { starts, opens } of made.pours) expect([starts.slice(11) >= '07:00', opens.slice(0, 10) === starts.slice(0, 10) && opens.slice(11) <= '22:00'], starts).toEqual([true, true]);
  });

  it.each(['even', 'fewest', 'soonest', 'coolest', 'cheapest'])('%s: says where there is none', (goal) => {
    expect(planned({ fillMm: 6, room: night() }, { heat: slow(Infinity), more: { plan: { goal } } })).toMatchObject({ ok: false, problems: [{ path: 'room.sleep' }] });
  });
});

describe('a class', () => {
  it('pours nothing itself that would be liquid when someone sleeps there', () => {
    const taught = (room: object) => plan({ fillMm: 18, room }, { more: { class: { students: 4, at: '2026-05-08T14:00', hours: 3, youngest: 18, perStudent: { pour: true } } } }).class!;
    expect(taught({ temperatureC: 23 }).pours).toBe(1);
    expect(taught(night())).toMatchObject({ pours: null, why: expect.arrayContaining([expect.stringContaining('would still be liquid when someone sleeps in the room')]) });
  });
});
