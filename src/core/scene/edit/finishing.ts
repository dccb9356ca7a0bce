/** How the piece is to be finished: its faces, edges and base, a coat, a warm rest, hours of one’s own. */
import { plain } from '../../units/format.ts';
import type { FaceFinish, Finishing } from '../scene.ts';
import { done, refused, type EditResult, type FinishingFile, type SceneFile } from './file.ts';
import { patched, type Patch } from './replace.ts';

export const FACE_CHOICES: readonly { readonly value: FaceFinish; readonly words: string }[] = [
  { value: 'as-cast', words: 'as it is cast' },
  { value: 'sanded', words: 'sanded to satin' },
  { value: 'polished', words: 'polished' },
  { value: 'flood-coat', words: 'flood coat' },
  { value: 'hidden', words: 'hidden' },
];
export const BASE_CHOICES: readonly { readonly value: Finishing['base']; readonly words: string }[] = [
  { value: 'none', words: 'nothing' },
  { value: 'felt', words: 'felt' },
  { value: 'wood', words: 'wooden base' },
  { value: 'light', words: 'lit base' },
];
export type FinishHour = keyof Finishing['hours'];
export const HOUR_FIELDS: readonly { readonly field: FinishHour; readonly words: string }[] = [
  { field: 'trim', words: 'time to trim' },
  { field: 'edges', words: 'time for the edges' },
  { field: 'sand', words: 'time to sand, all faces' },
  { field: 'coat', words: 'time for one coat' },
  { field: 'polish', words: 'time to polish, all faces' },
  { field: 'base', words: 'time for the base' },
];
export type FaceField = 'top' | 'sides' | 'bottom';

/** What holds until someone says otherwise, as reading has it. */
export const USUAL_FINISH = { edgeMm: 1, coat: { formula: 'coating', mm: 2 }, cost: 0 } as const;
/** A warm rest begins with the trade’s (common practice, from memory). */
const FIRST_WARM_REST = { temperatureC: 50, hours: 6 };

export function finishOf(file: SceneFile): FinishingFile | null {
  return file.finishing ?? null;
}

export function faceOf(file: SceneFile, face: FaceField): FaceFinish {
  return file.finishing?.[face] ?? 'as-cast';
}

export function isCoated(file: SceneFile): boolean {
  return (['top', 'sides', 'bottom'] as const).some((face) => faceOf(file, face) === 'flood-coat');
}

/** From here on it is in the calendar and the cost. */
export function planFinish(file: SceneFile): EditResult {
  return file.finishing ? { ok: true, file, label: 'finish planned' } : done(patched(file, { finishing: {} }), 'finish planned', 'finish');
}

export function leaveFinish(file: SceneFile): EditResult {
  return done(patched(file, { finishing: undefined }), 'finish not planned', 'finish');
}

export function setFace(file: SceneFile, face: FaceField, finish: FaceFinish): EditResult {
  return withFinish(file, { [face]: finish }, `${face} ${FACE_CHOICES.find(({ value }) => value === finish)?.words ?? finish}`, face);
}

export function setEdge(file: SceneFile, edgeMm: number): EditResult {
  return withFinish(file, { edgeMm }, edgeMm === 0 ? 'edges left sharp' : `edges beveled ${plain(edgeMm, 2)}\u00a0mm`, 'bevel');
}

export function setBase(file: SceneFile, base: Finishing['base']): EditResult {
  return withFinish(file, { base }, `${BASE_CHOICES.find(({ value }) => value === base)?.words ?? base} under it`, 'base');
}

export function setCoat(file: SceneFile, patch: { readonly formula?: string; readonly mm?: number }): EditResult {
  return withFinish(file, { coat: patched(file.finishing?.coat ?? {}, patch) }, 'flood coat', 'flood coat');
}

/** `null`: it rests in the room. A label’s own limit that is `null` is taken out. */
export function setWarmRest(file: SceneFile, patch: { readonly temperatureC?: number; readonly hours?: number; readonly labelC?: number | null } | null): EditResult {
  if (patch === null) return withFinish(file, { postCure: undefined }, 'rest in the room', 'warm rest');
  const { labelC, ...rest } = patch;
  const old = file.finishing?.postCure ?? FIRST_WARM_REST;
  return withFinish(file, { postCure: patched(old, { ...rest, ...(labelC === undefined ? {} : { labelC: labelC ?? undefined }) }) }, 'warm rest', 'warm rest');
}

export function setFinishHours(file: SceneFile, field: FinishHour, hours: number): EditResult {
  const words = HOUR_FIELDS.find((info) => info.field === field)?.words ?? field;
  return withFinish(file, { hours: patched(file.finishing?.hours ?? {}, { [field]: hours }) }, `${words} ${plain(hours, 2)}\u00a0h`, words);
}

/** Back to the rule of thumb. */
export function clearFinishHours(file: SceneFile): EditResult {
  return withFinish(file, { hours: undefined }, 'hours of the finish by rule', 'hours');
}

export function setFinishCost(file: SceneFile, cost: number): EditResult {
  return withFinish(file, { cost }, 'cost of the finish', 'cost of the finish');
}

function withFinish(file: SceneFile, patch: Patch<FinishingFile>, label: string, subject: string): EditResult {
  if (!file.finishing) return refused('The finish is not planned any more. Plan it first.');
  return done(patched(file, { finishing: patched(file.finishing, patch) }), label, subject);
}
