import { describe, expect, it } from 'vitest';
import { addTestCup, changeTestCup, removeTestCup, testCupsOf } from '../../../../src/core/scene/edit/test-cups.ts';
import { coolRoom, heatModelOf, setHeatModel } from '../../../../src/core/scene/edit/heat-model.ts';
import { ownFormula, removeFormula } from '../../../../src/core/scene/edit/formulas.ts';
import { readScene } from '../../../../src/core/scene/read.ts';
import type { EditResult, SceneFile } from '../../../../src/core/scene/edit/file.ts';
import { pond } from './made-files.ts';

const CUP = { formula: 'general', massG: 100, cup: 'plastic', roomC: 23, readings: [{ min: 0, temperatureC: 23 }, { min: 30, temperatureC: 41 }] } as const;

function made(result: EditResult): SceneFile {
  if (!result.ok) throw new Error(result.reason);
  return result.file;
}

describe('test cups', () => {
  it('are kept in the scene as it is read, and are gone without a trace', () => {
    const with1 = made(addTestCup(pond(), CUP));
    const reading = readScene(JSON.parse(JSON.stringify(with1)));
    expect(reading.ok && reading.scene.testCups).toEqual([CUP]);
    expect(testCupsOf(with1, 'general')).toEqual([{ at: 0, cup: CUP }]);
    expect(testCupsOf(with1, 'low-viscosity')).toEqual([]);
    expect(made(removeTestCup(with1, 0))).toEqual(pond());
  });

  it('have their readings in order of time', () => {
    const file = made(addTestCup(pond(), { ...CUP, readings: [CUP.readings[1], CUP.readings[0]] }));
    expect(file.testCups![0].readings).toEqual(CUP.readings);
    const later = made(changeTestCup(file, 0, { readings: [{ min: 60, temperatureC: 38 }, ...CUP.readings] }));
    expect(later.testCups![0].readings.map(({ min }) => min)).toEqual([0, 30, 60]);
  });

  it('are refused in words of the one cup at hand', () => {
    const grams = addTestCup(pond(), { ...CUP, massG: 0 });
    expect(grams).toEqual({ ok: false, reason: 'Grams: found 0; expected a number from 1 to 100000 g.' });
    const hot = addTestCup(pond(), { ...CUP, readings: [CUP.readings[0], { min: 30, temperatureC: 4100 }] });
    expect(hot).toEqual({ ok: false, reason: 'Reading 2: found 4100; expected -40 to 400 °C.' });
    expect(addTestCup(pond(), { ...CUP, formula: 'nobody' }).ok).toBe(false);
    expect(changeTestCup(pond(), 0, { massG: 5 }).ok).toBe(false);
    expect(removeTestCup(pond(), 3).ok).toBe(false);
  });

  it('go with their formula, so that the piece can be opened again', () => {
    const own = ownFormula(pond(), 'general', { name: 'Mine', ratioByVolume: [1, 1], maxDepthMm: 12 });
    if (!own.ok) throw new Error(own.reason);
    const second = ownFormula(own.file, 'general', { name: 'Mine too', ratioByVolume: [1, 1], maxDepthMm: 12 });
    if (!second.ok) throw new Error(second.reason);
    const [id] = second.ids;
    const measured = made(addTestCup(made(addTestCup(second.file, { ...CUP, formula: id })), CUP));
    const without = made(removeFormula(measured, id));
    expect(without.testCups).toEqual([CUP]);
    expect(readScene(without).ok).toBe(true);
  });
});

describe('how pours are judged', () => {
  it('is by labels and heat until someone says otherwise', () => {
    expect(heatModelOf(pond())).toBe('simulated');
    const byLabel = made(setHeatModel(pond(), 'label'));
    expect(heatModelOf(byLabel)).toBe('label');
    const reading = readScene(byLabel);
    expect(reading.ok && reading.scene.heatModel).toBe('label');
  });

  it('cools the room at all times, and never warms it', () => {
    const file = pond({ room: { temperatureC: 28, profile: [{ from: '2026-05-04T20:00', temperatureC: 18 }, { from: '2026-05-05T08:00', temperatureC: 30 }] } });
    expect(made(coolRoom(file, 21)).room).toEqual({ temperatureC: 21, profile: [{ from: '2026-05-04T20:00', temperatureC: 18 }, { from: '2026-05-05T08:00', temperatureC: 21 }] });
    expect(made(coolRoom(pond(), 25)).room).toEqual({ temperatureC: 23 });
  });
});
