/**
 * The best plan under heat, in rounds. Each plan that the search finds is laid out and judged by the heat model on what
 * really lies below it. What is too deep or too early becomes a lesson for that formula in that layer (less depth, later
 * moments), and the search begins again with it: the next best plan takes the place of one that fails. Lessons only
 * tighten, so the rounds end. They are cautious: one pour's lesson holds for every pour of its layer. So of all plans that
 * were laid and judged, the even one among them, the best by the goal's own measure stands.
 *
 * `coolest` asks for the least temperature that a pour may reach, as judged. Of pours not judged yet a table tells it, made
 * from the verdicts of the plans laid so far (warmth.ts); rounds go on until the search finds a plan that was laid before.
 */
import type { Scene } from '../../scene/scene.ts';
import { compareInOrder } from '../in-order.ts';
import { bestPlan, prepare, type BestPlan, type NoPlan } from './best-plan.ts';
import { evenCandidate } from './even-candidate.ts';
import { problemOf, type Lesson } from './from-scene.ts';
import { layPlan, type BestLaid, type BestRequest } from './lay-plan.ts';
import { stricter } from './lessons.ts';
import type { Goal } from './problem.ts';
import { standingOf } from './standing.ts';
import { withVerdicts, type WarmthTable } from './warmth.ts';

/** Far more than layers and formulas ask for; after them the best that was laid stands. */
const MOST_ROUNDS = 24;

export type LayBest = { readonly ok: true; readonly laid: BestLaid } | { readonly ok: false; readonly why: NoPlan };

export function layBest(scene: Scene, goal: Goal, request: BestRequest): LayBest {
  const lessons = new Map<string, Lesson>();
  // By the label the search is exact; but what it saves may be less than anyone weighs, and then the even plan does as well.
  const even = request.heat || goal === 'cheapest' ? request.even() : null;
  let warmth: WarmthTable | null = even && request.heat && goal === 'coolest' ? withVerdicts(new Map(), even.pours, even.schedule) : null;
  const seen = new Set<string>();
  let best: BestLaid | null = null;
  let why: NoPlan | null = null;
  const offer = (laid: BestLaid) => {
    if (!best || compareInOrder(standingOf(goal, laid), standingOf(goal, best)) < 0) best = laid;
  };
  for (let round = 0; round <= MOST_ROUNDS; round++) {
    const ready = prepare(problemOf(scene, { ...request, lessons, warmth }));
    const found = ready.ok ? bestPlan(ready.found, goal) : ready;
    // What heat asks for can't be had with these lines: the best that was laid stands, with its findings.
    if (!ready.ok || !found.ok) {
      why = (found as { why: NoPlan }).why;
      break;
    }
    const prepared = ready.found;
    if (even && round === 0) {
      const candidate = evenCandidate(scene, even, { ...request, prepared });
      if (candidate) offer(candidate);
    }
    const { laid, awake, learned } = layPlan(scene, found.found, { ...request, prepared });
    if (awake) offer({ ...laid, prepared });
    if (!request.heat) break;
    const before = JSON.stringify([...lessons]);
    for (const [key, lesson] of learned) lessons.set(key, stricter(lessons.get(key), lesson));
    const isNew = JSON.stringify([...lessons]) !== before;
    if (warmth) warmth = withVerdicts(warmth, laid.pours, laid.schedule);
    const key = linesOf(found.found);
    if (!isNew && (!warmth || seen.has(key))) break;
    seen.add(key);
  }
  return best ? { ok: true, laid: best } : { ok: false, why: why ?? 'times' };
}

function linesOf({ pours }: BestPlan): string {
  return JSON.stringify(pours.map(({ toMm, formula, route, starts }) => [toMm, formula.id, route, starts]));
}
