/** Hours in which someone sleeps by the mold. */
import type { BenchHours } from '../../scene/scene.ts';
import { benchCalendar } from '../bench-calendar.ts';

/** Whether a pour from one moment to the next is liquid while someone sleeps there. */
export function curesInSleep(sleep: readonly BenchHours[], startsMin: number, opensMin: number): boolean {
  for (const night of benchCalendar(sleep).spans(startsMin)) return night.from < opensMin && night.to > startsMin;
  return false;
}
