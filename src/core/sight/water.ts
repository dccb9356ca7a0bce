/**
 * What light goes through between the show face and a height: flat strata of resin, each with its refractive index and its
 * dye. A ray keeps n sin θ from stratum to stratum (Snell's law; Born & Wolf, Principles of Optics, 3.2).
 */
import type { Plan } from '../plan/plan.ts';
import type { Lamp, Scene, Tint } from '../scene/scene.ts';

export interface Stratum {
  readonly fromMm: number;
  readonly toMm: number;
  readonly index: number;
  /** With the percent that is poured; null: clear. */
  readonly tint: Tint | null;
}

/** A way straight down through one resin, mm. */
export interface Step {
  readonly mm: number;
  readonly stratum: Stratum;
}

/** From the floor up, as the fills say. */
export function strataOf({ fills, formulas }: Pick<Scene, 'fills' | 'formulas'>): Stratum[] {
  return fills.map(({ toMm, formula, tint }, i) => ({ fromMm: i === 0 ? 0 : fills[i - 1].toMm, toMm, index: formulas.get(formula)!.refractiveIndex, tint: tint && tint.percent > 0 ? tint : null }));
}

/** As a plan pours it: where it chose a formula or worked a dye out, that one. */
export function pouredStrata(scene: Pick<Scene, 'fills' | 'formulas'>, { pours }: Pick<Plan, 'pours'>): Stratum[] {
  const { fills, formulas } = scene;
  if (pours.length === 0) return strataOf(scene);
  return pours.map(({ fromMm, toMm, formula, tint: poured }, i) => {
    const { tint } = fills.find((fill) => (fromMm + toMm) / 2 <= fill.toMm) ?? fills[fills.length - 1];
    // What no pour fills, a bed takes up: the strata join on all the same.
    return { fromMm: i === 0 ? 0 : pours[i - 1].toMm, toMm, index: formulas.get(formula)!.refractiveIndex, tint: poured && tint ? { ...tint, percent: poured.percent } : null };
  });
}

/** Between two heights, in either order, from the floor up; nothing of what is outside the resin. */
export function stepsBetween(strata: readonly Stratum[], aMm: number, bMm: number): Step[] {
  const [low, high] = aMm < bMm ? [aMm, bMm] : [bMm, aMm];
  return strata.flatMap((stratum): Step[] => {
    const mm = Math.min(high, stratum.toMm) - Math.max(low, stratum.fromMm);
    return mm > 0 ? [{ mm, stratum }] : [];
  });
}

/** Height of the show face. */
export function faceMm({ cast, fillMm }: Pick<Scene, 'cast' | 'fillMm'>): number {
  return cast === 'face-down' ? 0 : fillMm;
}

/** Height of what is seen last: the floor, or the top of a face-down casting. */
export function backMm({ cast, fillMm }: Pick<Scene, 'cast' | 'fillMm'>): number {
  return cast === 'face-down' ? fillMm : 0;
}

/** tan θ′ in resin of an index, for a ray whose n sin θ is `sine`, that of its angle in air; 0 ≤ sine ≤ 1 ≤ index. */
export function tanInside(sine: number, index: number): number {
  return sine / Math.sqrt((index - sine) * (index + sine));
}

/** How far a ray goes sideways on its way, mm. */
export function asideMm(steps: readonly Step[], sine: number): number {
  return steps.reduce((sum, { mm, stratum: { index } }) => sum + mm * tanInside(sine, index), 0);
}

/** How deep something looks, seen from straight above: Σ d/n (apparent depth, paraxial). */
export function seenDepthMm(steps: readonly Step[]): number {
  return steps.reduce((sum, { mm, stratum: { index } }) => sum + mm / index, 0);
}

/** n sin θ of a lamp's light, that of its angle off the straight look at the face. */
export function lampSine({ aboveDeg }: Lamp): number {
  return Math.cos((aboveDeg * Math.PI) / 180);
}
