/**
 * Where a pour gives off its heat: the open face, the mold's floor and its walls, for this mold and for the label's.
 *
 * Modeled: one dimension through the middle of the mold. The label's situation is a first pour in a wide, thin-walled
 * mold with one open face: no loss to the sides at all. Side walls therefore only ever help here, and only by what
 * they take from the middle, once it has had time to feel them. A narrow tall mold is harsher than a wide shallow one
 * of the same volume because its pours are deeper, and the more so the more its walls insulate. Corners, and the heat
 * that a thick wall stores, are left out: both would cool.
 */
import type { Mold, MoldMaterial } from '../scene/scene.ts';
import type { Member } from './family-types.ts';
import { wallU } from './film.ts';
import type { ThermalMaterial } from './kinetics.ts';

/** Handbook conductivities, W/mK (physics-tables §2.2: EN ISO 10077-2 and 10456; hardwood from an engineer's handbook); foam from memory. */
export const WALL_CONDUCTIVITY: Readonly<Record<MoldMaterial, number>> = { silicone: 0.35, hdpe: 0.5, acrylic: 0.18, glass: 1, wood: 0.16, foam: 0.035 };

/** A thin wall, as labels have it: 5 mm of plastic or 9 mm of silicone rubber, m²K/W. With a film of 10 it lets 8 W/m²K through. */
export const LABEL_WALL_M2K_PER_W = 0.025;

/** When the heat of a pour comes, in 1/k2 at the label's temperature: 0.75, and 0.37 in a room 10 °C warmer. The sooner counts here. */
const HEAT_COMES_IN_K2 = 0.35;
const HALVINGS = 40;

export interface Cooling {
  readonly topHWPerM2K: number;
  readonly bottomHWPerM2K: number;
  readonly sideWPerM3K: number;
}

export function labelCooling({ topHWPerM2K, underHWPerM2K }: Pick<Member, 'topHWPerM2K' | 'underHWPerM2K'>): Cooling {
  return { topHWPerM2K, bottomHWPerM2K: wallU(underHWPerM2K, LABEL_WALL_M2K_PER_W), sideWPerM3K: 0 };
}

export function coolingIn(mold: Mold, member: Member): Cooling {
  const { topHWPerM2K, underHWPerM2K, material, kinetics } = member;
  const wall = wallResistance(mold);
  const besideU = wallU(underHWPerM2K, wall);
  const heatComesS = HEAT_COMES_IN_K2 / kinetics.k2PerS;
  const sideWPerM3K = halfWidthsMm(mold).reduce((sum, halfMm) => sum + sideLoss(halfMm / 1000, { u: besideU, material, afterS: heatComesS }), 0);
  return { topHWPerM2K, bottomHWPerM2K: wallU(underHWPerM2K, wall), sideWPerM3K };
}

/**
 * What two facing walls take from the middle between them, W/m³K: k (ζ/b)² with ζ tan ζ = Bi, the slowest mode of a
 * slab that cools (Incropera, one-term solution). The middle feels none of it until C e^(−ζ² Fo) has fallen to 1; that
 * part of the time until the heat comes is taken off.
 */
function sideLoss(halfM: number, { u, material, afterS }: { u: number; material: ThermalMaterial; afterS: number }): number {
  const { conductivityWPerMK: k, densityKgPerM3, heatCapacityJPerKgK } = material;
  const zeta = slabRoot((u * halfM) / k);
  const amplitude = (4 * Math.sin(zeta)) / (2 * zeta + Math.sin(2 * zeta));
  const fourier = (k * afterS) / (densityKgPerM3 * heatCapacityJPerKgK * halfM * halfM);
  const felt = Math.max(0, 1 - Math.log(amplitude) / (zeta * zeta * fourier));
  return k * (zeta / halfM) ** 2 * felt;
}

/** First root of ζ tan ζ = Bi, between 0 and π/2. */
export function slabRoot(biot: number): number {
  let [low, high] = [0, Math.PI / 2];
  for (let i = 0; i < HALVINGS; i++) {
    const middle = (low + high) / 2;
    if (middle * Math.tan(middle) < biot) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/** Of the two pairs of walls. A round mold counts as the square around it: its walls take a little more than that. */
function halfWidthsMm(mold: Mold): readonly number[] {
  return mold.shape === 'round' ? [mold.diameterMm / 2, mold.diameterMm / 2] : [mold.lengthMm / 2, mold.widthMm / 2];
}

/** m²K/W. */
export function wallResistance({ material, wallMm }: Mold): number {
  return wallMm / 1000 / WALL_CONDUCTIVITY[material];
}

/** At the floor, where it is the smallest. */
export function sectionOf(mold: Mold): { readonly perimeterMm: number; readonly areaMm2: number } {
  if (mold.shape === 'round') return { perimeterMm: Math.PI * mold.diameterMm, areaMm2: (Math.PI * mold.diameterMm ** 2) / 4 };
  const { lengthMm, widthMm, cornerRadiusMm: r } = mold;
  return { perimeterMm: 2 * (lengthMm + widthMm) - (8 - 2 * Math.PI) * r, areaMm2: lengthMm * widthMm - (4 - Math.PI) * r * r };
}
