/**
 * Three ways to tell whether a thing floats, offered at once: weigh it, measure it in water, or say what it is made of.
 *
 * A weight wins over a density, a density over a material's typical one. Weighing sets `massG`; measuring in water
 * sets `densityGPerMl` (a weight and a volume); a material sets `material`. Setting one never takes another out, except that a density measured now takes the place of a weight.
 */
import { materialWords } from '../../resin/material-words.ts';
import { MATERIALS, typicalDensity } from '../../resin/materials.ts';
import { plain } from '../../units/format.ts';
import { done, refused, type EditResult, type PlacementFile, type SceneFile } from './file.ts';
import { patched } from './replace.ts';
import { nameOf, spoken, thing, withThings } from './things.ts';

export type WeightWay = 'weighed' | 'measured' | 'material' | 'unknown';

export interface WeightState {
  /** Which way is in force. */
  readonly inForce: WeightWay;
  /** Weight in g by each way, where it is known; `volumeMl` is the thing's own (null: not known yet). */
  readonly weighedG: number | null;
  readonly measuredG: number | null;
  readonly materialG: number | null;
  /** `5.4 g on the scale`, `about 7.4 g, if it is solid PLA print`. */
  readonly words: string;
}

/** What is known of a thing's weight, and by which way. */
export function weightState(placement: PlacementFile, volumeMl: number | null): WeightState {
  if (placement.kind === 'plane') return { inForce: 'unknown', weighedG: null, measuredG: null, materialG: null, words: 'a plane has no weight' };
  const { massG, densityGPerMl, material } = placement;
  const typical = material === undefined ? undefined : typicalDensity(material);
  const times = (density: number | undefined) => (density === undefined || volumeMl === null ? null : density * volumeMl);
  const weights = { weighedG: massG ?? null, measuredG: times(densityGPerMl), materialG: times(typical) };
  const grams = (g: number) => `${plain(g, 1)}\u00a0g`;
  if (massG !== undefined) return { ...weights, inForce: 'weighed', words: `${grams(massG)} on the scale` };
  if (densityGPerMl !== undefined) return { ...weights, inForce: 'measured', words: `${plain(densityGPerMl, 3)}\u00a0g/mL${weights.measuredG === null ? '' : `, so ${grams(weights.measuredG)}`}` };
  if (typical !== undefined) return { ...weights, inForce: 'material', words: weights.materialG === null ? `typical ${materialWords(material!)}` : `about ${grams(weights.materialG)}, if it is solid ${materialWords(material!)}` };
  return { ...weights, inForce: 'unknown', words: 'no weight yet' };
}

/** What the scale said, g; `null` takes it out again. */
export function setWeight(file: SceneFile, id: string, massG: number | null): EditResult {
  if (massG !== null && !(massG > 0)) return refused(`Found ${massG}; expected a weight above 0 g. Weigh it again, or leave it out.`);
  return withSolid(file, id, { massG: massG ?? undefined }, massG === null ? 'weight taken out' : `weighs ${plain(massG, 2)}\u00a0g`, 'weight');
}

/** What it is made of: a material's typical density stands in where no weight is known; `null` takes it out. */
export function setMaterial(file: SceneFile, id: string, material: string | null): EditResult {
  if (material !== null && !MATERIALS.includes(material)) return refused(`Found “${material.slice(0, 40)}”; expected one of ${MATERIALS.map(materialWords).join(', ')}.`);
  return withSolid(file, id, { material: material ?? undefined }, material === null ? 'material taken out' : `made of ${materialWords(material)}`, 'material');
}

/** What water said: the volume it rose by, mL, and the weight on the scale, g. The drawn shape stays, with this density. */
export function setMeasuredDensity(file: SceneFile, id: string, measured: { readonly volumeMl: number; readonly massG: number }): EditResult {
  const { volumeMl, massG } = measured;
  if (!(volumeMl > 0) || !Number.isFinite(volumeMl)) return refused(`Found ${volumeMl}; expected the volume the water rose by, above 0 mL.`);
  if (!(massG > 0) || !Number.isFinite(massG)) return refused(`Found ${massG}; expected the weight on the scale, above 0 g.`);
  return withSolid(file, id, { densityGPerMl: massG / volumeMl, massG: undefined }, `${plain(massG / volumeMl, 3)}\u00a0g/mL, measured in water`, 'density');
}

/** Water read off a kitchen or lab cylinder agrees with a true shape within this share (common practice, no source). */
const WATER_AGREES = 0.1;

/**
 * Where what the water rose by, mL, contradicts the shape it is set in with, mL: how many times longer, wider and higher the
 * shape would have to be (cube root of the volumes' ratio). Null where they agree.
 */
export function waterContradicts(waterMl: number, shapeMl: number): { readonly sizeTimes: number } | null {
  if (!(waterMl > 0) || !(shapeMl > 0) || Math.abs(shapeMl - waterMl) <= WATER_AGREES * waterMl) return null;
  return { sizeTimes: Math.cbrt(waterMl / shapeMl) };
}

/** Brings one way into force by taking out those that win over it. */
export function useWay(file: SceneFile, id: string, way: 'measured' | 'material'): EditResult {
  const placement = thing(file, id);
  if (!placement || placement.kind === 'plane') return refused('Only figures and beds are weighed. Choose one.');
  if (way === 'measured' && placement.densityGPerMl === undefined) return refused('It has not been measured in water yet.');
  if (way === 'material' && (placement.material === undefined || typicalDensity(placement.material) === undefined)) return refused('Say what it is made of first.');
  return withSolid(file, id, way === 'measured' ? { massG: undefined } : { massG: undefined, densityGPerMl: undefined }, way === 'measured' ? 'by its measured density' : `as typical ${materialWords(placement.material!)}`, 'weight');
}

function withSolid(file: SceneFile, id: string, patch: Partial<Exclude<PlacementFile, { kind: 'plane' }>>, words: string, subject: string): EditResult {
  const placement = thing(file, id);
  if (!placement || placement.kind === 'plane') return refused('Only figures and beds are weighed. Choose one.');
  return done(
    withThings(file, (each) => (each === placement ? (patched(placement, patch) as PlacementFile) : each)),
    `${spoken(nameOf(placement))} ${words}`,
    subject,
  );
}
