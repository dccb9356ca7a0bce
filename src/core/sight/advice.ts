/** What to say of planes a gap apart: the step they show against the feather, and whether the resin can be poured so thin. */
import { rateAt } from '../cure/equivalent-time.ts';
import { LEVELS_SHARE } from '../plan/thinnest.ts';
import type { Creature, Formula, Plane, Scene } from '../scene/scene.ts';
import { mm, plain } from '../units/format.ts';
import { largestGapMm, seenStepMm, showsFromDeg } from './spacing.ts';

export interface SpacingAdvice {
  readonly gapMm: number;
  /** At the creature's own look. */
  readonly seenStepMm: number;
  /** The widest gap whose step the feather hides. */
  readonly largestGapMm: number;
  /** From where the step shows beyond the feather, degrees in air; null: from nowhere. */
  readonly showsFromDeg: number | null;
  readonly hidden: boolean;
  /** Whether the resin between them levels at such a depth: well, barely, or it may not be poured. */
  readonly pours: 'well' | 'thin' | 'not';
  /** One to three sentences. */
  readonly words: string;
}

export interface Spaced {
  readonly gapMm: number;
  /** The heights that the planes take up. */
  readonly fromMm: number;
  readonly toMm: number;
}

export function spacingAdvice(scene: Pick<Scene, 'fills' | 'formulas'>, { featherMm, viewDeg }: Pick<Creature, 'featherMm' | 'viewDeg'>, { gapMm, fromMm, toMm }: Spaced): SpacingAdvice {
  const formulas = formulasBetween(scene, fromMm, toMm);
  const index = lowestIndex(scene, fromMm, toMm);
  const thinnest = formulas.reduce((a, b) => (b.minDepthMm > a.minDepthMm ? b : a));
  const step = seenStepMm(gapMm, viewDeg, index);
  const largest = largestGapMm(featherMm, viewDeg, index);
  const hidden = step <= featherMm;
  // Rounded so that what is read off the words does not show.
  const closerMm = Math.floor(10 * largest) / 10;
  const levels = gapMm >= thinnest.minDepthMm;
  const canBeCloser = levels && closerMm >= LEVELS_SHARE * thinnest.minDepthMm;
  const featherWords = `eather over ${mm(Math.ceil(10 * step) / 10)}`;
  const needs = `${thinnest.name} needs ${mm(thinnest.minDepthMm)} to level`;
  return {
    gapMm,
    seenStepMm: step,
    largestGapMm: largest,
    showsFromDeg: showsFromDeg(gapMm, featherMm, index),
    hidden,
    pours: gapMm < LEVELS_SHARE * thinnest.minDepthMm ? 'not' : levels ? 'well' : 'thin',
    words: [
      `Planes ${mm(gapMm)} apart slide ${mm(step)} over each other, seen at ${plain(viewDeg, 0)}°${hidden ? `: a feather of ${mm(featherMm)} hides it.` : `, more than the feather of ${mm(featherMm)}.`}`,
      ...(hidden ? [] : [canBeCloser ? `Set them ${mm(closerMm)} apart, or f${featherWords}.` : `F${featherWords}: ${needs}, so they can’t stand close enough for this one.`]),
      ...(hidden && !levels ? [`${needs}: no closer than that.`] : []),
    ].join(' '),
  };
}

/**
 * Hours from pouring one plane's resin to pouring over the next: until it is hard enough to scuff and paint in this room,
 * scuffing, painting, drying, pouring (trade notes §7). The bench's hours only add to it; the longest of the formulas between.
 */
export function planeCycleH(scene: Pick<Scene, 'fills' | 'formulas' | 'room' | 'bench'>, { paintH, dryH }: Pick<Plane, 'paintH' | 'dryH'>, { fromMm, toMm }: Pick<Spaced, 'fromMm' | 'toMm'>): number {
  const { room, bench } = scene;
  const hardH = Math.max(...formulasBetween(scene, fromMm, toMm).map(({ paintableH, scuffableH, atC }) => Math.max(paintableH, scuffableH) / rateAt(room.temperatureC, atC)));
  return hardH + bench.scuffH + paintH + dryH + bench.pourH;
}

/** Of the resin between two heights: the lowest index bends a look in least, so that a step is widest and an edge shows soonest. */
export function lowestIndex(scene: Pick<Scene, 'fills' | 'formulas'>, fromMm: number, toMm: number): number {
  return Math.min(...formulasBetween(scene, fromMm, toMm).map(({ refractiveIndex }) => refractiveIndex));
}

/** Formulas of the fills that a span of heights passes through; at least one. */
export function formulasBetween({ fills, formulas }: Pick<Scene, 'fills' | 'formulas'>, fromMm: number, toMm: number): readonly Formula[] {
  const through = fills.filter((fill, i) => (i === 0 ? 0 : fills[i - 1].toMm) < toMm && fill.toMm > fromMm);
  return (through.length > 0 ? through : fills.slice(-1)).map(({ formula }) => formulas.get(formula)!);
}
