import { isCounted } from '../units/when.ts';
import type { Plan } from './plan.ts';

/** Whether nobody has said yet when the first day is: the days of the plan are counted, and no time in it is a real one. */
export function isUndated({ pours }: Pick<Plan, 'pours'>): boolean {
  return pours.some(({ starts }) => isCounted(starts));
}
