/** Whether a solid rises in the resin around it, how deep a pour its own weight holds, and the steel that would hold it. */
import { STEEL_G_PER_ML, typicalDensity } from '../resin/materials.ts';
import { mixOf } from '../resin/formula.ts';
import type { Profile } from '../solid/solid.ts';
import type { Scene, SolidPlacement } from '../scene/scene.ts';
import { STOP_TOLERANCE_MM } from '../scene/tolerance.ts';

const MM3_PER_ML = 1000;
/** Share of the depth at which it would rise that a locking pour may have (common practice, no source). */
const LOCK_SHARE = 0.8;
/** Lift below this is arithmetic noise, g. */
const NOISE_G = 1e-9;

export interface Floating {
  readonly massG: number | null;
  /** The mass comes from the material's typical density, not from a scale. */
  readonly massIsTypical: boolean;
  readonly liftG: number | null;
  /** It rises, and nothing holds it. */
  readonly floats: boolean;
  readonly safeLockMm: number | null;
  readonly steelG: number | null;
}

/** `profile` is the posed solid's own; null when its volume can't be trusted. */
export function floatingOf(scene: Scene, placement: SolidPlacement, profile: Profile | null): Floating {
  const mass = massOf(placement, profile);
  const unknown: Floating = { ...mass, liftG: null, floats: false, safeLockMm: null, steelG: null };
  if (mass.massG === null || profile === null) return unknown;
  const rho = densestTouched(scene, profile);
  if (rho === null) return { ...unknown, liftG: -mass.massG };
  const share = placement.kind === 'bed' ? 1 - placement.voidFraction : 1;
  const wetMl = (share * profile.volumeBelow(scene.fillMm)) / MM3_PER_ML;
  const liftG = rho * wetMl - mass.massG;
  const loose = placement.hold === 'rests' || placement.hold === 'stands' || placement.hold === 'thread';
  if (liftG <= NOISE_G || !loose) return { ...mass, liftG, floats: false, safeLockMm: null, steelG: null };
  const risesMm = profile.levelOf((mass.massG / (rho * share)) * MM3_PER_ML) - profile.bottomMm;
  return { ...mass, liftG, floats: true, safeLockMm: LOCK_SHARE * risesMm, steelG: liftG / (1 - rho / STEEL_G_PER_ML) };
}

function massOf(placement: SolidPlacement, profile: Profile | null): { massG: number | null; massIsTypical: boolean } {
  if (placement.massG !== undefined) return { massG: placement.massG, massIsTypical: false };
  const typical = placement.material === undefined ? undefined : typicalDensity(placement.material);
  const density = placement.densityGPerMl ?? typical;
  if (density === undefined || profile === null) return { massG: null, massIsTypical: false };
  const share = placement.kind === 'bed' ? 1 - placement.voidFraction : 1;
  return { massG: (density * share * profile.volumeMm3) / MM3_PER_ML, massIsTypical: placement.densityGPerMl === undefined };
}

/** Mixed density of the densest formula it reaches into; a fill it only stands on is not touched. null: it is out of the resin. */
function densestTouched(scene: Scene, profile: Profile): number | null {
  let densest: number | null = null;
  let bottom = 0;
  for (const fill of scene.fills) {
    const overlap = Math.min(fill.toMm, profile.topMm) - Math.max(bottom, profile.bottomMm);
    if (overlap > STOP_TOLERANCE_MM) densest = Math.max(densest ?? 0, mixOf(scene.formulas.get(fill.formula)!).densityGPerMl);
    bottom = fill.toMm;
  }
  return densest;
}
