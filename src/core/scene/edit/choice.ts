/** Formulas to choose from for any layer, and how long one cup takes to pour out: what a goal other than even pours may do. */
import { plain } from '../../units/format.ts';
import { refused, type EditResult, type SceneFile } from './file.ts';
import { withParts } from './parts.ts';

/** Null: each fill keeps its own. */
export function choiceOf(file: SceneFile): readonly string[] | null {
  return file.plan?.formulas ?? null;
}

/** Takes a formula into the choice or out of it. The first one taken in brings those that are poured now; an empty choice is none. */
export function chooseFrom(file: SceneFile, id: string, may: boolean): EditResult {
  const now = choiceOf(file) ?? [...new Set(file.fills.map(({ formula }) => formula))];
  const next = may ? [...new Set([...now, id])] : now.filter((each) => each !== id);
  if (next.length === 0) return refused('Nothing would be left to pour. Leave one formula, or let each fill keep its own.');
  return withParts(file, { plan: { formulas: next } }, may ? 'one more formula to choose from' : 'one formula fewer to choose from', 'formulas');
}

/** Each fill is poured with its own again. */
export function keepOwnFormulas(file: SceneFile): EditResult {
  return withParts(file, { plan: { formulas: undefined } }, 'each fill keeps its formula', 'formulas');
}

/** Minutes from mixing one cup to having it poured out; `null`: not asked. */
export function setCupMin(file: SceneFile, minutes: number | null): EditResult {
  return withParts(file, { plan: { cupMin: minutes ?? undefined } }, minutes === null ? 'any time for a cup' : `${plain(minutes, 1)}\u00a0min for a cup`, 'to mix and pour out one cup');
}
