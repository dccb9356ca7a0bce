/** From which look the step between two planes of a creature shows, by gap and feather alone (spacing.ts); bare.ts knows what of it does. */
import type { PlaneGuide } from './guide.ts';
import { showsFromDeg } from './spacing.ts';

/** Two neighboring planes of a creature and the look from which an edge shows between them. */
export interface EdgeBetween {
  readonly nearId: string;
  readonly farId: string;
  readonly gapMm: number;
  /** Degrees in air; null: the feather hides it from everywhere. */
  readonly showsFromDeg: number | null;
}

/** One creature's guides, the plane nearest the viewer first. */
export function nearestFirst(guides: readonly PlaneGuide[], creatureId: string): PlaneGuide[] {
  return guides.filter((guide) => guide.creatureId === creatureId).sort((a, b) => a.depthMm - b.depthMm);
}

/** By gap and feather alone, for all pairs of neighbors from the viewer in. */
export function edgesBetween(stack: readonly PlaneGuide[], featherMm: number, index: number): EdgeBetween[] {
  return stack.slice(1).map((far, n): EdgeBetween => {
    const gapMm = far.depthMm - stack[n].depthMm;
    return { nearId: stack[n].planeId, farId: far.planeId, gapMm, showsFromDeg: showsFromDeg(gapMm, featherMm, index) };
  });
}
