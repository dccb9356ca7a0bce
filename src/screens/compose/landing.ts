/** Where new things are set in the piece as it stands: a figure on the floor or a bed, beside the figures that are there, a plane clear of them. */
import { freeSpot } from '../../core/scene/edit/free-spot.ts';
import type { PlacementFile, SceneFile } from '../../core/scene/edit/file.ts';
import { planeHeight, type NewSolid } from '../../core/scene/edit/place.ts';
import { thingsOf } from '../../core/scene/edit/things.ts';
import { isMesh } from '../../core/scene/mesh-shape.ts';
import type { Shape } from '../../core/scene/scene.ts';
import { STOP_TOLERANCE_MM } from '../../core/scene/tolerance.ts';
import { poseSolid } from '../../core/solid/pose.ts';
import type { Bounds } from '../../core/solid/solid.ts';
import { supportAt, type StandingSurface } from '../../core/solid/support.ts';
import type { Derived } from '../../store/piece-state.ts';
import { surfacesBut } from './scene-now.ts';

type Size = readonly [number, number, number];

/** A thing stands loose on a bed; nothing says how on the floor, where it stands anyway. `sizeMm`: null where nobody knows it. */
export function landingOf(file: SceneFile, derived: Derived, sizeMm: Size | null): Pick<NewSolid, 'xMm' | 'yMm' | 'baseMm' | 'hold'> {
  const beds = [...surfacesBut('', derived.solids, file).filter(({ kind }) => kind === 'bed'), ...bedsJustSet(file, derived)];
  const groundAt = (xMm: number, yMm: number): number => (beds.length === 0 ? 0 : supportAt({ xMm, yMm, baseMm: 0, planesMm: [], surfaces: beds }));
  const { xMm, yMm, baseMm } = freeSpot({ mold: file.mold, sizeMm: sizeMm ?? [0, 0, 0], taken: takenIn(file, derived), groundAt });
  return { xMm, yMm, baseMm, ...(baseMm > STOP_TOLERANCE_MM && { hold: 'stands' as const }) };
}

export function planeLandingOf(file: SceneFile, derived: Derived): { readonly atMm: number } {
  return { atMm: planeHeight(file, takenIn(file, derived).map(({ min, max }) => ({ low: min[2], high: max[2] }))) };
}

/** Drawn beds that the worker has not told of yet. */
function bedsJustSet(file: SceneFile, { solids }: Derived): StandingSurface[] {
  const told = new Set(solids.map(({ id }) => id));
  return thingsOf(file).flatMap((bed: PlacementFile): StandingSurface[] => {
    if (bed.kind !== 'bed' || told.has(bed.id) || isMesh(bed.shape)) return [];
    const { xMm = 0, yMm = 0, baseMm = 0, turnDeg = [0, 0, 0], scale = 1 } = bed;
    const { positions, indices } = poseSolid(bed.shape, { xMm, yMm, baseMm, turnDeg, scale }).mesh();
    return [{ kind: 'bed', positions, indices, turnDeg: 0, aboutMm: [0, 0], byMm: [0, 0, 0] }];
  });
}

/** Sizes of a drawn shape, mm; null of a file or one of our own figures. */
export function sizeOfShape(shape: Shape): Size | null {
  if (isMesh(shape)) return null;
  const { min, max } = poseSolid(shape, { xMm: 0, yMm: 0, baseMm: 0, turnDeg: [0, 0, 0], scale: 1 }).bounds;
  return [max[0] - min[0], max[1] - min[1], max[2] - min[2]];
}

/** Boxes of the figures where the document has them now. */
function takenIn(file: SceneFile, { solids, scene }: Derived): readonly Bounds[] {
  const then = new Map(scene.placements.map((placement) => [placement.id, placement]));
  const boxes = new Map(solids.map(({ id, bounds }) => [id, bounds]));
  return thingsOf(file).flatMap((now: PlacementFile) => {
    if (now.kind !== 'figure') return [];
    const [box, before] = [boxes.get(now.id), then.get(now.id)];
    if (!box || !before || before.kind === 'plane') {
      // Just added, not measured yet.
      const size = sizeOfShape(now.shape);
      return size ? [boxAround(now.xMm ?? 0, now.yMm ?? 0, now.baseMm ?? 0, size)] : [];
    }
    const by = [(now.xMm ?? 0) - before.xMm, (now.yMm ?? 0) - before.yMm, (now.baseMm ?? 0) - before.baseMm];
    const moved = (at: Bounds['min']): Bounds['min'] => [at[0] + by[0], at[1] + by[1], at[2] + by[2]];
    return [{ min: moved(box.min), max: moved(box.max) }];
  });
}

function boxAround(xMm: number, yMm: number, baseMm: number, [length, width, height]: Size): Bounds {
  return { min: [xMm - length / 2, yMm - width / 2, baseMm], max: [xMm + length / 2, yMm + width / 2, baseMm + height] };
}
