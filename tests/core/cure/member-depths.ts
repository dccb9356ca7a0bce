/** What every member of a class's family bears in one place, each solved directly. */
import type { Trial } from '../../../src/core/cure/build-run.ts';
import { FAMILY_STACK } from '../../../src/core/cure/family-anchor.ts';
import { familyOf } from '../../../src/core/cure/family.ts';
import { weightedQuantile, type CureFamily } from '../../../src/core/cure/family-types.ts';
import { wallU } from '../../../src/core/cure/film.ts';
import { tabulated } from '../../../src/core/cure/rate-table.ts';
import { depthBorne } from '../../../src/core/cure/safe-depth.ts';
import { labelCooling, WALL_CONDUCTIVITY } from '../../../src/core/cure/situation.ts';
import { startStack } from '../../../src/core/cure/stack.ts';
import { completeFormula } from '../../../src/core/resin/formula.ts';
import type { Family, Formula, MoldMaterial } from '../../../src/core/scene/scene.ts';

export interface Place {
  readonly roomC?: number;
  /** The mold's floor; the label's thin wall where none is given. */
  readonly wall?: { readonly material: MoldMaterial; readonly mm: number };
}

const FAMILIES = new Map<Family, CureFamily>();

export function classFormula(family: Family): Formula {
  return completeFormula({ id: family === 'uv' ? 'accent' : family, family });
}

/** Made once. */
export function classFamily(family: Family): CureFamily {
  const known = FAMILIES.get(family) ?? familyOf(classFormula(family));
  FAMILIES.set(family, known);
  return known;
}

/** Shares of the label's depth, member by member, in a mold without side walls. */
export function sharesBorne(name: Family, { roomC = 23, wall }: Place): number[] {
  const family = classFamily(name);
  const { maxDepthMm } = classFormula(name);
  const { concernC } = family;
  const trial: Trial = { depthMm: maxDepthMm, atS: 0, mixC: roomC, room: [{ fromS: 0, temperatureC: roomC }] };
  return family.members.map((member, place) => {
    const label = labelCooling(member);
    const cooling = wall ? { ...label, bottomHWPerM2K: wallU(member.underHWPerM2K, wall.mm / 1000 / WALL_CONDUCTIVITY[wall.material]) } : label;
    const ready = { ground: startStack({ room: trial.room, ...cooling }, FAMILY_STACK), pour: { family, place, law: tabulated(member.kinetics), bondS: Infinity, cooling } };
    return depthBorne(ready, { maxDepthMm, concernC, trial }, { mostMm: maxDepthMm, fromMm: maxDepthMm }) / maxDepthMm;
  });
}

export function quantile(values: readonly number[], share: number): number {
  return weightedQuantile(values, values.map(() => 1 / values.length), share);
}

/** Half of what lies between 5 and 95 %. */
export function halfSpread(values: readonly number[]): number {
  return (quantile(values, 0.95) - quantile(values, 0.05)) / 2;
}
