/** Where things are: as the props say, with what the hand has moved since. */

import { artInMold } from './painted-sheet.ts';
import type { MoldViewProps, ViewChange, ViewPlane } from './props.ts';
import type { Place } from './solid-model.ts';

/** Null: it is not in the scene. `sheet`: the plane as it was drawn, for one that the props no longer have. */
export function placeIn(props: MoldViewProps, id: string, now: { readonly live?: ViewChange; readonly sheet?: ViewPlane }): Place | null {
  const { live } = now;
  const plane = props.planes.find((each) => each.id === id) ?? now.sheet;
  if (plane) {
    const art = plane.art && artInMold(plane.art, props.scene.cast);
    return { xMm: live?.xMm ?? art?.xMm ?? 0, yMm: live?.yMm ?? art?.yMm ?? 0, baseMm: live?.baseMm ?? plane.atMm, turnZDeg: live?.turnZDeg ?? art?.turnDeg ?? 0 };
  }
  const placement = props.scene.placements.find((p) => p.id === id);
  if (!placement || placement.kind === 'plane') return null;
  return {
    xMm: live?.xMm ?? placement.xMm, yMm: live?.yMm ?? placement.yMm,
    baseMm: live?.baseMm ?? placement.baseMm, turnZDeg: live?.turnZDeg ?? placement.turnDeg[2],
  };
}

/** The props' own word on a place, to see when the parent has answered. */
export function placeKey(props: MoldViewProps | null, id: string): string {
  const placement = props?.scene.placements.find((p) => p.id === id);
  const plane = props?.planes.find((p) => p.id === id);
  if (plane) return JSON.stringify([plane.atMm, plane.art?.xMm, plane.art?.yMm, plane.art?.turnDeg]);
  return placement && placement.kind !== 'plane' ? JSON.stringify([placement.xMm, placement.yMm, placement.baseMm, placement.turnDeg[2]]) : '';
}
