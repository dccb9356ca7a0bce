import { readFileSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import { openFigureLibrary } from '../../src/cli/library.ts';
import { simulatedHeat } from '../../src/core/plan/heat-simulated.ts';
import { planScene } from '../../src/core/plan/plan-scene.ts';
import type { Plan } from '../../src/core/plan/plan.ts';
import { openBooleans } from '../../src/files/booleans.ts';
import { openSceneFile } from '../../src/files/disk.ts';
import { loadScene } from '../../src/files/load.ts';
import { Answers } from '../../src/work/answers.ts';
import type { Answer } from '../../src/work/protocol.ts';
import { DEMO, onDisk } from '../store/in-process.ts';

/** The demo judged by its heat, in a room that is warmer than its labels'. */
const document = { ...(JSON.parse(readFileSync(DEMO, 'utf8')) as object), heat: { model: 'simulated' }, room: { temperatureC: 27 } };
const derive = (answers: Answers, heat: 'quick' | 'whole', changed: object = document) =>
  answers.answer({ kind: 'derive', document: changed, live: false, heat }) as Promise<Answer<'derive'>>;
const quiet = (): void => {};

describe('the worker’s plan with heat', { timeout: 60_000 }, () => {
  let headless: Plan;
  beforeAll(async () => {
    const booleans = await openBooleans();
    const files = await openSceneFile(DEMO);
    const loading = await loadScene({ ...files, sceneText: JSON.stringify(document) }, openFigureLibrary(), booleans);
    if (!loading.ok) throw new Error(JSON.stringify(loading.problems));
    const result = planScene(loading.loaded.scene, { ...loading.loaded, booleans, heat: simulatedHeat([]) });
    if (!result.ok) throw new Error(JSON.stringify(result.problems));
    headless = result.plan;
  }, 60_000);

  it('is the command’s at rest, to the last digit, also when it was broken off again and again', async () => {
    let breaks = 0;
    const answers = new Answers(onDisk, quiet, async () => ++breaks > 0);
    let answer = await derive(answers, 'whole');
    for (let tries = 0; !answer.ok && answer.overtaken; tries++) {
      expect(tries, 'every turn gets something done').toBeLessThan(100);
      answer = await derive(answers, 'whole');
    }
    if (!answer.ok) throw new Error(JSON.stringify(answer.problems));
    expect(breaks).toBeGreaterThan(0);
    expect(answer.value.checkingHeat).toBe(false);
    expect(JSON.parse(JSON.stringify(answer.value.plan))).toEqual(JSON.parse(JSON.stringify(headless)));
  });

  it('comes in haste at first, and says so: by the label while nothing is known, by the middle of it later', async () => {
    const answers = new Answers(onDisk, quiet);
    const first = await derive(answers, 'quick');
    if (!first.ok) throw new Error(JSON.stringify(first.problems));
    expect(first.value.checkingHeat).toBe(true);
    expect(first.value.plan.pours.every(({ heat }) => heat === null)).toBe(true);
    expect((await derive(answers, 'whole')).ok).toBe(true);
    const cpu = process.cpuUsage();
    const again = await derive(answers, 'quick');
    const cpuMs = process.cpuUsage(cpu).user / 1000;
    if (!again.ok) throw new Error(JSON.stringify(again.problems));
    expect(again.value.checkingHeat).toBe(true);
    const { scene, plan } = again.value;
    for (const { heat, formula, depthMm } of plan.pours) {
      const { maxDepthMm } = scene.formulas.get(formula)!;
      expect(heat!.safeDepthMm, `${formula}: never over its label`).toBeLessThanOrEqual(maxDepthMm);
      expect(depthMm).toBeLessThanOrEqual(maxDepthMm);
    }
    expect(cpuMs, 'ms of work, while something is dragged').toBeLessThan(400);
  });

  it('tells a pour’s temperatures through time, a band that holds its middle and the plan’s own range', async () => {
    const answers = new Answers(onDisk, quiet);
    const answer = await derive(answers, 'whole');
    if (!answer.ok) throw new Error(JSON.stringify(answer.problems));
    const { scene, plan } = answer.value;
    const told = (await answers.answer({ kind: 'heat series', planned: { scene, plan }, pour: 2 })) as Answer<'heat series'>;
    if (!told.ok) throw new Error(JSON.stringify(told.problems));
    const { hours, lowC, middleC, highC, depth } = told.value;
    expect(hours.length).toBeGreaterThan(20);
    for (const [i] of hours.entries()) {
      expect(lowC[i]).toBeLessThanOrEqual(middleC[i]);
      expect(middleC[i]).toBeLessThanOrEqual(highC[i]);
    }
    // Each member's peak comes at its own time: no moment's band is over the peaks' own, and the highest is in their range. 0.1 K: between samples.
    const [lowest, highest] = plan.pours[1].heat!.rangeC;
    expect(Math.max(...highC)).toBeLessThanOrEqual(highest + 0.1);
    expect(Math.max(...highC)).toBeGreaterThan(lowest);
    expect(Math.max(...lowC)).toBeLessThanOrEqual(Math.max(...middleC));
    expect(depth.heightMm[depth.heightMm.length - 1]).toBeGreaterThan(depth.pourFromMm);
  });

  it('is a task for a look in three dimensions: every pour at its time, the figures by their own meshes', async () => {
    const answers = new Answers(onDisk, quiet);
    const answer = await derive(answers, 'whole');
    if (!answer.ok) throw new Error(JSON.stringify(answer.problems));
    const { scene, plan } = answer.value;
    const told = (await answers.answer({ kind: 'heat task', planned: { scene, plan } })) as Answer<'heat task'>;
    if (!told.ok) throw new Error(JSON.stringify(told.problems));
    const { task, hottestC } = told.value;
    expect(task!.pours.map(({ toMm }) => toMm)).toEqual(plan.pours.map(({ toMm }) => toMm));
    expect(hottestC).toHaveLength(plan.pours.length);
    plan.pours.forEach(({ heat }, i) => {
      expect(hottestC[i]).toBeGreaterThanOrEqual(heat!.rangeC[0] - 0.5);
      expect(hottestC[i]).toBeLessThanOrEqual(heat!.rangeC[1] + 0.5);
    });
  });
});
