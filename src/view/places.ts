/** Where things are: as the props say, with what the hand has moved since. */

import type { ArtPlace } from '../core/scene/art-place.ts';
import type { Bed, Creature, Figure, Scene } from '../core/scene/scene.ts';
import { artInMold } from './painted-sheet.ts';
import type { MoldViewProps, Place, ViewChange, ViewGuide, ViewPlane } from './props.ts';

/** Null: it is not in the scene. `sheet`: the plane as it was drawn, for one that the props no longer have. */
export function placeIn(props: MoldViewProps, id: string, now: { readonly live?: ViewChange; readonly sheet?: ViewPlane }): Place | null {
  const { live } = now;
  const plane = props.planes.find((each) => each.id === id) ?? now.sheet;
  if (plane) {
    const art = plane.art ? artInMold(plane.art, props.scene.cast) : middleOf(plane.guides ?? []);
    return { xMm: live?.xMm ?? art?.xMm ?? 0, yMm: live?.yMm ?? art?.yMm ?? 0, baseMm: live?.baseMm ?? plane.atMm, turnZDeg: live?.turnZDeg ?? art?.turnDeg ?? 0 };
  }
  const standing = standingIn(props.scene).find((each) => each.id === id);
  if (!standing) return null;
  return {
    xMm: live?.xMm ?? standing.xMm, yMm: live?.yMm ?? standing.yMm,
    baseMm: live?.baseMm ?? standing.baseMm, turnZDeg: live?.turnZDeg ?? standing.turnDeg[2],
  };
}

/** The props' own word on a place, to see when the parent has answered. */
export function placeKey(props: MoldViewProps | null, id: string): string {
  const plane = props?.planes.find((p) => p.id === id);
  if (plane) return JSON.stringify([plane.atMm, plane.art?.xMm, plane.art?.yMm, plane.art?.turnDeg]);
  const standing = props && standingIn(props.scene).find((each) => each.id === id);
  return standing ? JSON.stringify([standing.xMm, standing.yMm, standing.baseMm, standing.turnDeg[2]]) : '';
}

/** What stands in the mold, or would. */
export function standingIn({ placements, creatures }: Scene): readonly (Figure | Bed | Creature)[] {
  return [...placements.filter((placement) => placement.kind !== 'plane'), ...creatures];
}

/** A plane of guides is taken hold of over the middle of them. */
function middleOf(guides: readonly ViewGuide[]): Pick<ArtPlace, 'xMm' | 'yMm' | 'turnDeg'> | null {
  if (guides.length === 0) return null;
  const [xs, ys] = [guides.map(({ xMm }) => xMm), guides.map(({ yMm }) => yMm)];
  return { xMm: (Math.min(...xs) + Math.max(...xs)) / 2, yMm: (Math.min(...ys) + Math.max(...ys)) / 2, turnDeg: 0 };
}
