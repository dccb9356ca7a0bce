/** From a plan to a task of heat and back to temperatures. */
import { describe, expect, it } from 'vitest';
import type { Member } from '../../src/core/cure/family-types.ts';
import { readScene } from '../../src/core/scene/read.ts';
import type { Scene } from '../../src/core/scene/scene.ts';
import { HeatDesk } from '../../src/work/heat-desk.ts';
import type { HeatAnswer, HeatTask } from '../../src/work/heat-protocol.ts';
import { heatTaskOf } from '../../src/work/heat-task.ts';
import { planOf, scene as sceneOf } from '../plan/planning.ts';

const MEMBER: Member = {
  kinetics: { heatJPerKg: 370_000, activationJPerMol: 52_000, k2PerS: 3e-5, atC: 23, k1OverK2: 0.03, m: 0.7, n: 1.7, gelAlpha: 0.58 },
  material: { densityKgPerM3: 1100, heatCapacityJPerKgK: 1900, conductivityWPerMK: 0.2 },
  topHWPerM2K: 10, underHWPerM2K: 9, cupRate: 1,
};
const STEEL_BALL = { kind: 'figure', id: 'ball', name: 'Ball', shape: { type: 'sphere', radiusMm: 8 }, xMm: 0, yMm: 0, baseMm: 0, hold: 'rests', material: 'steel' };
const H = 3600;

function read(json: object): Scene {
  const reading = readScene(json);
  if (!reading.ok) throw new Error(JSON.stringify(reading.problems));
  return reading.scene;
}

function taskFor(json: object): HeatTask | null {
  return heatTaskOf(read(json), planOf(json), { memberOf: () => MEMBER, meshes: new Map(), build: { mostCells: 1500 } });
}

async function answered(task: HeatTask): Promise<HeatAnswer> {
  return new Promise((done) => {
    const desk = new HeatDesk({ say: (message) => 'answer' in message && done(message.answer), pause: () => new Promise((go) => setTimeout(go)), nowMs: () => 0 });
    desk.hear({ id: 1, task: structuredClone(task) });
  });
}

describe('a task of heat', () => {
  it('has the plan\'s pours at their times, from the first on, and runs', async () => {
    const json = { ...sceneOf({ placements: [STEEL_BALL] }), room: { temperatureC: 22 } };
    const { pours } = planOf(json);
    const task = taskFor(json)!;
    expect(task.pours.map(({ fromMm, toMm }) => [fromMm, toMm])).toEqual(pours.map(({ fromMm, toMm }) => [fromMm, toMm]));
    const hours = pours.map(({ starts }) => (Date.parse(`${starts}Z`) - Date.parse(`${pours[0].starts}Z`)) / 3.6e6);
    expect(task.pours.map(({ atS }) => atS / H)).toEqual(hours);
    expect(task.endS / H).toBeGreaterThanOrEqual(hours.at(-1)! + 48);
    expect(task.castIn.map(({ densityGPerMl }) => densityGPerMl)).toEqual([expect.closeTo(7.85, 9)]);
    const answer = await answered(task);
    if (!answer.ok) throw new Error(answer.message);
    expect(answer.heat.pours).toHaveLength(pours.length);
    for (const { hottest } of answer.heat.pours) expect(hottest.temperatureC).toBeGreaterThan(22);
    expect(answer.heat.energyBalance).toBeLessThan(1e-3);
  });

  it('has the room as the scene tells it, before its first entry too', () => {
    const json = { ...sceneOf(), room: { temperatureC: 22, profile: [{ from: '2031-01-01T00:00', temperatureC: 30 }] } };
    const { room } = taskFor(json)!;
    expect(room.map(({ temperatureC }) => temperatureC)).toEqual([22, 30]);
    expect(room[0].fromS).toBeLessThan(0);
  });

  it('counts what is solid of a bed, by its mass, its density or its material', () => {
    const bed = { kind: 'bed', id: 'bed', name: 'Gravel', shape: { type: 'box', lengthMm: 100, widthMm: 60, heightMm: 10 }, xMm: 0, yMm: 0, baseMm: 0, hold: 'rests', voidFraction: 0.4 };
    const density = (more: object) => taskFor(sceneOf({ placements: [{ ...bed, ...more }] }))!.castIn[0].densityGPerMl;
    expect(density({ massG: 90 })).toBeCloseTo(90 / (60 * 0.6), 9);
    expect(density({ densityGPerMl: 2.4 })).toBeCloseTo(2.4, 9);
    expect(density({ material: 'stone' })).toBeCloseTo(2.65, 9);
    expect(density({})).toBe(1.2);
  });

  it('is none without the mesh of a figure', () => {
    const json = sceneOf();
    const scene = read(json);
    const crab = { ...read(sceneOf({ placements: [STEEL_BALL] })).placements[0], shape: { type: 'mesh', file: 'crab.stl' } };
    expect(heatTaskOf({ ...scene, placements: [crab as Scene['placements'][number]] }, planOf(json), { memberOf: () => MEMBER, meshes: new Map() })).toBeNull();
  });
});
