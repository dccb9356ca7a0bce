import type { Plan } from '../../core/plan/plan.ts';

/** Whether nobody has said yet when the first day is: the plan counts from a day of its own, and no time in it is a real one. */
export function isUndated({ findings }: Plan): boolean {
  return findings.some(({ code }) => code === 'start-assumed');
}
