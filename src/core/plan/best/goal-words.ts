/** What the other goals' plans would cost or save against the chosen one, in days, pours, money and degrees. */
import type { PlanGoal } from '../../scene/scene.ts';
import { counted, fixed, grams, listed, percent, plain, span } from '../../units/format.ts';
import { parseLocalTime } from '../../units/time.ts';
import type { GoalRow, Plan } from '../plan.ts';

export const GOAL_NAMES: Readonly<Record<PlanGoal, string>> = {
  even: 'Even pours',
  fewest: 'Fewest pours',
  soonest: 'Soonest done',
  coolest: 'Coolest',
  cheapest: 'Cheapest',
};

/** Differences under these are not told beside others: an hour, a gram, a cent, a hundredth of a limit, half a degree. */
const TOLD = { min: 60, g: 1, money: 0.01, share: 0.01, degrees: 0.5 } as const;

/** A line for each other goal: `Soonest done: 2 d sooner, 2 pours more.` */
export function otherGoals(plan: Pick<Plan, 'goals' | 'goal'>): string[] {
  return besideGoal(plan).map(({ goal, words }) => `${GOAL_NAMES[goal]}: ${words}.`);
}

/** The other goals, each with what it would cost or save: `2 d sooner, 2 pours more`. */
export function besideGoal({ goals, goal }: Pick<Plan, 'goals' | 'goal'>): { readonly goal: PlanGoal; readonly words: string }[] {
  const ours = goals?.find((row) => row.goal === goal);
  if (!ours) return [];
  return goals!.filter((row) => row !== ours).map((row) => ({ goal: row.goal, words: differences(ours, row) }));
}

function differences(ours: GoalRow, other: GoalRow): string {
  const later = parseLocalTime(other.finish)! - parseLocalTime(ours.finish)!;
  const told: string[] = [];
  if (Math.abs(later) >= TOLD.min) told.push(`${span(Math.abs(later))} ${later > 0 ? 'later' : 'sooner'}`);
  if (other.pours !== ours.pours) told.push(`${counted(Math.abs(other.pours - ours.pours), 'pour')} ${other.pours > ours.pours ? 'more' : 'fewer'}`);
  if (ours.cost !== null && other.cost !== null) {
    const more = other.cost - ours.cost;
    if (Math.abs(more) >= TOLD.money) told.push(`${fixed(Math.abs(more), 2)} ${ours.currency} ${more > 0 ? 'more' : 'less'}`);
  } else if (Math.abs(other.mixG - ours.mixG) >= TOLD.g) {
    told.push(`${grams(Math.abs(other.mixG - ours.mixG))} of resin ${other.mixG > ours.mixG ? 'more' : 'less'}`);
  }
  if (ours.warmestC !== null && other.warmestC !== null) {
    const warmer = other.warmestC - ours.warmestC;
    if (Math.abs(warmer) >= TOLD.degrees) told.push(`${plain(Math.abs(warmer), 0)}\u00a0°C ${warmer > 0 ? 'warmer' : 'cooler'} at most`);
  } else if (Math.abs(other.fullest - ours.fullest) >= TOLD.share) {
    told.push(`its fullest pour at ${percent(other.fullest, 0)} of the label’s depth instead of ${percent(ours.fullest, 0)}`);
  }
  // Under an hour, and nothing else to tell: another plan is still not called the same.
  const words = told.length > 0 ? listed(told) : later !== 0 ? `${span(Math.abs(later))} ${later > 0 ? 'later' : 'sooner'}` : 'the same';
  if (ours.keeps === false) return `${words}; it keeps to what you asked`;
  return other.keeps === false ? `${words}; it does not keep to what you asked` : words;
}
