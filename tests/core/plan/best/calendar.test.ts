/**
 * The best plan on a real calendar: hand arithmetic on the invented formulas of the acceptance cases, by the contract's clocks
 * (`closes` from the start of a pour, all else from its end).
 */
import { describe, expect, it } from 'vitest';
import { GOAL_SEARCH } from '../../../../src/core/plan/best/goal-search.ts';
import { planScene } from '../../../../src/core/plan/plan-scene.ts';
import type { Plan } from '../../../../src/core/plan/plan.ts';
import { readScene } from '../../../../src/core/scene/read.ts';
import { NO_BOOLEANS, problemsOf, scene, TL, type SceneParts } from '../../../plan/planning.ts';

const GOALS = ['fewest', 'soonest', 'coolest', 'cheapest'];

function plan(parts: SceneParts, wishes: object = {}): Plan {
  const reading = readScene({ ...scene(parts), plan: wishes });
  if (!reading.ok) throw new Error(JSON.stringify(reading.problems));
  const result = planScene(reading.scene, { meshes: new Map(), search: GOAL_SEARCH, booleans: NO_BOOLEANS, notes: reading.notes, heat: null, compare: true });
  if (!result.ok) throw new Error(JSON.stringify(result.problems));
  return result.plan;
}

const said = ({ findings }: Plan, code: string) => findings.find((finding) => finding.code === code);

describe('acceptance cases for every goal', () => {
  it.each(GOALS)('8, a cold night: %s to the minute', (goal) => {
    const room = { temperatureC: 23, profile: [{ from: '2026-05-04T19:00', temperatureC: 18 }, { from: '2026-05-05T08:00', temperatureC: 23 }] };
    const [pour] = plan({ fillMm: 6, room, bench: { start: '2026-05-04T19:30', watchH: 0 } }, { goal }).pours;
    expect([pour.starts, pour.opens, pour.closes]).toEqual(['2026-05-04T19:30', '2026-05-05T09:31', '2026-05-06T01:09']);
  });

  it.each(GOALS)('9, six painted planes: %s to the minute', (goal) => {
    const planes = (dryH: number) => [8, 14, 20, 26, 32, 38].map((atMm, i) => ({ id: `p${i}`, kind: 'plane', atMm, paintH: 3, dryH }));
    const slow = plan({ fillMm: 44, placements: planes(12), bench: { start: '2026-05-04T19:30', watchH: 0 } }, { goal });
    expect(slow.pours.map(({ starts }) => starts)).toEqual(['2026-05-04T19:30', ...[7, 10, 13, 16, 19, 22].map((day) => `2026-05-${String(day).padStart(2, '0')}T08:00`)]);
    expect(said(slow, 'drying-days')!.message).toContain('5\u00a0d 12½\u00a0h');
    const quick = plan({ fillMm: 44, placements: planes(8), bench: { start: '2026-05-04T19:30', watchH: 0 } }, { goal });
    expect(quick.pours[6].ends).toBe('2026-05-16T20:00');
  });

  it('9, watched for half an hour: what one evening buys, and what quick drying needs beside it', () => {
    const planes = (dryH: number) => [8, 14, 20, 26, 32, 38].map((atMm, i) => ({ id: `p${i}`, kind: 'plane', atMm, paintH: 3, dryH }));
    // Dry at 19:30 two days after each pour, and an hour with its watch ends at 20:30: one evening saves the night until 08:00,
    // and the next cycle, begun at 08:00 or in the evening, ends at 08:00 anyway: 72 h from a morning, 60 h from an evening.
    const quick = plan({ fillMm: 44, placements: planes(8), bench: { start: '2026-05-04T08:00' } });
    expect(said(quick, 'longer-day')!.message).toContain('Staying until 20:30 on Wed\u00a06\u00a0May would bring the end 1\u00a0d closer');
    expect(said(quick, 'longer-day')!.whatIf).toBe('hours:2026-05-06=08:00-20:30');
    const stayed = plan({ fillMm: 44, placements: planes(8), bench: { start: '2026-05-04T08:00', exceptions: [{ on: '2026-05-06', hours: [{ from: '08:00', to: '20:30' }] }] } });
    expect([quick.finish, stayed.finish]).toEqual(['2026-05-24T08:30', '2026-05-23T08:30']);
    expect(said(quick, 'longer-evenings')).toMatchObject({ message: 'Staying 30\u00a0min longer every evening would bring the end 5\u00a0d 12½\u00a0h closer.', whatIf: 'hours=08:00-20:30' });
    // Every evening until 20:30: each cycle is two days, the pour over the sixth plane on the 16th at 19:30, out 48 h after its end.
    const slow = plan({ fillMm: 44, placements: planes(12), bench: { start: '2026-05-04T08:00' } });
    expect(said(slow, 'drying-days')!.message).toContain('no closer, with these bench hours and 30\u00a0min of watching after each pour. With hands there 30\u00a0min longer every evening they would bring it 5\u00a0d 12½\u00a0h closer.');
    expect(plan({ fillMm: 44, placements: planes(8), bench: { start: '2026-05-04T08:00', hours: [{ days: 'Mon-Sun', from: '08:00', to: '20:30' }] } }).finish).toBe('2026-05-18T20:00');
  });

  it.each([0, 0.5])('says nothing of quicker drying where the night is longer anyway (watching %d h)', (watchH) => {
    // Scuffed by 08:30 and painted by 16:30, dry at 00:30 or at 04:30: hands are back at 08:00 either way.
    const planes = [8, 14].map((atMm, i) => ({ id: `p${i}`, kind: 'plane', atMm, paintH: 8, dryH: 12 }));
    const { pours, findings } = plan({ fillMm: 20, placements: planes, bench: { start: '2026-05-04T19:30', watchH } });
    expect(pours).toHaveLength(3);
    expect(findings.map(({ code }) => code)).not.toContain('drying-days');
  });

  it('7, a floater: locked by the fewest pours as by the even ones', () => {
    const prism = { id: 'f', kind: 'figure', name: 'Prism', baseMm: 20, massG: 5.4, hold: 'rests', shape: { type: 'box', lengthMm: 20, widthMm: 20, heightMm: 20 } };
    const { pours } = plan({ fillMm: 40, placements: [prism], formulas: [{ ...TL, densityAGPerMl: 1.1, densityBGPerMl: 1.1 }] }, { goal: 'fewest' });
    expect(pours.map(({ toMm, locks }) => [toMm, ...locks])).toEqual([[20], [29.5, 'f'], [40]]);
  });
});

describe('the calendar', () => {
  it('finds the longer day: a window from 20:05 to 20:35 on Monday, missed by a bench that shuts at 20:00', () => {
    // Pour 9:35 to 10:05, tacky after 10 h at 20:05, gone 11 h after the start. Else scuffed after 36 h, on Wednesday at 8:00.
    const narrow = { ...TL, bondClosesH: 11 };
    const even = plan({ fillMm: 40, formulas: [narrow], bench: { start: '2026-05-04T09:35' } });
    expect(even.pours[1].starts).toBe('2026-05-06T08:30');
    expect(said(even, 'longer-day')).toBeUndefined();
    const late = plan({ fillMm: 40, formulas: [narrow], bench: { start: '2026-05-04T09:35', watchH: 0 } });
    // From Monday 20:05 to Wednesday 8:30: 36 h 25 min. Only the pour has to fit: 20:35 is within an hour's stay.
    expect(said(late, 'longer-day')!.message).toContain('21:00 on Mon\u00a04\u00a0May');
    const stayed = plan({ fillMm: 40, formulas: [narrow], bench: { start: '2026-05-04T09:35', watchH: 0, exceptions: [{ on: '2026-05-04', hours: [{ from: '08:00', to: '21:00' }] }] } });
    expect([stayed.pours[1].starts, stayed.pours[1].latestStart, stayed.pours[1].route]).toEqual(['2026-05-04T20:05', '2026-05-04T20:05', 'wet-on-tacky']);
  });

  it('finds the earlier day: a window that has closed when the bench opens', () => {
    // Pour Monday 20:00 to 20:30, tacky from Tuesday 06:30 and gone 12 h after its start, at 08:00: begun at 07:30 the pour is in it.
    // Else it cures 36 h and is scuffed on Wednesday at 08:30: 25½ h later.
    const narrow = { ...TL, bondClosesH: 12 };
    const bench = { start: '2026-05-04T20:00', hours: [{ days: 'Mon-Sun', from: '08:00', to: '20:30' }], watchH: 0 };
    const late = plan({ fillMm: 40, formulas: [narrow], bench });
    expect(late.pours[1].starts).toBe('2026-05-06T09:00');
    expect(said(late, 'longer-day')!.message).toContain('Being there at 07:30 on Tue\u00a05\u00a0May would bring the end 1\u00a0d 1½\u00a0h closer');
    const early = plan({ fillMm: 40, formulas: [narrow], bench: { ...bench, exceptions: [{ on: '2026-05-05', hours: [{ from: '07:30', to: '20:30' }] }] } });
    expect([early.pours[1].starts, early.pours[1].route]).toEqual(['2026-05-05T07:30', 'wet-on-tacky']);
  });

  it('waits with the first pour where that lets the second into its window', () => {
    // Begun at 9:35 the window is missed (above); begun on Tuesday at 8:00 it is open from 18:30 to 19:00.
    const soonest = plan({ fillMm: 40, formulas: [{ ...TL, bondClosesH: 11 }], bench: { start: '2026-05-04T09:35', watchH: 0 } }, { goal: 'soonest' });
    expect(soonest.pours.map(({ starts, route }) => [starts, route])).toEqual([['2026-05-05T08:00', null], ['2026-05-05T18:30', 'wet-on-tacky']]);
  });

  it.each(['even', 'soonest'])('%s: by when to start to have it by Friday noon', (goal) => {
    // 48 h to demold from the end of half an hour's pour: by Wednesday 11:30.
    const wanted = plan({ fillMm: 6, bench: { readyBy: '2026-05-08T12:00' } }, { goal });
    expect(said(wanted, 'ready-by')).toMatchObject({ severity: 'note' });
    expect(said(wanted, 'ready-by')!.message).toContain('start by Wed\u00a06\u00a0May, 11:30');
    const late = plan({ fillMm: 6, bench: { readyBy: '2026-05-06T08:00' } }, { goal });
    expect(said(late, 'ready-by')).toMatchObject({ severity: 'caution' });
    expect(said(late, 'ready-by')!.message).toContain('30\u00a0min after Wed\u00a06\u00a0May, 08:00');
  });

  it.each(['even', 'soonest'])('%s: lets nothing go from liquid to tacky where someone sleeps', (goal) => {
    // Half an hour and 10 h: from 13:00 it would be tacky at 23:30; by 22:00 it must have begun by 11:30.
    const parts = { fillMm: 6, room: { temperatureC: 23, sleep: [{ days: 'Mon-Sun', from: '22:00', to: '07:00' }] }, bench: { start: '2026-05-04T13:00' } };
    expect(plan(parts, { goal }).pours[0].starts).toBe('2026-05-05T08:00');
    expect(problemsOf({ ...scene({ ...parts, room: { sleep: [{ days: 'Mon-Sun', from: '18:00', to: '12:00' }] } }), plan: { goal } })[0]).toMatch(/^room\.sleep: leaves no hours/);
  });

  it('keeps to the hours of single days', () => {
    const from = (exceptions: object[]) => plan({ fillMm: 6, bench: { exceptions } }).pours[0].starts;
    expect(from([{ on: '2026-05-04', until: '2026-05-06' }])).toBe('2026-05-07T08:00');
    expect(from([{ on: '2026-05-04', hours: [{ from: '10:15', to: '12:00' }] }])).toBe('2026-05-04T10:15');
    expect(from([{ on: '2026-05-03', hours: [{ from: '22:00', to: '09:00' }] }])).toBe('2026-05-04T08:00');
    expect(from([{ on: '2026-12-24' }])).toBe('2026-05-04T08:00');
  });
});

describe('what is asked of the plan', () => {
  it('says by path why there is none', () => {
    expect(problemsOf({ ...scene({ fillMm: 30 }), plan: { goal: 'fewest', avoid: [{ fromMm: 0.5, toMm: 29.5 }] } })[0]).toMatch(/^plan\.avoid: leaves no pour lines between 0 and 30/);
    // A cup of TL stays usable for 0.7 × 90 min in this room at 100 g and less in more.
    expect(problemsOf({ ...scene({ fillMm: 20, bench: { pourH: 2 } }), plan: { goal: 'fewest', cupMin: 60 } })[0]).toMatch(/^plan\.cupMin: found 60 min/);
  });

  it('says what keeps a cup from being poured in time, and of lines too near to each other which were asked for', () => {
    // Half an hour for a pour, and three quarters for one cup.
    expect(problemsOf({ ...scene({ fillMm: 20 }), plan: { goal: 'fewest', cupMin: 45 } })[0]).toMatch(/^plan\.cupMin: found 45 min for one cup; expected at most the 30 min that a pour takes/);
    const { findings } = plan({ fillMm: 40 }, { goal: 'fewest', pins: [2] });
    expect(findings.find(({ code }) => code === 'layer-too-thin')!.remedy).toBe('Move the line you asked for at 2, or let it go: 5\u00a0mm at least have to lie between lines.');
  });

  it('says why a pour waits for the one below to cure', () => {
    const second = (formula: object) => plan({ fillMm: 40, formulas: [formula], bench: { hours: [{ days: 'Mon-Sun', from: '11:00', to: '14:00' }] } }, { goal: 'fewest' }).pours[1].why.replace(/\u00a0/g, ' ');
    // 11:00 to 11:30; tacky from 21:30, 26 h or 20 h after the start no more: half an hour from 12:30 on Tuesday fits, or none before 07:00.
    expect(second(TL)).toContain('Start it by Tue 12:30');
    expect(second({ ...TL, bondClosesH: 20 })).toContain('The pour below cures first: no pour fits your hours while it is tacky, Mon 21:30 to Tue 07:00.');
  });

  it('sets the goals side by side', () => {
    const price = { kitMl: 1000, amount: 30, currency: 'USD' };
    const { goals, goal } = plan({ fillMm: 55, formulas: [{ ...TL, price }] }, { goal: 'cheapest', scuffCost: 2, pourCost: 1 });
    expect(goal).toBe('cheapest');
    expect(goals!.map((row) => row.goal)).toEqual(['even', 'fewest', 'soonest', 'coolest', 'cheapest']);
    const row = (name: string) => goals!.find((entry) => entry.goal === name)!;
    // 200 × 120 × 55 mm, 5 % more, 8 mL in each of three cups: 1,386 + 24 mL at 0.03, and three pours at 1.
    expect(row('cheapest').cost).toBeCloseTo(1410 * 0.03 + 3, 6);
    for (const other of goals!) {
      expect(other.cost!).toBeGreaterThanOrEqual(row('cheapest').cost! - 1e-9);
      expect(other.pours).toBeGreaterThanOrEqual(row('fewest').pours);
      expect(other.finish >= row('soonest').finish).toBe(true);
      expect(other.fullest).toBeGreaterThanOrEqual(row('coolest').fullest - 1e-9);
    }
  });
});
