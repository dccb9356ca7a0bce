/** The finish in lines for lists: how each face is done, what each flood coat takes. */
import type { FaceFinish } from '../../scene/scene.ts';
import { capital, counted, grams, ml, mm, plain } from '../../units/format.ts';
import type { FinishingPlan, FinishWork, FloodCoat, Step } from '../plan.ts';

const NBSP = '\u00a0';

const FINISH_WORDS: Readonly<Record<FaceFinish, string>> = { 'as-cast': 'as it is cast', sanded: 'sanded to satin', polished: 'polished', 'flood-coat': 'flood coated', hidden: 'hidden' };

/** `Top, 240 cm²: polished, 180 to 3000, compound, polish`. */
export function faceLine({ name, finish, areaCm2, grits, polish }: FinishingPlan['faces'][number]): string {
  const ladder = grits.length > 0 ? `, ${grits[0]} to ${grits[grits.length - 1]}${polish ? ', compound, polish' : ''}` : '';
  return `${capital(name)}, ${plain(areaCm2, 0)}${NBSP}cm²: ${FINISH_WORDS[finish]}${ladder}`;
}

/** Name of a face: `front side`, `top`, `sides`. */
export function faceName({ face }: Pick<FloodCoat, 'face'>): string {
  return ['front', 'right', 'back', 'left'].includes(face) ? `${face}${NBSP}side` : face;
}

const WORK_WORDS: Readonly<Record<FinishWork, string>> = {
  begins: 'the finish begins', warm: 'warm rest', demold: 'out of the mold', trim: 'trim', rest: 'rest until hard', edges: 'bevel the edges',
  sand: 'sand', coat: 'flood coat', harden: 'let the coat harden', polish: 'polish', base: 'base', done: 'finished',
};

/** `sand, sides`; `flood coat, front side`. */
export function workName({ work, face }: NonNullable<Step['finishing']>): string {
  return face === null ? WORK_WORDS[work] : `${WORK_WORDS[work]}, ${faceName({ face })}`;
}

/** What goes into its cups. `scaleG`: one step of the scale. */
export function coatAmounts({ thicknessMm, netMl, mixMl, batches }: FloodCoat, scaleG: number): string {
  const stops = batches[0].scaleStopsG.map((stop) => grams(stop, scaleG)).join(', then ');
  return `${mm(thicknessMm)}, net ${ml(netMl)}, mix ${ml(mixMl)}: ${counted(batches.length, 'cup')}, stop the scale at ${stops}; usable ${plain(Math.floor(batches[0].usableMin), 0)}${NBSP}min`;
}
