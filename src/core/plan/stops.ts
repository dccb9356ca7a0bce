/** Stops: the heights where pouring must stop, with all their causes. */
import { STOP_TOLERANCE_MM } from '../scene/tolerance.ts';
import type { Placement, Plane, Scene } from '../scene/scene.ts';
import type { Stop } from './plan.ts';

/** Slack for the comparison of heights that were typed in decimals. */
const ROUNDING_MM = 1e-9;

export interface StopAt {
  readonly atMm: number;
  readonly causes: readonly Stop[];
}

const ORDER = { plane: 0, figure: 1, fill: 2, top: 3 };

/** All stops from the floor up. Heights within the tolerance are one stop, at the lowest of them. */
export function stopsOf(scene: Scene): StopAt[] {
  const raw: { atMm: number; cause: Stop }[] = [];
  for (const placement of scene.placements) {
    const atMm = stopHeight(placement);
    if (atMm === null || atMm <= STOP_TOLERANCE_MM + ROUNDING_MM || atMm > scene.fillMm + STOP_TOLERANCE_MM + ROUNDING_MM) continue;
    raw.push({ atMm, cause: { kind: placement.kind === 'plane' ? 'plane' : 'figure', id: placement.id } });
  }
  for (const fill of scene.fills.slice(0, -1)) raw.push({ atMm: fill.toMm, cause: { kind: 'fill' } });
  raw.push({ atMm: scene.fillMm, cause: { kind: 'top' } });
  raw.sort((a, b) => a.atMm - b.atMm);
  const stops: { atMm: number; causes: Stop[] }[] = [];
  for (const { atMm, cause } of raw) {
    const last = stops[stops.length - 1];
    if (last && sameHeight(last.atMm, atMm)) last.causes.push(cause);
    else stops.push({ atMm, causes: [cause] });
  }
  for (const stop of stops) stop.causes.sort((a, b) => ORDER[a.kind] - ORDER[b.kind]);
  return stops;
}

/** Whether two heights are one stop. */
function sameHeight(aMm: number, bMm: number): boolean {
  return Math.abs(aMm - bMm) <= STOP_TOLERANCE_MM + ROUNDING_MM;
}

/** Planes painted on the surface at a stop. */
export function planesAt(scene: Scene, stop: StopAt): Plane[] {
  const ids = new Set(stop.causes.map((cause) => cause.id));
  return scene.placements.filter((placement): placement is Plane => placement.kind === 'plane' && ids.has(placement.id));
}

/** Planes painted on the mold floor, or on a bed that fills the section up to `floorMm`, before the first pour. */
export function floorPlanes(scene: Scene, floorMm: number): Plane[] {
  return scene.placements.filter((placement): placement is Plane => placement.kind === 'plane' && placement.atMm <= floorMm + STOP_TOLERANCE_MM + ROUNDING_MM);
}

function stopHeight(placement: Placement): number | null {
  if (placement.kind === 'plane') return placement.atMm;
  return placement.hold === 'rests' ? placement.baseMm : null;
}
