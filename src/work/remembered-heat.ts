/** Judges heat for one plan after the other: families of formulas are remembered, and the simulation is fetched when a scene first asks for it. */
import type { CureFamily } from '../core/cure/family-types.ts';
import type { HeatJudge } from '../core/plan/heat-judge.ts';
import type { Scene } from '../core/scene/scene.ts';

/** Some 100 kB each. */
const MOST_FAMILIES = 30;

export class RememberedHeat {
  readonly #families = new Map<string, CureFamily>();

  /** Null under the label model. `live`: something is being moved, and the middle member answers for all. */
  async judgeFor({ heatModel, testCups }: Scene, live: boolean): Promise<HeatJudge | null> {
    if (heatModel === 'label') return null;
    const { simulatedHeat } = await import('../core/plan/heat-simulated.ts');
    if (this.#families.size > MOST_FAMILIES) this.#families.clear();
    return simulatedHeat(testCups, { members: live ? 'mean' : 'all', families: this.#families });
  }
}
