/** Where a painted creature would stand, from the front: for the section, which shows it dashed. */
import type { Creature } from '../scene/scene.ts';
import type { Polygon } from '../sheet/polygon.ts';
import { builtTop } from './eye.ts';
import type { Stratum } from './water.ts';

export interface Standing {
  readonly topMm: number;
  /** mm in x–z. */
  readonly outline: readonly Polygon[];
}

/** `outline` as it is turned and sized, its middle and its lowest point at 0; built deeper than it is where it asks for that. */
export function standing({ xMm, baseMm, read }: Pick<Creature, 'xMm' | 'baseMm' | 'read'>, outline: readonly Polygon[], { tallMm, strata }: { readonly tallMm: number; readonly strata: readonly Stratum[] }): Standing {
  const topMm = read?.stretch ? builtTop(strata, baseMm, tallMm) : baseMm + tallMm;
  const stretch = (topMm - baseMm) / tallMm;
  const placed = (ring: Polygon['outer']): Polygon['outer'] => ring.map(([x, z]) => [x + xMm, baseMm + stretch * z] as const);
  return { topMm, outline: outline.map(({ outer, holes }) => ({ outer: placed(outer), holes: holes.map(placed) })) };
}
