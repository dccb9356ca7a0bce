/** What the person asks of the plan and the calendar is read by field, and refused by path. */
import { describe, expect, it } from 'vitest';
import { readScene } from '../../../src/core/scene/read.ts';
import { scene } from '../../plan/planning.ts';

const read = (plan: object, bench: object = {}, room: object = {}) => readScene({ ...scene({ bench, room }), plan });
const refusals = (plan: object, bench?: object, room?: object) => {
  const reading = read(plan, bench, room);
  return reading.ok ? [] : reading.problems.map(({ path, message }) => `${path}: ${message}`);
};

describe('wishes for the plan', () => {
  it('default to the even plan, with nothing asked', () => {
    const reading = readScene(scene());
    if (!reading.ok) throw new Error('refused');
    expect(reading.scene.plan).toEqual({ goal: 'even', pinsMm: [], avoid: [], formulas: null, cupMin: null, pourCost: 0, scuffCost: 0 });
    expect(reading.scene.bench).toMatchObject({ exceptions: [], readyByMin: undefined });
    expect(reading.notes).toEqual([]);
  });

  it('are read with their units, and named so far unknown fields are said', () => {
    const reading = read({ goal: 'soonest', pins: [30, 12.5], avoid: [20, { fromMm: 40, toMm: 45 }], formulas: ['TL', 'general'], cupMin: 8, scuffCost: 0.4, mood: 1 }, { exceptions: [{ on: '2026-12-24', until: '2027-01-02' }, { on: '2026-05-06', hours: [{ from: '08:00', to: '20:30' }] }], readyBy: '2026-06-01T18:00' }, { sleep: [{ days: 'Mon-Sun', from: '22:00', to: '07:00' }] });
    if (!reading.ok) throw new Error(JSON.stringify(reading.problems));
    expect(reading.scene.plan).toMatchObject({ goal: 'soonest', pinsMm: [12.5, 30], avoid: [{ fromMm: 20, toMm: 20 }, { fromMm: 40, toMm: 45 }], formulas: ['TL', 'general'], cupMin: 8 });
    expect(reading.scene.formulas.get('general')?.family).toBe('general');
    // Days since 2000-01-01 by the JavaScript engine's own calendar.
    const day = (date: string) => (Date.parse(`${date}T00:00Z`) - Date.parse('2000-01-01T00:00Z')) / 86_400_000;
    expect(reading.scene.bench.exceptions).toEqual([
      { fromDay: day('2026-12-24'), toDay: day('2027-01-02'), hours: [] },
      { fromDay: day('2026-05-06'), toDay: day('2026-05-06'), hours: [{ fromMin: 480, toMin: 1230 }] },
    ]);
    expect(reading.scene.room.sleep).toEqual([{ days: [0, 1, 2, 3, 4, 5, 6], fromMin: 1320, toMin: 420 }]);
    expect(reading.notes.map(({ subject }) => subject)).toEqual(['plan.mood']);
  });

  it.each([
    [{ goal: 'fast' }, 'plan.goal: found "fast"; expected one of "even", "fewest", "soonest", "coolest", "cheapest".'],
    [{ pins: [60] }, 'plan.pins[0]: found 60 mm; expected less than 55 mm, the fill’s height. Lower the line.'],
    [{ pins: [0] }, 'plan.pins[0]: found 0; expected a number above 0 mm, at most 10000 mm.'],
    [{ pins: [20], avoid: [{ fromMm: 15, toMm: 20 }] }, 'plan.pins[0]: found 20 mm, which plan.avoid forbids (15 to 20 mm); expected one of the two. Move the line or shorten the span.'],
    [{ avoid: [{ fromMm: 15, toMm: 10 }] }, 'plan.avoid[0]: found {"fromMm":15,"toMm":10}; expected a height from 0 mm on, or a span from the lower height to the higher, like { "fromMm": 12, "toMm": 15 }.'],
    [{ avoid: ['12'] }, 'plan.avoid[0]: found "12"; expected a height from 0 mm on, or a span from the lower height to the higher, like { "fromMm": 12, "toMm": 15 }.'],
    [{ formulas: ['TX'] }, 'plan.formulas[0]: found "TX"; expected one of "TL", "TG", "general", "low-viscosity", "coating", "deep-pour".'],
    [{ formulas: ['TL', 'TL'] }, 'plan.formulas[1]: found "TL" a second time; expected each formula once.'],
    [{ formulas: [] }, 'plan.formulas: found a list of 0; expected a list of 1 to 200.'],
    [{ cupMin: 0 }, 'plan.cupMin: found 0; expected a number above 0 min, at most 100000 min.'],
  ])('%j is refused', (plan, message) => {
    expect(refusals(plan)).toEqual([message]);
  });

  it.each([
    [{ exceptions: [{ on: '2026-02-30' }] }, 'bench.exceptions[0].on: found "2026-02-30"; expected a date that exists, from 1900 to 2099, like "2026-12-24".'],
    [{ exceptions: [{ on: '2026-12-24', until: '2026-12-20' }] }, 'bench.exceptions[0].until: found 2026-12-20, before 2026-12-24; expected that day or a later one.'],
    [{ readyBy: 'soon' }, 'bench.readyBy: found "soon"; expected a local time that exists, from 1900 to 2099, like "2026-05-04T08:00".'],
  ])('bench %j is refused', (bench, message) => {
    expect(refusals({}, bench)).toEqual([message]);
  });
});
