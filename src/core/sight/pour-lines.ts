/**
 * Where the lines between pours can be seen. A line lies in the mold's walls, edge-on: from straight over the show face none
 * shows. From the side of the look the far wall comes into sight through the face, and with it its lines, drawn together by
 * tan θ′ (spacing.ts); through clear sides they show at any look, unless something is there that takes the eye.
 */
import type { Plan } from '../plan/plan.ts';
import { depthAt } from '../scene/depth.ts';
import type { Scene } from '../scene/scene.ts';
import { STOP_TOLERANCE_MM } from '../scene/tolerance.ts';
import { insideTan } from './spacing.ts';

export interface PourLine {
  readonly heightMm: number;
  readonly depthMm: number;
  /** What lies at the line and takes the eye from it; `bare`: nothing does. */
  readonly on: 'plane' | 'fill' | 'bare';
  readonly name: string | null;
}

/** Lines between pours, from the floor up; the top is none. */
export function pourLines(scene: Scene, { pours }: Pick<Plan, 'pours'>): PourLine[] {
  return pours.slice(0, -1).map(({ toMm }): PourLine => {
    const near = (atMm: number) => Math.abs(atMm - toMm) <= STOP_TOLERANCE_MM;
    const plane = scene.placements.find((placement) => placement.kind === 'plane' && near(placement.atMm));
    const fill = scene.fills.slice(0, -1).find((each) => near(each.toMm));
    return { heightMm: toMm, depthMm: depthAt(scene, toMm), on: plane ? 'plane' : fill ? 'fill' : 'bare', name: plane?.name ?? null };
  });
}

/** Whether the piece stays in a mold that nothing is seen through. */
export function wallsHide({ mold }: Pick<Scene, 'mold'>): boolean {
  return mold.keep && mold.material !== 'acrylic' && mold.material !== 'glass';
}

/**
 * How far from the far wall's upper edge a line at a depth is seen, in the plane of the show face, mm: 0 looking straight down,
 * null where the face, `acrossMm` from edge to edge, is too short for a look so deep.
 */
export function lineSeenMm(depthMm: number, viewDeg: number, { acrossMm, index }: { readonly acrossMm: number; readonly index: number }): number | null {
  const seenMm = depthMm * insideTan(viewDeg, index);
  return seenMm <= acrossMm ? seenMm : null;
}
