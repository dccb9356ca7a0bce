/** Where a thing is, in the artist's words: up and deep, from the left and the front wall, what it stands on. */
import { heightOf, holdOf, nameOf, thingsOf } from '../../core/scene/edit/things.ts';
import type { PlacementFile, SceneFile } from '../../core/scene/edit/file.ts';
import type { Hold } from '../../core/scene/scene.ts';
import { STOP_TOLERANCE_MM } from '../../core/scene/tolerance.ts';

/** Depth under the finished show face of a height, mm; and the height of a depth: the rule is the same both ways. */
export function deepOf(file: Pick<SceneFile, 'cast' | 'fillMm'>, upMm: number): number {
  return file.cast === 'face-down' ? upMm : tidied(file.fillMm - upMm);
}

/** Half the mold's inside at the floor, mm. */
export function halfSizes({ mold }: Pick<SceneFile, 'mold'>): { readonly xMm: number; readonly yMm: number } {
  return mold.shape === 'round' ? { xMm: mold.diameterMm / 2, yMm: mold.diameterMm / 2 } : { xMm: mold.lengthMm / 2, yMm: mold.widthMm / 2 };
}

/** mm from the left and from the front wall at the floor, to the middle of the thing. */
export function fromWalls(file: SceneFile, at: { readonly xMm?: number; readonly yMm?: number }): { readonly leftMm: number; readonly frontMm: number } {
  const half = halfSizes(file);
  return { leftMm: tidied((at.xMm ?? 0) + half.xMm), frontMm: tidied((at.yMm ?? 0) + half.yMm) };
}

/** The other way. */
export function intoMold(file: SceneFile, from: { readonly leftMm?: number; readonly frontMm?: number }): { readonly xMm?: number; readonly yMm?: number } {
  const half = halfSizes(file);
  return {
    ...(from.leftMm !== undefined && { xMm: tidied(from.leftMm - half.xMm) }),
    ...(from.frontMm !== undefined && { yMm: tidied(from.frontMm - half.yMm) }),
  };
}

export const HOLDS: readonly { readonly value: Hold; readonly words: string }[] = [
  { value: 'rests', words: 'set down on the poured surface' },
  { value: 'stands', words: 'standing loose' },
  { value: 'fixed', words: 'fastened before the first pour' },
  { value: 'rod', words: 'on a rod' },
  { value: 'thread', words: 'on a thread' },
];

const SHORT: Readonly<Record<Hold, string>> = { rests: 'rests', stands: 'stands', fixed: 'is fastened', rod: 'is on a rod', thread: 'hangs by a thread' };

/** Where neither a plane nor the floor is there to be named. */
const ON: Partial<Readonly<Record<Hold, string>>> = { rests: ' on the poured surface', stands: ' on what is below it', fixed: ' to what is below it' };

/** `rests on Lily shadows, under Lily pads`. */
export function standingWords(file: SceneFile, placement: PlacementFile): string {
  const up = heightOf(placement);
  const planes = thingsOf(file).filter((each) => each.kind === 'plane' && each.id !== placement.id).sort((a, b) => heightOf(a) - heightOf(b));
  const above = planes.find((plane) => heightOf(plane) > up + STOP_TOLERANCE_MM);
  const under = above ? `, under ${nameOf(above)}` : '';
  if (placement.kind === 'plane') return up <= STOP_TOLERANCE_MM ? `painted on the floor${under}` : Math.abs(up - file.fillMm) <= STOP_TOLERANCE_MM ? 'painted on the top' : `painted on the cured resin${under}`;
  const hold = SHORT[holdOf(placement) ?? 'rests'];
  const plane = planes.find((each) => Math.abs(heightOf(each) - up) <= STOP_TOLERANCE_MM);
  if (plane) return `${hold} on ${nameOf(plane)}${under}`;
  if (up <= STOP_TOLERANCE_MM) return `${hold} on the floor${under}`;
  return `${hold}${ON[holdOf(placement) ?? 'rests'] ?? ''}${under}`;
}

/** `its plane`, `the floor`, `the bed`: what a thing is slid over. */
export function standingOn(file: SceneFile, placement: PlacementFile): string {
  const up = heightOf(placement);
  if (thingsOf(file).some((each) => each.kind === 'plane' && each.id !== placement.id && Math.abs(each.atMm - up) <= STOP_TOLERANCE_MM)) return 'its plane';
  if (up <= STOP_TOLERANCE_MM) return 'the floor';
  return holdOf(placement) === 'rests' ? 'the poured surface' : 'what is below it';
}

function tidied(value: number): number {
  return Number(value.toFixed(6)) || 0;
}
