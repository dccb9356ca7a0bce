/** Pieces planned together for the page: the same as the command’s planner makes of them, refusals told piece by piece. Their sheets are the browser’s test. */
import { describe, expect, it } from 'vitest';
import { GOAL_SEARCH } from '../../src/core/plan/best/goal-search.ts';
import { planTogether } from '../../src/core/plan/runs/together.ts';
import { readScene } from '../../src/core/scene/read.ts';
import { TogetherDesk } from '../../src/work/together-desk.ts';
import { NO_BOOLEANS, scene } from '../plan/planning.ts';
import { onDisk } from '../store/in-process.ts';

/** Of case 1 (tests/plan/cases.test.ts): 200 × 120 × 6 mm of TL from one cup with its twin. */
const box = (name: string, more: object = {}) => ({ ...scene({ fillMm: 6 }), name, ...more });
const given = (document: unknown) => ({ document, files: [] });

describe('the desk that plans together', () => {
  it('plans as the command does, and says what it is doing', async () => {
    const said: string[] = [];
    const desk = new TogetherDesk(onDisk, (doing) => said.push(doing));
    const documents = [box('One'), box('Two')];
    const answer = await desk.plan(documents.map(given));
    if (!answer.ok) throw new Error(JSON.stringify(answer));
    const scenes = documents.map((document) => {
      const reading = readScene(document);
      if (!reading.ok) throw new Error('unread');
      return reading.scene;
    });
    const direct = planTogether(scenes.map((one) => ({ scene: one, given: { meshes: new Map(), booleans: NO_BOOLEANS, heat: null, search: GOAL_SEARCH } })));
    if (!direct.ok) throw new Error('refused');
    expect(answer.value.together).toEqual(direct.together);
    // Half each of 288 mL net × 1.05 + 8 = 310.4 mL (hand arithmetic on case 1).
    expect(answer.value.plans.map(({ pours: [pour] }) => pour.mixMl)).toEqual([expect.closeTo(155.2, 9), expect.closeTo(155.2, 9)]);
    expect(said).toEqual(['Reading One …', 'Reading Two …', 'Planning 2\u00a0pieces together …']);
  });

  it('tells pieces of one name apart, and whose the trouble is', async () => {
    const desk = new TogetherDesk(onDisk, () => {});
    const twins = await desk.plan([box('Pond'), box('Pond')].map(given));
    expect(twins.ok && twins.value.scenes.map(({ name }) => name)).toEqual(['Pond (1)', 'Pond (2)']);
    expect(await desk.plan([box('One'), box('Two', { fillMm: -1 })].map(given))).toMatchObject({ ok: false, piece: 1, problems: [{ path: 'fillMm' }] });
    expect(await desk.plan([box('One'), box('Two', { bench: { start: '2026-05-04T08:00', scaleG: 1 } })].map(given))).toMatchObject({ ok: false, piece: 1, problems: [{ path: 'bench.scaleG' }] });
    const missing = { id: 'f1', kind: 'figure', name: 'Newt', shape: { type: 'mesh', file: 'newt.stl' }, baseMm: 0, massG: 5 };
    expect(await desk.plan([box('One'), box('Two', { placements: [missing] })].map(given))).toMatchObject({ ok: false, piece: 1, problems: [{ path: 'placements[0].shape', message: expect.stringContaining('newt.stl') }] });
    expect(await desk.pdf('a4', { length: 'mm', volume: 'mL' })).toMatchObject({ ok: false, piece: null });
  });
});
