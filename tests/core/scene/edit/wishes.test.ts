import { describe, expect, it } from 'vitest';
import { addException, addSleep, changeException, changeSleep, removeException, removeSleep, setExceptionHours, setReadyBy } from '../../../../src/core/scene/edit/calendar.ts';
import { allowLine, avoidLine, avoidOf, changeAvoided, isPinned, pinLine, pinsOf, setCopies, setGoal, unpinLine } from '../../../../src/core/scene/edit/wishes.ts';
import type { EditResult, SceneFile } from '../../../../src/core/scene/edit/file.ts';
import { readScene } from '../../../../src/core/scene/read.ts';
import type { Scene } from '../../../../src/core/scene/scene.ts';
import { frozen, pond } from './made-files.ts';

function made(result: EditResult): SceneFile {
  if (!result.ok) throw new Error(result.reason);
  return frozen(result.file);
}

function sceneOf(file: SceneFile): Scene {
  const reading = readScene(JSON.parse(JSON.stringify(file)));
  if (!reading.ok) throw new Error(JSON.stringify(reading.problems));
  return reading.scene;
}

/** Day 0 is 2000-01-01, so a day’s number is that of ECMAScript's own calendar, shifted. */
const dayOf = (date: string): number => (Date.parse(`${date}T00:00Z`) - Date.parse('2000-01-01T00:00Z')) / 86_400_000;

describe('what is asked of the plan', () => {
  it('is even pours of one piece until someone says otherwise', () => {
    expect(sceneOf(pond())).toMatchObject({ plan: { goal: 'even', pinsMm: [], avoid: [] }, run: { copies: 1 } });
    expect(sceneOf(made(setGoal(pond(), 'fewest'))).plan.goal).toBe('fewest');
    expect(sceneOf(made(setCopies(pond(), 6))).run.copies).toBe(6);
  });

  it('refuses copies that are none, in words', () => {
    for (const copies of [0, 2.5, 501]) expect(setCopies(pond(), copies)).toEqual({ ok: false, reason: expect.stringMatching(/^Copies: found .*; expected a whole number from 1 to 500/) });
  });

  it('keeps a line until it is let go, then nothing of it is left', () => {
    const kept = made(pinLine(pond(), 40 / 3));
    expect(sceneOf(kept).plan.pinsMm[0]).toBeCloseTo(40 / 3, 5);
    expect(isPinned(kept, 40 / 3)).toBe(true);
    expect(made(pinLine(kept, 40 / 3))).toBe(kept);
    expect(made(unpinLine(kept, 40 / 3))).toEqual({ ...pond(), plan: {} });
    expect(unpinLine(pond(), 12).ok).toBe(false);
  });

  it('keeps or forbids a line, never both: the later wish holds', () => {
    const forbidden = made(avoidLine(made(pinLine(pond(), 12)), 12.5));
    expect(pinsOf(forbidden)).toEqual([]);
    expect(sceneOf(forbidden).plan.avoid).toEqual([{ fromMm: 10.5, toMm: 14.5 }]);
    const kept = made(pinLine(forbidden, 14));
    expect(avoidOf(kept)).toEqual([]);
    expect(sceneOf(kept).plan.pinsMm).toEqual([14]);
  });

  it('types what is kept clear, in order, and gives up the floor’s other side', () => {
    const clear = made(avoidLine(pond({ plan: { avoid: [30] } }), 1));
    expect(avoidOf(clear)).toEqual([{ fromMm: 30, toMm: 30 }, { fromMm: 0, toMm: 3 }]);
    expect(avoidOf(made(changeAvoided(clear, 0, { toMm: 34 })))[0]).toEqual({ fromMm: 30, toMm: 34 });
    expect(changeAvoided(clear, 1, { fromMm: 5 })).toEqual({ ok: false, reason: 'Found 5 to 3\u00a0mm; expected the lower height first. Change the other end first.' });
    expect(avoidOf(made(allowLine(clear, 0)))).toEqual([{ fromMm: 0, toMm: 3 }]);
    expect(allowLine(clear, 7).ok).toBe(false);
  });

  it('says which line is over the resin', () => {
    expect(pinLine(pond(), 55)).toMatchObject({ ok: false, reason: expect.stringContaining('expected less than 55 mm') });
  });
});

describe('the person’s calendar', () => {
  it('has days shut, opened otherwise, longer than one, and taken out without a trace', () => {
    const shut = made(addException(pond(), '2026-12-24'));
    expect(sceneOf(shut).bench.exceptions).toEqual([{ fromDay: dayOf('2026-12-24'), toDay: dayOf('2026-12-24'), hours: [] }]);
    const open = made(setExceptionHours(made(changeException(shut, 0, { until: '2026-12-26' })), 0, { from: '09:30' }));
    expect(sceneOf(open).bench.exceptions).toEqual([{ fromDay: dayOf('2026-12-24'), toDay: dayOf('2026-12-26'), hours: [{ fromMin: 570, toMin: 960 }] }]);
    expect(sceneOf(made(setExceptionHours(open, 0, null))).bench.exceptions[0].hours).toEqual([]);
    expect(made(changeException(open, 0, { until: null })).bench!.exceptions![0]).not.toHaveProperty('until');
    expect(made(removeException(open, 0))).toEqual({ ...pond(), bench: {} });
  });

  it('refuses days that don’t exist or end before they begin', () => {
    expect(addException(pond(), '2026-02-30')).toMatchObject({ ok: false, reason: expect.stringContaining('a date that exists') });
    const shut = made(addException(pond(), '2026-12-24'));
    expect(changeException(shut, 0, { until: '2026-12-23' })).toEqual({ ok: false, reason: 'Last day: found 2026-12-23, before 2026-12-24; expected that day or a later one.' });
    expect(removeException(pond(), 0).ok).toBe(false);
  });

  it('has a wanted finish', () => {
    const wanted = made(setReadyBy(pond(), '2026-12-20T12:00'));
    expect(sceneOf(wanted).bench.readyByMin).toBe(dayOf('2026-12-20') * 1440 + 720);
    expect(made(setReadyBy(wanted, null))).toEqual({ ...pond(), bench: {} });
  });

  it('has hours of sleep', () => {
    const night = made(addSleep(pond()));
    expect(sceneOf(night).room.sleep).toEqual([{ days: [0, 1, 2, 3, 4, 5, 6], fromMin: 1320, toMin: 420 }]);
    expect(sceneOf(made(changeSleep(night, 0, { days: 'Sat,Sun', to: '09:00' }))).room.sleep).toEqual([{ days: [5, 6], fromMin: 1320, toMin: 540 }]);
    expect(changeSleep(night, 0, { days: 'someday' })).toMatchObject({ ok: false, reason: expect.stringContaining('days like') });
    expect(made(removeSleep(night, 0))).toEqual({ ...pond(), room: {} });
  });
});
