/** The fills: how high the resin stands, where one formula gives way to the next, and how each is tinted. */
import { completeFormula, isBuiltIn } from '../../resin/formula.ts';
import { STOP_TOLERANCE_MM } from '../tolerance.ts';
import { done, refused, type EditResult, type SceneFile, type TintFile } from './file.ts';
import type { HeightRange } from './move.ts';
import { patched, replacedAt } from './replace.ts';
import { heightOf, labelMm, nameOf, thingsOf, tidy } from './things.ts';

/** Two boundaries nearer than this would be one stop, mm. */
const LEAST_FILL_MM = 2 * STOP_TOLERANCE_MM;

/** How low and how high the resin may stand: over the last boundary and every plane, under the rim. What stands higher already may stay. */
export function fillRange(file: SceneFile): HeightRange {
  const boundary = file.fills.length > 1 ? file.fills[file.fills.length - 2].toMm + LEAST_FILL_MM : LEAST_FILL_MM;
  const planes = planesUnderTop(file).map(heightOf);
  return { minMm: tidy(Math.max(boundary, ...planes)), maxMm: Math.max(file.mold.heightMm, file.fillMm) };
}

/** Fills to another height. A plane painted on the top goes with it. */
export function fillTo(file: SceneFile, mm: number): EditResult {
  if (!Number.isFinite(mm)) return refused('Found no number; expected the height of the resin in mm.');
  const to = tidy(mm);
  const { minMm, maxMm } = fillRange(file);
  if (to > maxMm) return refused(`Found ${labelMm(to)}; the mold is ${labelMm(file.mold.heightMm)} high. Fill lower, or make the mold higher.`);
  if (to < minMm) return refused(`Found ${labelMm(to)}; expected ${labelMm(minMm)} or more. ${inTheWay(file, to)}`);
  const last = file.fills.length - 1;
  const onTop = new Set(thingsOf(file).filter((placement) => placement.kind === 'plane' && isOnTop(file, placement.atMm)));
  const placements = onTop.size > 0 ? { placements: thingsOf(file).map((placement) => (onTop.has(placement) && placement.kind === 'plane' ? patched(placement, { atMm: to }) : placement)) } : {};
  return done({ ...patched(file, { fillMm: to, fills: replacedAt(file.fills, last, patched(file.fills[last], { toMm: to })) }), ...placements }, `fill to ${labelMm(to)}`);
}

/** How low and how high the top of fill `at` (not the last) may go. */
export function boundaryRange(file: SceneFile, at: number): HeightRange | null {
  if (!(Number.isInteger(at) && at >= 0 && at < file.fills.length - 1)) return null;
  const below = at > 0 ? file.fills[at - 1].toMm : 0;
  return { minMm: tidy(below + LEAST_FILL_MM), maxMm: tidy(file.fills[at + 1].toMm - LEAST_FILL_MM) };
}

/** Moves the boundary at the top of fill `at`; kept between its neighbors. The last one is the top: `fillTo`. */
export function moveBoundary(file: SceneFile, at: number, mm: number): EditResult {
  const range = boundaryRange(file, at);
  if (!range) return refused('There is no such boundary between fills.');
  if (!Number.isFinite(mm)) return refused('Found no number; expected a height in mm.');
  if (range.minMm > range.maxMm) return refused('The fills next to it leave no room to move. Take one of them out.');
  const to = tidy(Math.min(Math.max(mm, range.minMm), range.maxMm));
  return done(patched(file, { fills: replacedAt(file.fills, at, patched(file.fills[at], { toMm: to })) }), `change of fill at ${labelMm(to)}`);
}

/** Parts a fill in two at a height; both keep its formula and tint until changed. */
export function addBoundary(file: SceneFile, mm: number): EditResult {
  if (!Number.isFinite(mm)) return refused('Found no number; expected a height in mm.');
  const to = tidy(mm);
  const at = file.fills.findIndex((fill) => to < fill.toMm);
  const below = at > 0 ? file.fills[at - 1].toMm : 0;
  if (at < 0 || to <= 0) return refused(`Found ${labelMm(to)}; expected a height between the floor and ${labelMm(file.fillMm)}.`);
  if (to - below < LEAST_FILL_MM || file.fills[at].toMm - to < LEAST_FILL_MM) return refused(`The fill changes at ${labelMm(to - below < LEAST_FILL_MM ? below : file.fills[at].toMm)} already. Choose a height further from it.`);
  const lower = patched(file.fills[at], { toMm: to });
  return done({ ...file, fills: [...file.fills.slice(0, at), lower, ...file.fills.slice(at)] }, `change of fill at ${labelMm(to)}`);
}

/** Takes the boundary at the top of fill `at` out; the fill above reaches down. */
export function removeBoundary(file: SceneFile, at: number): EditResult {
  if (!boundaryRange(file, at)) return refused('There is no such boundary between fills.');
  return done({ ...file, fills: file.fills.filter((_, i) => i !== at) }, `change of fill at ${labelMm(file.fills[at].toMm)} taken out`);
}

export function setFormula(file: SceneFile, at: number, formula: string): EditResult {
  const fill = file.fills[at];
  if (!fill) return refused('There is no such fill.');
  const own = file.formulas?.find((each) => each.id === formula);
  const name = own || isBuiltIn(formula) ? completeFormula(own ?? { id: formula }).name : formula;
  return done(patched(file, { fills: replacedAt(file.fills, at, patched(fill, { formula })) }), `fill to ${labelMm(fill.toMm)}: ${name}`, 'formula');
}

/** Sets a fill's color or how much dye, percent of the mixed resin's mass; `null` leaves it clear. */
export function setTint(file: SceneFile, at: number, tint: TintFile | null): EditResult {
  const fill = file.fills[at];
  if (!fill) return refused('There is no such fill.');
  return done(patched(file, { fills: replacedAt(file.fills, at, patched(fill, { tint: tinted(fill.tint, tint) })) }), `fill to ${labelMm(fill.toMm)} ${tint === null ? 'left clear' : 'tinted'}`, 'tint');
}

/** A tint that carries more than color and amount (a swatch) keeps it when it is cleared; an amount takes the place of a target. */
function tinted(old: TintFile | undefined, tint: TintFile | null): TintFile | undefined {
  if (tint !== null) return old ? patched(old, tint.percent === undefined ? tint : { ...tint, target: undefined }) : tint;
  if (!old) return undefined;
  const more = Object.keys(old).some((key) => key !== 'color' && key !== 'percent' && key !== 'target');
  return more ? patched(old, { percent: 0, target: undefined }) : undefined;
}

function isOnTop(file: SceneFile, atMm: number): boolean {
  return Math.abs(atMm - file.fillMm) <= STOP_TOLERANCE_MM;
}

function planesUnderTop(file: SceneFile) {
  return thingsOf(file).filter((placement) => placement.kind === 'plane' && !isOnTop(file, placement.atMm));
}

function inTheWay(file: SceneFile, toMm: number): string {
  const plane = planesUnderTop(file).filter((placement) => heightOf(placement) > toMm).sort((a, b) => heightOf(b) - heightOf(a))[0];
  return plane ? `${nameOf(plane)} is painted at ${labelMm(heightOf(plane))}; lower it first.` : 'Take the change of fill below it out first.';
}
