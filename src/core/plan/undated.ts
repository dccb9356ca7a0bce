import type { Plan } from './plan.ts';

/** Whether nobody has said yet when the first day is: the plan's days are counted (units/when.ts), and no time in it is a real one. Of pieces poured together it is so for all where it is for one. */
export function isUndated({ findings }: Pick<Plan, 'findings'>): boolean {
  return findings.some(({ code }) => code === 'start-assumed');
}
