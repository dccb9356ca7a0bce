/** Findings about where and from what a piece is poured: the air of the room and under figures, the curing box, the bottles. */
import { airFindings } from './air/air-findings.ts';
import { airUnder } from './air/air-under.ts';
import { bottleFindings } from './air/bottles.ts';
import { boxFindings } from './box/box-findings.ts';
import type { Planned } from './context.ts';
import type { Finding } from './plan.ts';

export function placeFindings(planned: Planned): Finding[] {
  return [...boxFindings(planned), ...bottleFindings(planned), ...airFindings(planned), ...airUnder(planned)];
}
