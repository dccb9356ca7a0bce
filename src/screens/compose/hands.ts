/** What a drag or a key asks of the document: the edits behind the clip, the mold view's handles and the keyboard. Pure. */
import { creature, setCreature } from '../../core/scene/edit/creature.ts';
import { setCreatureBase } from '../../core/scene/edit/creature-moves.ts';
import { boundaryRange, fillRange, fillTo, moveBoundary } from '../../core/scene/edit/fills.ts';
import type { EditResult, PlacementFile, SceneFile } from '../../core/scene/edit/file.ts';
import { ridersOf, setHeight, setPlaces, setTurn } from '../../core/scene/edit/move.ts';
import { changeArt } from '../../core/scene/edit/art.ts';
import { heightTargets, placeTargets, snapHeight, snapPlace, type SnapOptions, type Snapped } from '../../core/scene/edit/snap.ts';
import { heightOf, nameOf, thing } from '../../core/scene/edit/things.ts';
import type { ViewChange } from '../../view/props.ts';
import { sizeMold } from './mold-sizes.ts';
import { inTurn, planesOf, raiseSelected, shiftSelected, turnSelected } from './selected-edits.ts';

/** A height that is dragged on the gauge: a thing or a painted creature by its id, the top of a fill by its number, or the mold's rim. The first two carry the clip. */
export type HeightTarget = { readonly kind: 'thing'; readonly id: string } | { readonly kind: 'line'; readonly at: number } | { readonly kind: 'rim' };

/** Its height, mm up; null where it is gone. */
export function targetHeight(file: SceneFile, target: HeightTarget): number | null {
  if (target.kind === 'rim') return file.mold.heightMm;
  if (target.kind === 'line') return file.fills[target.at]?.toMm ?? null;
  const placement = thing(file, target.id);
  if (placement) return heightOf(placement);
  const painted = creature(file, target.id);
  return painted ? (painted.baseMm ?? 0) : null;
}

export function targetName(file: SceneFile, target: HeightTarget): string {
  if (target.kind === 'rim') return 'Rim of the mold';
  if (target.kind === 'line') return target.at === file.fills.length - 1 ? 'Top of the resin' : 'Change of fill';
  const placement = thing(file, target.id) ?? creature(file, target.id);
  return placement ? nameOf(placement) : '';
}

/** Sets its height; figures that rest on a plane go with it, a creature's planes with the creature. The top is kept within what can be filled. */
export function setTargetHeight(file: SceneFile, target: HeightTarget, mm: number): EditResult {
  if (target.kind === 'thing') return thing(file, target.id) ? setHeight(file, target.id, mm, { riders: true }) : setCreatureBase(file, target.id, mm);
  if (target.kind === 'rim') return sizeMold(file, 'heightMm', mm, null);
  if (boundaryRange(file, target.at)) return moveBoundary(file, target.at, mm);
  const { minMm, maxMm } = fillRange(file);
  return fillTo(file, Math.min(Math.max(mm, minMm), maxMm));
}

/** Where a dragged height comes to rest. */
export function snapTargetHeight(file: SceneFile, target: HeightTarget, mm: number, options: SnapOptions): Snapped {
  if (target.kind === 'rim') return snapHeight(mm, [], options);
  const targets = target.kind === 'thing' ? heightTargets(file, [target.id, ...ridersOf(file, target.id), ...planesOf(file, [target.id])]) : heightTargets(file, []).filter(({ mm: at }) => at !== targetHeight(file, target));
  return snapHeight(mm, targets, options);
}

/** One drag of a handle in the mold view, from the document before it. Everything selected moves along. */
export function dragEdit(file: SceneFile, { id, xMm, yMm, baseMm, turnZDeg }: ViewChange, selected: readonly string[], options: SnapOptions): EditResult {
  const from = poseOf(file, id);
  if (!from) return { ok: false, reason: 'That thing is no longer there.' };
  const ids = selected.includes(id) ? selected : [id];
  const several = ids.length > 1;
  const steps: ((before: SceneFile) => EditResult)[] = [];
  if (xMm !== undefined && yMm !== undefined && from.slides) {
    const { x, y } = snapPlace(xMm, yMm, placeTargets(file, ids), options);
    if (several) steps.push((before) => shiftSelected(before, ids, x.mm - from.xMm, y.mm - from.yMm));
    else if (from.kind === 'creature') steps.push((before) => setCreature(before, id, { xMm: x.mm, yMm: y.mm }));
    else steps.push((before) => setPlaces(before, new Map([[id, { xMm: x.mm, yMm: y.mm }]])));
  }
  if (baseMm !== undefined) {
    const target = { kind: 'thing', id } as const;
    // Carried over its ground a thing keeps the ground's height; pulled by its float it snaps.
    if (xMm !== undefined) steps.push((before) => setHeight(before, id, hundredths(baseMm), { riders: false }));
    else {
      const to = snapTargetHeight(file, target, baseMm, options).mm;
      steps.push((before) => (several ? raiseSelected(before, ids, to - (targetHeight(file, target) ?? 0)) : setTargetHeight(before, target, to)));
    }
  }
  if (turnZDeg !== undefined) {
    const deg = options.suspended ? Math.round(turnZDeg * 10) / 10 : Math.round(turnZDeg);
    const [tiltX, tiltY, now] = from.turnDeg;
    if (from.kind === 'plane') steps.push((before) => changeArt(before, id, { turnDeg: deg }));
    else if (several) steps.push((before) => turnSelected(before, ids, deg - now));
    else if (from.kind === 'creature') steps.push((before) => setCreature(before, id, { turnDeg: [tiltX, tiltY, deg] }));
    else steps.push((before) => setTurn(before, id, [tiltX, tiltY, deg]));
  }
  return inTurn(file, steps);
}

interface DraggedFrom {
  readonly kind: PlacementFile['kind'] | 'creature';
  /** It has a place over the floor: a plane without a picture has none. */
  readonly slides: boolean;
  readonly xMm: number;
  readonly yMm: number;
  readonly turnDeg: readonly [number, number, number];
}

function poseOf(file: SceneFile, id: string): DraggedFrom | null {
  const placement = thing(file, id);
  if (placement?.kind === 'plane') return { kind: 'plane', slides: placement.art !== undefined, xMm: placement.art?.xMm ?? 0, yMm: placement.art?.yMm ?? 0, turnDeg: [0, 0, 0] };
  const standing = placement ?? creature(file, id);
  return standing ? { kind: placement?.kind ?? 'creature', slides: true, xMm: standing.xMm ?? 0, yMm: standing.yMm ?? 0, turnDeg: standing.turnDeg ?? [0, 0, 0] } : null;
}

function hundredths(mm: number): number {
  return Math.round(mm * 100) / 100;
}
