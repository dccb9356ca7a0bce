/** What every page draws from: the scene, its plan, the section, and which halts concern what. */
import type { Finding, Plan } from '../plan/plan.ts';
import type { Formula, Scene, SolidPlacement } from '../scene/scene.ts';
import type { Measure } from './document.ts';
import type { Book } from './frame.ts';
import type { Lettering } from './pen.ts';
import type { Polygon } from './polygon.ts';
import type { Section } from './section.ts';
import { haltsFor } from '../plan/halts.ts';
import { depthAt } from '../scene/depth.ts';
import { plain } from '../units/format.ts';
import type { ChosenUnits } from '../units/in-units.ts';
import type { SheetWords } from './sheet-words.ts';

export interface SheetInput {
  readonly scene: Scene;
  readonly plan: Plan;
  /** Outlines of figures and beds by placement id (silhouette.ts). */
  readonly silhouettes: ReadonlyMap<string, readonly Polygon[]>;
  /** Width of a text as it will be drawn (files/fonts). */
  readonly measure: Measure;
  /** Replaces letters that the typefaces lack; without it every letter counts as printable. */
  readonly printable?: (text: string) => string;
  /** What lengths and volumes are written in; mm and mL without it. */
  readonly units?: ChosenUnits;
}

export interface SheetContext {
  readonly scene: Scene;
  /** Its sentences are in the chosen units. */
  readonly plan: Plan;
  readonly words: SheetWords;
  readonly section: Section;
  readonly lettering: Lettering;
  readonly book: Book;
  readonly halts: readonly Finding[];
  /** Numbers of pours that must not be poured. */
  readonly haltedPours: ReadonlySet<number>;
}

/** Halts that concern a pour: those that name it and those that concern the whole plan. */
export const haltsOfPour = ({ halts }: Pick<SheetContext, 'halts'>, pour: number): Finding[] =>
  haltsFor(halts, pour);

export const formulaOf = ({ scene }: Pick<SheetContext, 'scene'>, id: string): Formula => {
  const formula = scene.formulas.get(id);
  if (!formula) throw new Error(`The plan pours formula ${id}, which the scene does not have (it has ${[...scene.formulas.keys()].join(', ')}). Plan the scene again.`);
  return formula;
};

export const nameOf = ({ scene }: Pick<SheetContext, 'scene'>, id: string): string => scene.placements.find((placement) => placement.id === id)?.name ?? id;

export const solidsOf = ({ scene }: Pick<SheetContext, 'scene'>): SolidPlacement[] => scene.placements.filter((placement): placement is SolidPlacement => placement.kind !== 'plane');

/** `20 up, 35 deep`: the two travel together. */
export const upAndDeep = ({ scene, words }: Pick<SheetContext, 'scene' | 'words'>, heightMm: number): string => `${words.bare(heightMm)} up, ${words.bare(depthAt(scene, heightMm))} deep`;

/** Where a solid's middle goes, seen from above: `108 from left, 54 from front`. */
export function middleOf({ scene: { mold }, words }: Pick<SheetContext, 'scene' | 'words'>, { xMm, yMm }: SolidPlacement): string {
  if (mold.shape === 'box') return `${words.number(mold.lengthMm / 2 + xMm, 0)} from left, ${words.number(mold.widthMm / 2 + yMm, 0)} from front`;
  const off = (value: number, plus: string, minus: string): string => `${words.number(Math.abs(value), 0)} ${value < 0 ? minus : plus}`;
  return `${off(xMm, 'right', 'left')} and ${off(yMm, 'back', 'front')} of the middle`;
}

/** The second line of every page's running head. */
export function headOf({ scene }: Pick<SheetContext, 'scene'>, last: string): string[] {
  return [scene.cast === 'face-up' ? 'cast face up' : 'cast face down', `room ${plain(scene.room.temperatureC)}\u00a0°C`, last];
}
