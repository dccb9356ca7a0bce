/**
 * Which bubbles still get out of a pour: Stokes' rise through a liquid that thickens as it cures.
 * v = 2Δρ g r²/(9η), η = η₀ e^((E/R)(1/T − 1/T₀)) (αg/(αg − α))^(A + Bα) (Castro & Macosko 1982, AIChE J. 28:250).
 */
import { GAS_J_PER_MOL_K, ZERO_C_IN_K } from './kinetics.ts';

export const GRAVITY_M_PER_S2 = 9.80665;
const AIR_KG_PER_M3 = 1.2;
/** How a liquid casting resin thins with warmth (physics §5: ×0.456 from 25 to 35 °C), from memory. */
const VISCOSITY_E_J_PER_MOL = 60_000;
/** Growth to the gel: exponent A + Bα, both from memory for unfilled epoxies. */
const GROWTH = { a: 1.5, b: 1 } as const;
/** Under this a bubble can't be told from the resin without a loupe (common practice, no source), mm across. */
const UNSEEN_MM = 0.05;
/** From this on single bubbles are seen across a room's table (common practice, no source), mm across. */
const PLAIN_MM = 0.15;

export interface Bubbles {
  /** Diameter of the smallest bubble that rises through the whole pour before it thickens; smaller ones may stay. */
  readonly smallestMm: number;
  readonly words: string;
}

/** Viscosity at `temperatureC` over that at `fromC`, before any cure. */
export function viscosityFactor(temperatureC: number, fromC: number): number {
  return Math.exp((VISCOSITY_E_J_PER_MOL / GAS_J_PER_MOL_K) * (1 / (temperatureC + ZERO_C_IN_K) - 1 / (fromC + ZERO_C_IN_K)));
}

/** Viscosity at a conversion over that of the fresh mix; Infinity from the gel on. */
export function thickening(alpha: number, gelAlpha: number, growth: { readonly a: number; readonly b: number } = GROWTH): number {
  if (alpha >= gelAlpha) return Infinity;
  const a = Math.max(0, alpha);
  return (gelAlpha / (gelAlpha - a)) ** (growth.a + growth.b * a);
}

/** Diameter of the smallest bubble that gets out of `depthMm`, mm (Stokes 1851), given ∫ dt/η over the time it is liquid, 1/Pa. Infinity: none does. */
export function smallestBubbleMm(depthMm: number, fluidityPerPa: number, densityKgPerM3: number): number {
  if (fluidityPerPa <= 0) return Infinity;
  const radiusM = Math.sqrt((9 * depthMm * 1e-3) / (2 * (densityKgPerM3 - AIR_KG_PER_M3) * GRAVITY_M_PER_S2 * fluidityPerPa));
  return 2 * radiusM * 1000;
}

/** What the eye will make of it. */
export function bubblesOf(smallestMm: number): Bubbles {
  const shown = Number.isFinite(smallestMm) ? `${Number(smallestMm.toPrecision(1))}\u00a0mm` : 'any size';
  if (smallestMm <= UNSEEN_MM) return { smallestMm, words: `Clears like glass: only bubbles under ${shown} may stay, too fine to see.` };
  if (smallestMm <= PLAIN_MM) return { smallestMm, words: `Clears well: bubbles under ${shown} may stay and show only against light.` };
  return { smallestMm, words: `May stay hazy: bubbles under ${shown} don’t get out in time. Warm the bottles before mixing, stir slowly, or pour thinner.` };
}
