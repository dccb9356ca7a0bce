/** How a solid is held where nobody said. */
import type { Hold, SolidPlacement } from './scene.ts';
import { STOP_TOLERANCE_MM } from './tolerance.ts';

/** A bed is fastened; a figure off the floor rests on what is under it, one on the floor stands. */
export function usualHold(kind: SolidPlacement['kind'], baseMm: number): Hold {
  if (kind === 'bed') return 'fixed';
  return baseMm > STOP_TOLERANCE_MM ? 'rests' : 'stands';
}
