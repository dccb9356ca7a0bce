/** Tasks of heat, as the worker takes them: answered in order, stopped when told, refused in words. */
import { describe, expect, it } from 'vitest';
import type { Kinetics } from '../../src/core/cure/kinetics.ts';
import type { Figure, RoundMold } from '../../src/core/scene/scene.ts';
import { HeatDesk } from '../../src/work/heat-desk.ts';
import type { FromHeatWorker, HeatAnswer, HeatTask } from '../../src/work/heat-protocol.ts';

const KINETICS: Kinetics = { heatJPerKg: 370_000, activationJPerMol: 52_000, k2PerS: 6e-5, atC: 23, k1OverK2: 0.03, m: 0.7, n: 1.7, gelAlpha: 0.58 };
const MOLD: RoundMold = { shape: 'round', diameterMm: 80, heightMm: 50, draftDeg: 0, material: 'silicone', wallMm: 6, keep: false };
const BALL: Figure = {
  kind: 'figure', id: 'ball', name: 'Ball', shape: { type: 'sphere', radiusMm: 8 }, xMm: 0, yMm: 0, baseMm: 3, turnDeg: [0, 0, 0], scale: 1,
  hold: 'rests', porous: false, sealed: true, material: 'steel',
};
const H = 3600;

function task(change: Partial<HeatTask> = {}): HeatTask {
  return {
    mold: MOLD,
    pours: [{ fromMm: 0, toMm: 20, atS: 0, mixC: 25, kinetics: KINETICS, material: { densityKgPerM3: 1150, heatCapacityJPerKgK: 1900, conductivityWPerMK: 0.2 } }],
    castIn: [{ placement: BALL, densityGPerMl: 7.85 }],
    room: [{ fromS: 0, temperatureC: 23 }],
    endS: 30 * H,
    build: { mostCells: 600 },
    ...change,
  };
}

/** A desk on a clock that every look moves on by `perLookMs`, so that nothing hangs on this machine's speed. */
function desk(perLookMs: number, onMessage: (message: FromHeatWorker, desk: HeatDesk) => void = () => {}) {
  const answers = new Map<number, HeatAnswer>();
  const said: FromHeatWorker[] = [];
  let now = 0;
  const made: HeatDesk = new HeatDesk({
    say: (message) => {
      said.push(structuredClone(message));
      if ('answer' in message) answers.set(message.id, message.answer);
      onMessage(message, made);
    },
    pause: () => new Promise((go) => setTimeout(go)),
    nowMs: () => (now += perLookMs),
  });
  const until = async (count: number) => {
    while (answers.size < count) await new Promise((go) => setTimeout(go, 1));
  };
  return { made, answers, said, until };
}

describe('the desk of heat', () => {
  it('answers tasks in order, telling how far it is', async () => {
    const { made, answers, said, until } = desk(5);
    made.hear({ id: 1, task: structuredClone(task()) });
    made.hear({ id: 2, task: task({ castIn: [] }) });
    await until(2);
    const [first, second] = [answers.get(1)!, answers.get(2)!];
    expect(said.filter((message) => 'answer' in message).map(({ id }) => id)).toEqual([1, 2]);
    if (!first.ok || !second.ok) throw new Error('both should be answered');
    // The steel ball takes up heat: hotter without it.
    expect(first.heat.pours[0].hottest.temperatureC).toBeLessThan(second.heat.pours[0].hottest.temperatureC - 0.2);
    expect(first.heat.solids.map(({ solid }) => solid)).toEqual([0]);
    expect(first.heat.solids[0].hottest.temperatureC).toBeGreaterThan(28);
    const moments = said.flatMap((message) => ('progress' in message && message.id === 1 ? [message.progress.atS] : []));
    expect(moments.length).toBeGreaterThan(2);
    expect([...moments].sort((a, b) => a - b)).toEqual(moments);
  });

  it('stops the one it is at, and goes on with the next', async () => {
    const { made, answers, said, until } = desk(50, (message, at) => {
      if (message.id === 1 && 'progress' in message) at.hear({ cancel: 1 });
    });
    made.hear({ id: 1, task: task() });
    made.hear({ id: 2, task: task() });
    await until(2);
    expect(answers.get(1)).toEqual({ ok: false, canceled: true, message: 'Stopped. Nothing was changed.' });
    // Told once, stopped at the next look.
    expect(said.filter((message) => message.id === 1)).toHaveLength(2);
    expect(answers.get(2)!.ok).toBe(true);
  });

  it('does not begin one that was stopped while it waited, and forgets one that is done', async () => {
    const { made, answers, said, until } = desk(1);
    made.hear({ id: 1, task: task() });
    made.hear({ id: 2, task: task() });
    made.hear({ cancel: 2 });
    await until(2);
    expect(answers.get(1)!.ok).toBe(true);
    expect(answers.get(2)).toMatchObject({ ok: false, canceled: true });
    expect(said.filter((message) => message.id === 2)).toHaveLength(1);
    made.hear({ cancel: 1 });
    made.hear({ id: 3, task: task() });
    await until(3);
    expect(answers.get(3)!.ok).toBe(true);
  });

  it('says in words what it can\'t follow', async () => {
    const { made, answers, until } = desk(1);
    made.hear({ id: 1, task: task({ pours: [] }) });
    made.hear({ id: 2, task: task({ castIn: [{ placement: { ...BALL, shape: { type: 'mesh', file: 'crab.stl' } }, densityGPerMl: 1 }] }) });
    await until(2);
    expect(answers.get(1)).toEqual({ ok: false, message: expect.stringMatching(/could not be followed: There is no pour/) });
    expect(answers.get(2)).toEqual({ ok: false, message: expect.stringMatching(/"crab.stl" came without its mesh/) });
  });
});
