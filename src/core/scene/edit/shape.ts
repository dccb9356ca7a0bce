/** The shape of a figure or bed: its sizes, or another shape in its place. */
import type { Shape } from '../scene.ts';
import { done, refused, type EditResult, type SceneFile } from './file.ts';
import { patched } from './replace.ts';
import { isLocked, nameOf, spoken, thing, withThings } from './things.ts';

export interface SizeField {
  readonly field: string;
  readonly words: string;
  readonly unit: 'mm' | 'mL';
}

const LENGTH: SizeField = { field: 'lengthMm', words: 'length', unit: 'mm' };
const WIDTH: SizeField = { field: 'widthMm', words: 'width', unit: 'mm' };
const HEIGHT: SizeField = { field: 'heightMm', words: 'height', unit: 'mm' };
const RADIUS: SizeField = { field: 'radiusMm', words: 'radius', unit: 'mm' };

/** The sizes that a shape is drawn from; none for a file or one of our own figures. */
export function sizeFields(shape: Shape): readonly SizeField[] {
  switch (shape.type) {
    case 'sphere': return [RADIUS];
    case 'cylinder': case 'cone': return [RADIUS, HEIGHT];
    case 'ellipsoid': case 'box': case 'wedge': return [LENGTH, WIDTH, HEIGHT];
    case 'measured': return [{ field: 'volumeMl', words: 'measured volume', unit: 'mL' }, LENGTH, WIDTH, HEIGHT];
    case 'cap': return [{ field: 'sphereRadiusMm', words: 'radius of the ball', unit: 'mm' }, { field: 'rimRadiusMm', words: 'radius of the rim', unit: 'mm' }];
    case 'mesh': case 'library': return [];
  }
}

export function setSize(file: SceneFile, id: string, field: string, value: number): EditResult {
  const placement = thing(file, id);
  if (!placement || placement.kind === 'plane') return refused('Only figures and beds have such a size.');
  const info = sizeFields(placement.shape).find((each) => each.field === field);
  if (!info) return refused(`${nameOf(placement)} has no such size.`);
  return setShape(file, id, { ...placement.shape, [field]: value } as Shape, `${info.words} ${value}\u00a0${info.unit}`, info.words);
}

/** Puts another shape in its place; position, turn, weight and name stay. */
function setShape(file: SceneFile, id: string, shape: Shape, words = 'another shape', subject = 'shape'): EditResult {
  const placement = thing(file, id);
  if (!placement || placement.kind === 'plane') return refused('Only figures and beds have a shape.');
  if (isLocked(placement)) return refused(`${nameOf(placement)} is locked. Unlock it first.`);
  return done(withThings(file, (each) => (each === placement ? patched(placement, { shape }) : each)), `${spoken(nameOf(placement))}: ${words}`, `${nameOf(placement)}, ${subject}`);
}
