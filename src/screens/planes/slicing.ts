/** How a creature is cut into planes: how tall it is, how thin the resin there may be poured, what gap to begin with. */
import { creature as creatureIn, otherStops, setPlanes, type PlanesWanted } from '../../core/scene/edit/creature.ts';
import { refused, type AddResult, type PlaneFile, type SceneFile } from '../../core/scene/edit/file.ts';
import { thingsOf } from '../../core/scene/edit/things.ts';
import type { Scene } from '../../core/scene/scene.ts';
import { STOP_TOLERANCE_MM } from '../../core/scene/tolerance.ts';
import { formulasBetween } from '../../core/sight/advice.ts';
import { countBesideStops, gapBesideStops } from '../../core/sight/beside-stops.ts';
import { evenHeights, planeHeights } from '../../core/sight/propose.ts';
import { largestGapMm } from '../../core/sight/spacing.ts';
import type { Painted } from '../../store/piece-painting.ts';

/** More planes than this are not asked for in a field. */
export const MOST_PLANES = 40;

/** Of a creature that says nothing (the scene file's defaults: a feather of 1.5 mm, looked at from 45°). */
export const USUAL_LOOK = { featherMm: 1.5, viewDeg: 45 };

export interface Stance {
  readonly bottomMm: number;
  readonly tallMm: number;
}

/** Null: it has not been cut yet, or can't be. */
export function stanceOf(painted: Painted | null, file: SceneFile, id: string): Stance | null {
  const drawn = painted?.creatures.find((each) => each.id === id);
  const then = painted?.scene.creatures.find((each) => each.id === id);
  const now = creatureIn(file, id);
  return drawn && then && now && drawn.why === null ? { bottomMm: now.baseMm ?? 0, tallMm: drawn.topMm - then.baseMm } : null;
}

/** The thinnest pour that levels between a creature's ends, mm. */
export function leastPourMm(scene: Scene, { bottomMm, tallMm }: Stance): number {
  return Math.max(...formulasBetween(scene, bottomMm, bottomMm + tallMm).map(({ minDepthMm }) => minDepthMm));
}

/** As far apart as a feather still hides the step, but no closer than the resin levels, mm to a tenth. */
export function usualGapMm(scene: Scene, stance: Stance, { featherMm, viewDeg }: { readonly featherMm: number; readonly viewDeg: number }): number {
  const index = Math.min(...formulasBetween(scene, stance.bottomMm, stance.bottomMm + stance.tallMm).map(({ refractiveIndex }) => refractiveIndex));
  return Math.max(leastPourMm(scene, stance), Math.floor(10 * Math.min(stance.tallMm, largestGapMm(featherMm, viewDeg, index))) / 10);
}

/** Heights of planes a gap apart, as the edit sets them. */
export function gapHeights(file: SceneFile, id: string, { scene, stance: { bottomMm, tallMm }, gapMm }: { readonly scene: Scene; readonly stance: Stance; readonly gapMm: number }): readonly number[] {
  const topMm = bottomMm + tallMm;
  const minDepthMm = leastPourMm(scene, { bottomMm, tallMm });
  const even = planeHeights(bottomMm, topMm, gapMm, { fillMm: file.fillMm, minDepthMm });
  return gapBesideStops(even, { stopsMm: otherStops(file, id), minDepthMm, bottomMm, topMm });
}

export function wanted(scene: Scene, stance: Stance, gapMm: number): PlanesWanted {
  return { gapMm, tallMm: stance.tallMm, minDepthMm: leastPourMm(scene, stance) };
}

/** So many planes, evenly through a creature. */
export function setCount(file: SceneFile, id: string, { scene, stance, count }: { readonly scene: Scene; readonly stance: Stance; readonly count: number }): AddResult {
  if (!Number.isInteger(count) || count < 1 || count > MOST_PLANES) return refused(`Found ${count}; expected a whole number of planes from 1 to ${MOST_PLANES}.`);
  const { bottomMm, tallMm } = stance;
  const topMm = bottomMm + tallMm;
  const minDepthMm = leastPourMm(scene, stance);
  const even = evenHeights(bottomMm, topMm, count, { fillMm: file.fillMm, minDepthMm });
  return setPlanes(file, id, countBesideStops(even, { stopsMm: otherStops(file, id), minDepthMm, bottomMm, topMm }));
}

/** Of its height: what a single plane may leave over it. */
const LEFT_BY_ONE = 0.6;

/**
 * Where as many planes as a creature has would go through it evenly, mm up, once it is built deeper or no longer: then its top
 * is out of their reach, by more than a gap, or under them. Null where they go through it as they are, or can't be moved.
 */
export function reachingPlanes(file: SceneFile, id: string, at: { readonly scene: Scene; readonly stance: Stance }): readonly number[] | null {
  const { bottomMm, tallMm } = at.stance;
  const now = planesOn(file, id).map(({ atMm }) => atMm);
  if (now.length === 0) return null;
  const highest = now[now.length - 1];
  const gapMm = now.length > 1 ? (highest - now[0]) / (now.length - 1) : LEFT_BY_ONE * tallMm;
  const overMm = bottomMm + tallMm - highest;
  if (overMm > 0 && overMm <= gapMm) return null;
  const moved = setCount(file, id, { ...at, count: now.length });
  if (!moved.ok) return null;
  const then = planesOn(moved.file, id).map(({ atMm }) => atMm);
  return then.length === now.length && then.every((mm, i) => Math.abs(mm - now[i]) <= STOP_TOLERANCE_MM) ? null : then;
}

/** A creature's planes, from the floor up. */
export function planesOn(file: SceneFile, id: string): readonly PlaneFile[] {
  return thingsOf(file).filter((each): each is PlaneFile => each.kind === 'plane' && (each.slices?.includes(id) ?? false)).sort((a, b) => a.atMm - b.atMm);
}
