/**
 * Typical densities of what figures and beds are made of, g/mL: the middle of the range seen.
 * From memory unless said; PLA and PETG from an additive-manufacturing materials reference.
 */
const RANGES: Readonly<Record<string, readonly [number, number]>> = {
  pla: [1.22, 1.26],
  petg: [1.25, 1.29],
  'print-resin': [1.15, 1.2],
  polyurethane: [1.03, 1.1],
  'polymer-clay': [1.6, 1.9],
  'epoxy-putty': [1.5, 2.1],
  'air-dry-clay': [0.3, 0.6],
  plaster: [1.1, 1.3],
  ceramic: [1.8, 2.2],
  wax: [0.9, 0.95],
  silicone: [1.1, 1.1],
  acrylic: [1.18, 1.18],
  glass: [2.5, 2.5],
  stone: [2.5, 2.8],
  shell: [2.7, 2.9],
  steel: [7.85, 7.85],
  brass: [8.5, 8.5],
  copper: [8.9, 8.9],
  wood: [0.4, 0.75],
  driftwood: [0.3, 0.6],
  cork: [0.2, 0.2],
  foam: [0.03, 0.03],
  plant: [0.3, 0.7],
};

export const MATERIALS: readonly string[] = Object.keys(RANGES);

/** Typical density of a material, g/mL; undefined for one that is not on the list. */
export function typicalDensity(material: string): number | undefined {
  const range = Object.hasOwn(RANGES, material) ? RANGES[material] : undefined;
  return range && (range[0] + range[1]) / 2;
}

/** Density of steel, g/mL, for the weight that would hold a floater down. */
export const STEEL_G_PER_ML = 7.85;
