/** The mold's fields: sizes, lean, corners, material, wall, whether the piece stays in it. */
import { moldMaterialWords } from '../../resin/material-words.ts';
import { plain } from '../../units/format.ts';
import type { MoldMaterial } from '../scene.ts';
import { done, refused, type EditResult, type MoldFile, type SceneFile } from './file.ts';
import { patched } from './replace.ts';

export type MoldField = 'lengthMm' | 'widthMm' | 'diameterMm' | 'heightMm' | 'draftDeg' | 'cornerRadiusMm' | 'material' | 'wallMm' | 'keep';

export interface MoldFieldInfo {
  readonly field: MoldField;
  readonly words: string;
  readonly kind: 'length' | 'angle' | 'choice' | 'yes-no';
  /** What it is until someone touches it; none: it is always given. */
  readonly usual?: number | string | boolean;
}

const MATERIAL_CHOICES: readonly MoldMaterial[] = ['silicone', 'hdpe', 'acrylic', 'glass', 'wood', 'foam'];

const BOX: readonly MoldFieldInfo[] = [
  { field: 'lengthMm', words: 'inside length', kind: 'length' },
  { field: 'widthMm', words: 'inside width', kind: 'length' },
];
const ROUND: readonly MoldFieldInfo[] = [{ field: 'diameterMm', words: 'inside diameter', kind: 'length' }];
const CORNERS: readonly MoldFieldInfo[] = [{ field: 'cornerRadiusMm', words: 'corner radius', kind: 'length', usual: 0 }];
const COMMON: readonly MoldFieldInfo[] = [
  { field: 'heightMm', words: 'inside height', kind: 'length' },
  { field: 'draftDeg', words: 'lean of the walls', kind: 'angle', usual: 0 },
  { field: 'material', words: 'made of', kind: 'choice', usual: 'silicone' },
  { field: 'wallMm', words: 'wall', kind: 'length', usual: 8 },
  { field: 'keep', words: 'the piece stays in it', kind: 'yes-no', usual: false },
];

/** `mold 210 mm long`. */
const SIZE_WORDS: Readonly<Record<string, string>> = { lengthMm: 'long', widthMm: 'wide', diameterMm: 'across', heightMm: 'high' };

/** The fields of a mold of this shape, in the order they are asked. */
export function moldFields(shape: MoldFile['shape']): readonly MoldFieldInfo[] {
  return shape === 'box' ? [...BOX, ...COMMON, ...CORNERS] : [...ROUND, ...COMMON];
}

export { MATERIAL_CHOICES as MOLD_MATERIALS };

/** A field's value, given or usual. */
export function moldValue(mold: MoldFile, field: MoldField): number | string | boolean | undefined {
  const given = (mold as unknown as Record<string, number | string | boolean | undefined>)[field];
  return given ?? moldFields(mold.shape).find((info) => info.field === field)?.usual;
}

/** Sets a field of the mold; `null` goes back to the usual value. Corners too round for a smaller box become as round as fits. */
export function setMold(file: SceneFile, field: MoldField, value: number | string | boolean | null): EditResult {
  const info = moldFields(file.mold.shape).find((each) => each.field === field);
  if (!info) return refused(`A ${file.mold.shape} mold has no such size.`);
  if (value === null && info.usual === undefined) return refused(`The ${info.words} is needed; type another instead.`);
  const mold = fitCorners(patched(file.mold, { [field]: value ?? undefined } as Partial<MoldFile>) as MoldFile);
  const shown = typeof value === 'number' ? `${plain(value, 3)}${info.kind === 'angle' ? '°' : '\u00a0mm'}` : value === true ? 'yes' : value === false ? 'no' : value === null ? 'as usual' : moldMaterialWords(value);
  const size = SIZE_WORDS[field];
  return done(patched(file, { mold }), size ? `mold ${shown} ${size}` : `mold: ${info.words} ${shown}`, info.words);
}

/** Several sizes at once, as by dragging a corner. */
export function setMoldSizes(file: SceneFile, sizes: { readonly lengthMm?: number; readonly widthMm?: number; readonly diameterMm?: number; readonly heightMm?: number }): EditResult {
  const wrong = Object.keys(sizes).find((field) => !moldFields(file.mold.shape).some((info) => info.field === field));
  if (wrong) return refused(`A ${file.mold.shape} mold has no such size.`);
  const given = Object.entries(sizes).filter(([, value]) => value !== undefined);
  const mold = fitCorners(patched(file.mold, Object.fromEntries(given) as Partial<MoldFile>) as MoldFile);
  const [field, value] = given[0] ?? ['', 0];
  return done(patched(file, { mold }), given.length === 1 ? `mold ${plain(value, 3)}\u00a0mm ${SIZE_WORDS[field]}` : 'mold sized', 'mold');
}

/** A box for a round mold, or the other way about: as wide as it was. */
export function setMoldShape(file: SceneFile, shape: MoldFile['shape']): EditResult {
  const { mold } = file;
  if (shape === mold.shape) return done(file, `${shape} mold`);
  const next =
    mold.shape === 'box'
      ? patched(mold as object, { shape: 'round', diameterMm: Math.min(mold.lengthMm, mold.widthMm), lengthMm: undefined, widthMm: undefined, cornerRadiusMm: undefined } as object)
      : patched(mold as object, { shape: 'box', lengthMm: mold.diameterMm, widthMm: mold.diameterMm, diameterMm: undefined } as object);
  return done(patched(file, { mold: next as MoldFile }), `${shape} mold`);
}

function fitCorners(mold: MoldFile): MoldFile {
  if (mold.shape !== 'box' || mold.cornerRadiusMm === undefined) return mold;
  const most = Math.min(mold.lengthMm, mold.widthMm) / 2;
  return most > 0 && mold.cornerRadiusMm > most ? patched(mold, { cornerRadiusMm: most }) : mold;
}
