/** A judge that simulates: one dimension through the middle of the mold, every member of every family or the middle one alone. */
import { cupVerdict } from '../cure/cup.ts';
import { familyOf } from '../cure/family.ts';
import type { CureFamily } from '../cure/family-types.ts';
import type { TestCup } from '../cure/test-cup.ts';
import { beginBuild } from '../cure/verdict.ts';
import type { JudgeOptions } from '../cure/verdict-types.ts';
import type { Formula, Scene } from '../scene/scene.ts';
import type { HeatJudge } from './heat-judge.ts';

export interface SimulationOptions extends JudgeOptions {
  /** Families by what they were made from: handed in again, none is made twice. Grows. */
  readonly families?: Map<string, CureFamily>;
}

/** A judge for all plans made with the same test cups. */
export function simulatedHeat(testCups: readonly TestCup[], { members = 'all', families = new Map() }: SimulationOptions = {}): HeatJudge {
  const family = (formula: Formula): CureFamily => {
    const key = JSON.stringify([formula, testCups.filter((cup) => cup.formula === formula.id)]);
    const known = families.get(key) ?? familyOf(formula, testCups);
    families.set(key, known);
    return known;
  };
  return {
    model: members === 'mean' ? 'simulated, one dimension, the middle of what the label allows' : 'simulated, one dimension',
    familyOf: family,
    cup: (formula, asked) => cupVerdict(formula, members === 'mean' ? middleOf(family(formula)) : family(formula), asked),
    begin: (mold, room) => beginBuild(mold, room, { members, familyOf: family }),
  };
}

/** Of several scenes, those with the same test cups have one judge: only pours of one judge may share cups. */
export function simulatedByCups(families: Map<string, CureFamily> = new Map()): (scene: Pick<Scene, 'testCups'>) => HeatJudge {
  const judges = new Map<string, HeatJudge>();
  return ({ testCups }) => {
    const key = JSON.stringify(testCups);
    const judge = judges.get(key) ?? simulatedHeat(testCups, { families });
    judges.set(key, judge);
    return judge;
  };
}

/** The family as its middle member alone. */
function middleOf(family: CureFamily): CureFamily {
  return { ...family, members: [family.members[family.meanIndex]], weights: [1], meanIndex: 0 };
}
