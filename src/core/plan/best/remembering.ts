/** A judge that is asked for the same pours again and again, by plans that begin alike: each is judged once. */
import type { BuildPour } from '../../cure/verdict-types.ts';
import type { HeatJudge, HeatSoFar, Judged } from '../heat-judge.ts';

interface Known {
  readonly judged: Judged;
  readonly then: HeatSoFar;
}

/** Remembers for one mold and room, as long as it is held. */
export function remembering(judge: HeatJudge): HeatJudge {
  const begun = new Map<string, HeatSoFar>();
  return {
    ...judge,
    begin: (mold, room) => {
      const key = JSON.stringify([mold, room]);
      const known = begun.get(key) ?? rememberingAbove(judge.begin(mold, room));
      begun.set(key, known);
      return known;
    },
  };
}

function rememberingAbove(soFar: HeatSoFar): HeatSoFar {
  const above = new Map<string, Known>();
  return {
    pour: (pour) => {
      const key = keyOf(pour);
      let known = above.get(key);
      if (!known) {
        const judged = soFar.pour(pour);
        above.set(key, (known = { judged, then: rememberingAbove(judged.then) }));
      }
      const { judged, then } = known;
      return { verdict: judged.verdict, then, fixes: () => judged.fixes() };
    },
  };
}

function keyOf({ fromMin, depthMm, formula, mixC, room }: BuildPour): string {
  return JSON.stringify([fromMin, depthMm, formula.id, mixC, room]);
}
