/** Noticing by its size that a mesh was read in the wrong unit. */
import type { Bounds } from '../../solid/solid.ts';
import type { MeshUnit } from '../scene.ts';
import { done, refused, type EditResult, type MoldFile, type SceneFile } from './file.ts';
import { patched } from './replace.ts';
import { nameOf, spoken, thing, withThings } from './things.ts';

/** mm to one of each. */
const MM_PER: Readonly<Record<MeshUnit, number>> = { mm: 1, cm: 10, m: 1000, in: 25.4 };
/** In the order they are met in model files. */
const LIKELY: readonly MeshUnit[] = ['mm', 'in', 'cm', 'm'];
/** Larger than this many molds, or smaller than this share of one, nobody means it. */
const TOO_LARGE = 2;
const TOO_SMALL = 0.03;
/** Mended, it should be at least this share of the mold. */
const MENDED_SHARE = 0.1;

/** The unit that would make a mesh of this drawn size fit the mold; null where its size is no wonder, or no unit mends it. */
export function likelyUnit(mold: MoldFile, bounds: Bounds, unitNow: MeshUnit): MeshUnit | null {
  const size = Math.max(...bounds.max.map((high, i) => high - bounds.min[i]));
  const room = Math.max(mold.shape === 'round' ? mold.diameterMm : Math.max(mold.lengthMm, mold.widthMm), mold.heightMm);
  if (!(size > 0) || (size <= TOO_LARGE * room && size >= TOO_SMALL * room)) return null;
  const fitting = LIKELY.filter((unit) => unit !== unitNow).filter((unit) => {
    const then = (size / MM_PER[unitNow]) * MM_PER[unit];
    return then <= room && then >= MENDED_SHARE * room;
  });
  return fitting[0] ?? null;
}

/** The unit a mesh is read in; null where its file says its own (3MF). */
export function unitOf(shape: { readonly file: string; readonly unit?: MeshUnit }): MeshUnit | null {
  if (shape.unit) return shape.unit;
  if (/\.3mf$/i.test(shape.file)) return null;
  return /\.(glb|gltf)$/i.test(shape.file) ? 'm' : 'mm';
}

export function setMeshUnit(file: SceneFile, id: string, unit: MeshUnit): EditResult {
  const placement = thing(file, id);
  if (!placement || placement.kind === 'plane' || placement.shape.type !== 'mesh') return refused('Only a figure or bed from a file has a unit.');
  const shape = patched(placement.shape, { unit });
  return done(withThings(file, (each) => (each === placement ? patched(placement, { shape }) : each)), `${spoken(nameOf(placement))} in ${unit}`, 'unit');
}
