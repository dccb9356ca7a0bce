/** A judge of heat that knows from earlier runs what it said of the same pours in the same mold and room. */
import type { CupVerdict } from '../../core/cure/cup.ts';
import type { CureFamily } from '../../core/cure/family-types.ts';
import type { BuildPour, Fix, PourVerdict } from '../../core/cure/verdict-types.ts';
import type { HeatJudge, HeatSoFar, Judged } from '../../core/plan/heat-judge.ts';
import { simulatedHeat } from '../../core/plan/heat-simulated.ts';
import type { Scene } from '../../core/scene/scene.ts';
import type { Kept } from './kept-files.ts';

/** A pour that was judged, and all that was poured on it. */
interface Known {
  readonly verdict: PourVerdict;
  fixes: readonly Fix[] | null;
  readonly above: Map<string, Known>;
}

type Pours = Map<string, Known>;

interface Found {
  readonly families: Map<string, CureFamily>;
  readonly cups: Map<string, CupVerdict>;
  /** What is poured on the floor, by mold and room. */
  readonly begun: Map<string, Pours>;
}

export interface KeptHeat {
  readonly judge: HeatJudge;
  /** Keeps what was new for the next run. */
  keep(): void;
}

/** One scene tried in many forms: beyond this it begins anew. */
const MOST_POURS = 2_000;

/** As `simulatedHeat`, for one scene. */
export function keptHeat({ mold, room, testCups }: Pick<Scene, 'mold' | 'room' | 'testCups'>, kept: Kept): KeptHeat {
  const key = `heat ${JSON.stringify([mold, room, testCups])}`;
  const found = (kept.get(key) as Found | undefined) ?? { families: new Map(), cups: new Map(), begun: new Map() };
  const inner = simulatedHeat(testCups, { families: found.families });
  const familiesKept = found.families.size;
  let isNew = false;
  const once = <T>(among: Map<string, T>, key: string, make: () => T): T => {
    const known = among.get(key);
    if (known !== undefined) return known;
    isNew = true;
    const made = make();
    among.set(key, made);
    return made;
  };
  /** `below` is solved only for a pour that is not known. */
  const on = (below: () => HeatSoFar, above: Pours): HeatSoFar => ({
    pour: (pour) => {
      let solved: Judged | undefined;
      const judged = () => (solved ??= below().pour(pour));
      const known = once(above, keyOf(pour), (): Known => ({ verdict: judged().verdict, fixes: null, above: new Map() }));
      return {
        verdict: known.verdict,
        then: on(() => judged().then, known.above),
        fixes: () => {
          isNew ||= known.fixes === null;
          return (known.fixes ??= judged().fixes());
        },
      };
    },
  });
  return {
    judge: {
      ...inner,
      cup: (formula, asked) => once(found.cups, JSON.stringify([formula, asked]), () => inner.cup(formula, asked)),
      begin: (mold, room) => on(() => inner.begin(mold, room), once(found.begun, JSON.stringify([mold, room]), () => new Map())),
    },
    keep() {
      if (!isNew && found.families.size === familiesKept) return;
      if ([...found.begun.values()].reduce((sum, pours) => sum + countOf(pours), 0) > MOST_POURS) found.begun.clear();
      kept.put(key, found);
    },
  };
}

function countOf(pours: Pours): number {
  return [...pours.values()].reduce((sum, { above }) => sum + 1 + countOf(above), 0);
}

/** With the whole formula: its label may have been edited since. */
function keyOf({ fromMin, depthMm, formula, mixC, room }: BuildPour): string {
  return JSON.stringify([fromMin, depthMm, formula, mixC, room]);
}
