/** A figure that would hold air is told of with its depth, which is a closed form; one that would not is not. */
import { expect, it } from 'vitest';
import { planScene } from '../../../../src/core/plan/plan-scene.ts';
import { readScene } from '../../../../src/core/scene/read.ts';
import { poseSolid } from '../../../../src/core/solid/pose.ts';
import { openBooleans } from '../../../../src/files/booleans.ts';
import { scene } from '../../../plan/planning.ts';

const cylinder = (radiusMm: number, heightMm: number, baseMm: number) => poseSolid({ type: 'cylinder', radiusMm, heightMm }, { xMm: 0, yMm: 0, baseMm, turnDeg: [0, 0, 0], scale: 1 }).mesh();

it.each([
  ['upside down', [0, 0, 0], ['Air stays in a hollow under Cup, 12\u00a0mm deep.']],
  ['upright', [180, 0, 0], []],
])('a cup of 12 mm %s', async (_, turnDeg, wanted) => {
  const booleans = await openBooleans();
  const mesh = booleans.subtract(cylinder(15, 20, 0), cylinder(10, 22, -10));
  const reading = readScene(scene({ placements: [{ id: 'f', kind: 'figure', name: 'Cup', shape: { type: 'mesh', file: 'cup.stl' }, massG: 40, baseMm: 3, turnDeg }] }));
  if (!reading.ok) throw new Error(JSON.stringify(reading.problems));
  const result = planScene(reading.scene, { meshes: new Map([['f', { mesh, watertight: true, repairs: [], volumeErrorFraction: 0 }]]), booleans, heat: null });
  if (!result.ok) throw new Error(JSON.stringify(result.problems));
  expect(result.plan.findings.filter(({ code }) => code === 'air-trap').map(({ message }) => message)).toEqual(wanted);
});
