/** What a drawing of the section asks of the scene: which pours are tinted, which way figures look. */
import type { Plan } from '../core/plan/plan.ts';
import type { Scene } from '../core/scene/scene.ts';

/** Numbers of the pours whose fill has a tint. */
export function tintedPours({ fills }: Pick<Scene, 'fills'>, { pours }: Pick<Plan, 'pours'>): ReadonlySet<number> {
  const tintedAt = (mm: number): boolean => fills.find(({ toMm }) => mm < toMm)?.tint !== undefined;
  return new Set(pours.filter(({ fromMm, toMm }) => tintedAt((fromMm + toMm) / 2)).map(({ index }) => index));
}

/** Ids of figures turned so that their front, which is made at +x, lies to the left. */
export function leftwardFigures({ placements }: Pick<Scene, 'placements'>): ReadonlySet<string> {
  const left = placements.filter((placement) => placement.kind === 'figure' && Math.cos((placement.turnDeg[2] * Math.PI) / 180) < 0);
  return new Set(left.map(({ id }) => id));
}
