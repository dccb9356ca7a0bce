/**
 * Judges heat for one plan after the other. What was judged before is remembered pour by pour, from the floor up: a
 * change higher up leaves what is below it known, and a planning that is broken off goes on from there when it is
 * begun again. So judging can be done in short turns, and whoever waits gets in between.
 */
import type { CupAsked, CupVerdict } from '../core/cure/cup.ts';
import type { CureFamily } from '../core/cure/family-types.ts';
import type { TestCup } from '../core/cure/test-cup.ts';
import { beginBuild, type BuildSoFar, type JudgedPour } from '../core/cure/verdict.ts';
import type { HeatSeries } from '../core/cure/verdict-series.ts';
import type { BuildPour, Fix } from '../core/cure/verdict-types.ts';
import { judgedAs } from '../core/plan/box/as-planned.ts';
import type { HeatJudge, HeatSoFar } from '../core/plan/heat-judge.ts';
import { simulatedHeat } from '../core/plan/heat-simulated.ts';
import type { Plan } from '../core/plan/plan.ts';
import type { Formula, Mold, Room, Scene } from '../core/scene/scene.ts';
import { parseLocalTime } from '../core/units/time.ts';
import { HeatPause } from './heat-pause.ts';

type Members = 'mean' | 'all';

/** Some 100 kB each. */
const MOST_FAMILIES = 30;
/** Pours that are remembered, some 100 kB each with what is below them. */
const MOST_POURS = 300;
/** ms of judging in one turn; a turn also takes at least as long as the planning around it, so that half of the time is well spent. */
const TURN_MS = 60;

/** A pour that was judged, with what was asked of it, and all that was poured on it. */
interface Known {
  readonly judged: JudgedPour;
  readonly above: Map<string, Known>;
  fixes: readonly Fix[] | null;
}

/** Called before each piece of work; breaks off what is too much. */
type Spend = () => void;

export class RememberedHeat {
  readonly #families = new Map<string, CureFamily>();
  readonly #familyIds = new WeakMap<CureFamily, number>();
  readonly #poured = new Map<string, Map<string, Known>>();
  readonly #cups = new Map<string, CupVerdict>();
  #lastId = 0;
  #pours = 0;

  /** The middle member of every family that is known, at once; breaks off where one is not. */
  quick({ testCups }: Scene): HeatJudge {
    return this.#judge(testCups, 'mean', () => {}, () => {
      throw new HeatPause();
    });
  }

  /** Every member of every family. Gives a judge for each turn. */
  whole({ testCups }: Scene): () => HeatJudge {
    this.#makeRoom();
    return () => {
      const spend = turn();
      return this.#judge(testCups, 'all', spend, spend);
    };
  }

  /** Temperatures of one pour, for its chart. */
  series(scene: Scene, plan: Plan, index: number): HeatSeries {
    return this.#chain(scene, plan.pours.slice(0, index), 'all')[index - 1].series();
  }

  /** How warm the middle member has each pour, °C, and that member of each formula. */
  middle(scene: Scene, plan: Plan): { hottestC: number[]; familyOf: (formula: Formula) => CureFamily } {
    const chain = this.#chain(scene, plan.pours, 'mean');
    const { familyOf } = this.#judge(scene.testCups, 'mean', () => {}, () => {});
    // A verdict's range doubts the depth as well; the look has it as it is.
    return { hottestC: chain.map((judged) => Math.max(...judged.series().middleC)), familyOf };
  }

  #chain(scene: Scene, pours: Plan['pours'], members: Members): JudgedPour[] {
    const judge = this.#judge(scene.testCups, members, () => {}, () => {});
    let soFar = judge.begin(scene.mold, scene.room) as BuildSoFar;
    return pours.map(({ starts, fromMm, toMm, formula: id }, i) => {
      const formula = scene.formulas.get(id)!;
      const judged = soFar.pour({ fromMin: parseLocalTime(starts)!, depthMm: toMm - fromMm, formula, family: judge.familyOf(formula), ...judgedAs(scene.room, pours, i) });
      soFar = judged.then;
      return judged;
    });
  }

  #makeRoom(): void {
    if (this.#families.size > MOST_FAMILIES) this.#families.clear();
    if (this.#pours < MOST_POURS) return;
    this.#poured.clear();
    this.#cups.clear();
    this.#pours = 0;
  }

  /** `spend` before a pour or a cup is judged, `making` before a family is made. */
  #judge(testCups: readonly TestCup[], members: Members, spend: Spend, making: Spend): HeatJudge {
    const inner = simulatedHeat(testCups, { members, families: this.#families });
    const cupsOf = (formula: Formula) => testCups.filter((cup) => cup.formula === formula.id);
    const familyOf = (formula: Formula): CureFamily => {
      // As the simulation itself names it.
      if (!this.#families.has(JSON.stringify([formula, cupsOf(formula)]))) making();
      return inner.familyOf(formula);
    };
    return {
      model: inner.model,
      familyOf,
      cup: (formula, asked) => this.#cup(inner, { formula, asked, key: `${members} ${this.#idOf(familyOf(formula))} ${JSON.stringify(asked)}` }, spend),
      // A remedy's own resin is made within the remedy: broken off there, it would never be done.
      begin: (mold, room) => this.#remembering(beginBuild(mold, room, { members, familyOf: inner.familyOf }), this.#bottomOf(members, mold, room), { members, spend }),
    };
  }

  #cup(inner: HeatJudge, { formula, asked, key }: { formula: Formula; asked: CupAsked; key: string }, spend: Spend): CupVerdict {
    const known = this.#cups.get(key);
    if (known) return known;
    spend();
    const verdict = inner.cup(formula, asked);
    this.#cups.set(key, verdict);
    return verdict;
  }

  #bottomOf(members: Members, mold: Mold, room: Room): Map<string, Known> {
    // How damp the air is, and who sleeps there, does nothing to its heat.
    const key = JSON.stringify([members, mold, room.temperatureC, room.profile.map(({ fromMin, temperatureC }) => [fromMin, temperatureC])]);
    let known = this.#poured.get(key);
    if (!known) this.#poured.set(key, (known = new Map()));
    return known;
  }

  #remembering(soFar: BuildSoFar, above: Map<string, Known>, how: { readonly members: Members; readonly spend: Spend }): HeatSoFar & BuildSoFar {
    const { members, spend } = how;
    return {
      pour: (pour) => {
        const key = this.#keyOf(pour);
        const known = above.get(key) ?? this.#judged(soFar, pour, spend);
        above.set(key, known);
        return {
          verdict: known.judged.verdict,
          then: this.#remembering(known.judged.then, known.above, how),
          fixes: () => {
            // In haste nobody reads them.
            if (members === 'mean') return [];
            if (known.fixes === null) {
              spend();
              known.fixes = known.judged.fixes();
            }
            return [...known.fixes];
          },
          series: () => known.judged.series(),
        };
      },
    };
  }

  #judged(soFar: BuildSoFar, pour: BuildPour, spend: Spend): Known {
    spend();
    this.#pours++;
    return { judged: soFar.pour(pour), above: new Map(), fixes: null };
  }

  #keyOf({ fromMin, depthMm, family, mixC, room }: BuildPour): string {
    return `${fromMin} ${depthMm} ${this.#idOf(family)} ${mixC}${room ? ` ${JSON.stringify(room.profile)}` : ''}`;
  }

  #idOf(family: CureFamily): number {
    let id = this.#familyIds.get(family);
    if (id === undefined) this.#familyIds.set(family, (id = ++this.#lastId));
    return id;
  }
}

/** Every turn does one piece of work at least, so that all get done. */
function turn(): Spend {
  const beganMs = performance.now();
  let firstMs: number | null = null;
  return () => {
    const nowMs = performance.now();
    if (firstMs === null) firstMs = nowMs;
    else if (nowMs - firstMs > Math.max(TURN_MS, firstMs - beganMs)) throw new HeatPause();
  };
}
