/** Sums of profiles, some taken away: how united and clipped solids are counted without building them. */

import type { Profile } from './solid.ts';

export interface Term {
  readonly profile: Profile;
  /** +1 counted, −1 taken away (an overlap), or a share (a bed's grains). */
  readonly factor: number;
}

/** mm³ between two heights, summed over the terms. */
export function volumeBetween(terms: readonly Term[], fromMm: number, toMm: number): number {
  let sum = 0;
  for (const { profile, factor } of terms) {
    if (toMm <= profile.bottomMm || fromMm >= profile.topMm) continue;
    sum += factor * (profile.volumeBelow(toMm) - profile.volumeBelow(fromMm));
  }
  return sum;
}

/** mm² of section at z, summed over the terms. */
export function sectionAt(terms: readonly Term[], zMm: number): number {
  let sum = 0;
  for (const { profile, factor } of terms) {
    if (zMm >= profile.bottomMm && zMm < profile.topMm) sum += factor * profile.areaAt(zMm);
  }
  return sum;
}
