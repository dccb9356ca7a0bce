/**
 * The faces of a piece as it leaves its mold: how large, how each is to be finished, by which grits. In the order they
 * are worked on: what nobody looks at first, the show face last. Areas are the mold's, mm².
 */
import type { FaceFinish, Finishing, Mold, Scene } from '../../scene/scene.ts';
import { moldAreaAt } from '../../solid/mold.ts';

/** Wet, each crosswise to the one before (trade's ladder, common practice, no source). */
const LADDER: readonly number[] = [180, 240, 320, 400, 600, 800, 1000, 1500, 2000, 3000];
/** The last grit of each finish: satin (from memory, no source), tooth for a coat, ready for compound. */
const LAST_GRIT: Partial<Readonly<Record<FaceFinish, number>>> = { sanded: 600, 'flood-coat': 400, polished: 3000 };

export type FaceName = 'top' | 'bottom' | 'side' | 'front' | 'right' | 'back' | 'left';

export interface FaceAt {
  readonly face: FaceName;
  /** `top`, `front side`. */
  readonly words: string;
  readonly finish: FaceFinish;
  readonly areaMm2: number;
  /** Empty where it is left as it is, or painted and only to be coated. */
  readonly grits: readonly number[];
}

/** Faces that are sanded and polished in one go: the sides of a box together. */
export interface FaceWork extends Omit<FaceAt, 'face'> {
  readonly group: 'top' | 'sides' | 'bottom';
}

/** The same faces with the sides as one, in their order. */
export function worksOf(faces: readonly FaceAt[]): FaceWork[] {
  const works: FaceWork[] = [];
  for (const { face, ...rest } of faces) {
    const group = face === 'top' || face === 'bottom' ? face : 'sides';
    const known = works.findIndex((work) => work.group === group);
    if (known < 0) works.push({ ...rest, group, words: face === group || face === 'side' ? rest.words : 'four sides' });
    else works[known] = { ...works[known], areaMm2: works[known].areaMm2 + rest.areaMm2 };
  }
  return works;
}

/** The faces that are worked on. A piece that stays in its mold has only its top; a round side that should be coated is polished. */
export function facesOf({ mold, fillMm, cast, finishing }: Pick<Scene, 'mold' | 'fillMm' | 'cast'> & { readonly finishing: Finishing }, paintedTop: boolean): FaceAt[] {
  const top = faceOf('top', 'top', finishing.top, moldAreaAt(mold, fillMm), paintedTop && finishing.top === 'flood-coat');
  if (mold.keep) return [top].filter(isWorked);
  const bottom = faceOf('bottom', 'bottom', finishing.bottom, moldAreaAt(mold, 0));
  const sides = sidesOf(mold, fillMm).map(({ face, areaMm2 }) => faceOf(face, face === 'side' ? 'side' : `${face} side`, rollsAway(mold, finishing) ? 'polished' : finishing.sides, areaMm2));
  return (cast === 'face-up' ? [bottom, ...sides, top] : [top, ...sides, bottom]).filter(isWorked);
}

/** No coat levels on a round side. */
export function rollsAway(mold: Mold, { sides }: Pick<Finishing, 'sides'>): boolean {
  return mold.shape === 'round' && sides === 'flood-coat' && !mold.keep;
}

/** All edges of the piece, mm: around top and bottom, and of a box its four upright ones. */
export function edgesMm(mold: Mold, fillMm: number): number {
  const [low, high] = [aroundMm(mold, 0), aroundMm(mold, fillMm)];
  return low + high + (mold.shape === 'box' && mold.cornerRadiusMm === 0 ? 4 * slantMm(mold, fillMm) : 0);
}

function faceOf(face: FaceName, words: string, finish: FaceFinish, areaMm2: number, painted = false): FaceAt {
  const last = painted ? undefined : LAST_GRIT[finish];
  return { face, words, finish, areaMm2, grits: last === undefined ? [] : LADDER.filter((grit) => grit <= last) };
}

const isWorked = ({ finish }: FaceAt): boolean => finish !== 'as-cast' && finish !== 'hidden';

/** Of rounded corners each side has its half of two. Exact without draft, and for cones. */
function sidesOf(mold: Mold, fillMm: number): { face: FaceName; areaMm2: number }[] {
  const slant = slantMm(mold, fillMm);
  if (mold.shape === 'round') return [{ face: 'side', areaMm2: ((aroundMm(mold, 0) + aroundMm(mold, fillMm)) / 2) * slant }];
  const wider = fillMm * leanOf(mold);
  const area = (lengthMm: number) => (lengthMm + wider - (2 - Math.PI / 2) * mold.cornerRadiusMm) * slant;
  const [long, wide] = [area(mold.lengthMm), area(mold.widthMm)];
  return [{ face: 'front', areaMm2: long }, { face: 'right', areaMm2: wide }, { face: 'back', areaMm2: long }, { face: 'left', areaMm2: wide }];
}

function aroundMm(mold: Mold, zMm: number): number {
  const wider = 2 * zMm * leanOf(mold);
  if (mold.shape === 'round') return Math.PI * (mold.diameterMm + wider);
  return 2 * (mold.lengthMm + mold.widthMm + 2 * wider) - (8 - 2 * Math.PI) * mold.cornerRadiusMm;
}

const leanOf = ({ draftDeg }: Mold): number => Math.tan((draftDeg * Math.PI) / 180);
const slantMm = (mold: Mold, fillMm: number): number => fillMm * Math.hypot(1, leanOf(mold));
