import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { Answers } from '../../src/work/answers.ts';
import type { DerivedScene } from '../../src/work/protocol.ts';
import { DEMO, onDisk } from '../store/in-process.ts';

/** ms. Plans under simulated heat, on a machine that others use too. */
const PLANNING_MS = 120_000;

async function derived(answers: Answers, change: object): Promise<DerivedScene> {
  const document = { ...(JSON.parse(readFileSync(DEMO, 'utf8')) as object), ...change };
  const answer = await answers.answer({ kind: 'derive', document, live: false });
  if (!answer.ok) throw new Error(JSON.stringify(answer.problems));
  return answer.value as DerivedScene;
}

const label = { heat: { model: 'label' } };

describe('the other goals', () => {
  it('are told as they come out when they are chosen, by the label', async () => {
    const answers = new Answers(onDisk, () => {});
    const { scene } = await derived(answers, label);
    const compared = await answers.answer({ kind: 'compare', scene });
    if (!compared.ok || !compared.value || !('goals' in compared.value)) throw new Error(JSON.stringify(compared));
    const { goals } = compared.value;
    expect(goals.map(({ goal }) => goal)).toEqual(['even', 'fewest', 'soonest', 'coolest', 'cheapest']);
    for (const { goal, pours, finish } of goals) {
      const { plan } = await derived(answers, { ...label, plan: { goal } });
      expect({ goal, pours: plan.pours.length, finish: plan.finish }).toEqual({ goal, pours, finish });
    }
  }, PLANNING_MS);

  it('are left for whatever comes in meanwhile, and told once nothing does', async () => {
    let hurried = true;
    const answers = new Answers(onDisk, () => {}, async () => hurried);
    // Of heat nothing is known yet: more than one turn of judging.
    const { scene } = await derived(answers, label);
    const warm = { ...scene, heatModel: 'simulated' as const };
    expect(await answers.answer({ kind: 'compare', scene: warm })).toMatchObject({ ok: false, overtaken: true });
    hurried = false;
    const compared = await answers.answer({ kind: 'compare', scene: warm });
    if (!compared.ok || !compared.value || !('goals' in compared.value)) throw new Error(JSON.stringify(compared));
    const { plan } = await derived(answers, { heat: { model: 'simulated' } });
    const hottestC = Math.max(...plan.pours.map(({ heat }) => heat!.rangeC[1]));
    expect(compared.value.goals[0]).toMatchObject({ goal: 'even', pours: plan.pours.length, finish: plan.finish, warmestC: hottestC });
  }, PLANNING_MS);
});
