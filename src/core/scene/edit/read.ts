/** How the piece is to read: colors that paint is to show, the eye a creature lines up for, the lamp the piece stands under. */
import { lampWords } from '../../sight/lamp-words.ts';
import { capital } from '../../units/format.ts';
import type { Lamp } from '../scene.ts';
import { creature, creaturesOf } from './creature.ts';
import { done, refused, type CreatureFile, type EditResult, type EyePointFile, type LampFile, type PlaneFile, type SceneFile } from './file.ts';
import { patched, replacedAt, unlessEmpty } from './replace.ts';
import { labelMm, nameOf, spoken, thing, thingsOf } from './things.ts';

export type EyeField = 'eyeMm' | 'eyeXMm' | 'eyeYMm';
export type LampField = 'fromDeg' | 'aboveDeg';

/** In the order they are asked for, with what stands there while nobody typed it. */
export const EYE_FIELDS: readonly { readonly field: EyeField; readonly words: string; readonly unset: number }[] = [
  { field: 'eyeMm', words: 'eye from the show face', unset: 500 },
  { field: 'eyeXMm', words: 'eye to the right of the middle', unset: 0 },
  { field: 'eyeYMm', words: 'eye to the back of the middle', unset: 0 },
];
export const STRETCH_WORDS = 'build it deeper, so that it looks as deep as it is';
export const LAMP_FIELDS: readonly { readonly field: LampField; readonly words: string; readonly unset: number }[] = [
  { field: 'aboveDeg', words: 'lamp over the show face', unset: 45 },
  { field: 'fromDeg', words: 'lamp round from the right', unset: 180 },
];
const COLORS_WORDS = 'colors it is to show';

/** The eye its planes line up for; `null`: none, they are painted as it is cut. */
export function setRead(file: SceneFile, id: string, patch: EyePointFile | null): EditResult {
  const found = creature(file, id);
  if (!found) return refused('That creature is no longer there.');
  const read = patch === null ? undefined : patched<EyePointFile>(found.read ?? {}, patch);
  const label = patch === null ? `${spoken(nameOf(found))} painted as it is cut` : `${spoken(nameOf(found))} lined up for an eye ${labelMm(read?.eyeMm ?? EYE_FIELDS[0].unset)} away`;
  return told(done({ ...file, creatures: creaturesOf(file).map((each) => (each === found ? patched(each, { read }) : each)) }, label), EYE_FIELDS);
}

/** The lamp the finished piece stands under; `null`: light from all round. */
export function setLamp(file: SceneFile, patch: LampFile | null): EditResult {
  if (patch === null) return done(patched(file, { lamp: undefined }), 'no lamp');
  const lamp = patched<LampFile>(file.lamp ?? {}, patch);
  const whole: Lamp = { fromDeg: lamp.fromDeg ?? LAMP_FIELDS[1].unset, aboveDeg: lamp.aboveDeg ?? LAMP_FIELDS[0].unset };
  return told(done(patched(file, { lamp }), lampWords(whole)), LAMP_FIELDS);
}

/** Colors of a plane or a creature, `#rrggbb`. */
export function colorsOf(file: SceneFile, id: string): readonly string[] {
  return holderOf(file, id)?.colors ?? [];
}

export function addColor(file: SceneFile, id: string, color: string): EditResult {
  if (colorsOf(file, id).some((each) => each.toLowerCase() === color.toLowerCase())) return refused(`${color} is there already.`);
  return withColors(file, id, [...colorsOf(file, id), color], `${color} to show`);
}

export function changeColor(file: SceneFile, id: string, at: number, color: string): EditResult {
  return colorsOf(file, id)[at] === undefined ? refused('That color is no longer there.') : withColors(file, id, replacedAt(colorsOf(file, id), at, color), `${color} to show`);
}

export function removeColor(file: SceneFile, id: string, at: number): EditResult {
  const old = colorsOf(file, id)[at];
  return old === undefined ? refused('That color is no longer there.') : withColors(file, id, colorsOf(file, id).filter((_, i) => i !== at), `${old} taken out`);
}

function withColors(file: SceneFile, id: string, list: readonly string[], words: string): EditResult {
  const holder = holderOf(file, id);
  if (!holder) return refused('Only a painted plane or creature shows colors. Choose one.');
  const colors = unlessEmpty(list);
  return done(
    'kind' in holder
      ? { ...file, placements: thingsOf(file).map((each) => (each === holder ? patched(holder, { colors }) : each)) }
      : { ...file, creatures: creaturesOf(file).map((each) => (each === holder ? patched(holder, { colors }) : each)) },
    `${spoken(nameOf(holder))}: ${words}`,
    COLORS_WORDS,
  );
}

function holderOf(file: SceneFile, id: string): PlaneFile | CreatureFile | undefined {
  const placed = thing(file, id);
  return placed?.kind === 'plane' ? placed : creature(file, id);
}

/** A refusal by its field's own name. */
function told(result: EditResult, fields: readonly { readonly field: string; readonly words: string }[]): EditResult {
  if (result.ok) return result;
  const found = fields.find(({ field }) => result.reason.includes(`.${field}`));
  return found ? refused(`${capital(found.words)}: ${result.reason.replace(/^[^:]*: /, '')}`) : result;
}
