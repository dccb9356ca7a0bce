/**
 * How molds, the table and what is cast in conduct and store heat. Conductivities of walls: situation.ts. Densities and
 * heat capacities of walls: EN ISO 10077-2 and 10456 and engineers' handbooks (physics-tables §2.2) unless said;
 * silicone's and glass's heat capacity and all of foam from memory. What is cast in: handbook values from memory
 * (Incropera & DeWitt, appendix A, for metals, stone, glass, wood, cork and paraffin; the rest ordinary plastics tables),
 * a conductivity to one digit, which is all that a figure's effect on its neighborhood needs.
 */
import type { MoldMaterial } from '../../scene/scene.ts';
import type { ThermalMaterial } from '../kinetics.ts';
import { WALL_CONDUCTIVITY } from '../situation.ts';

const WALL_STORES: Readonly<Record<MoldMaterial, readonly [densityKgPerM3: number, heatCapacityJPerKgK: number]>> = {
  silicone: [1200, 1200],
  hdpe: [950, 2200],
  acrylic: [1180, 1500],
  glass: [2500, 800],
  wood: [700, 1255],
  foam: [30, 1400],
};

/** A board of hardwood, as a bench has. */
export const TABLE_MATERIAL: ThermalMaterial = { densityKgPerM3: 700, heatCapacityJPerKgK: 1255, conductivityWPerMK: 0.16 };

const CAST_IN: Readonly<Record<string, readonly [conductivityWPerMK: number, heatCapacityJPerKgK: number]>> = {
  pla: [0.13, 1800],
  petg: [0.2, 1300],
  'print-resin': [0.2, 1500],
  polyurethane: [0.2, 1700],
  'polymer-clay': [0.2, 1200],
  'epoxy-putty': [0.4, 1200],
  'air-dry-clay': [0.2, 1100],
  plaster: [0.3, 1090],
  ceramic: [1, 900],
  wax: [0.24, 2900],
  silicone: [0.35, 1200],
  acrylic: [0.18, 1500],
  glass: [1, 800],
  stone: [2.5, 800],
  shell: [2.2, 810],
  steel: [50, 450],
  brass: [110, 380],
  copper: [390, 385],
  wood: [0.16, 1300],
  driftwood: [0.12, 1400],
  cork: [0.04, 1800],
  foam: [0.035, 1400],
  plant: [0.15, 1800],
};
/** Of a thing of which nothing is said: a plastic. */
const UNKNOWN = [0.2, 1400] as const;

export function wallMaterial(material: MoldMaterial): ThermalMaterial {
  const [densityKgPerM3, heatCapacityJPerKgK] = WALL_STORES[material];
  return { densityKgPerM3, heatCapacityJPerKgK, conductivityWPerMK: WALL_CONDUCTIVITY[material] };
}

/** @param material a key of MATERIALS (core/resin), or none. */
export function castInMaterial(material: string | undefined, densityGPerMl: number): ThermalMaterial {
  const [conductivityWPerMK, heatCapacityJPerKgK] = material !== undefined && Object.hasOwn(CAST_IN, material) ? CAST_IN[material] : UNKNOWN;
  return { densityKgPerM3: 1000 * densityGPerMl, heatCapacityJPerKgK, conductivityWPerMK };
}
