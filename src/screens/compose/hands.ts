/** What a drag or a key asks of the document: the edits behind the clip, the mold view's handles and the keyboard. Pure. */
import { creature } from '../../core/scene/edit/creature.ts';
import { setCreatureBase } from '../../core/scene/edit/creature-moves.ts';
import { boundaryRange, fillRange, fillTo, moveBoundary } from '../../core/scene/edit/fills.ts';
import type { EditResult, SceneFile } from '../../core/scene/edit/file.ts';
import { raise, ridersOf, setHeight, setPlaces, setTurn, shift, turn } from '../../core/scene/edit/move.ts';
import { changeArt } from '../../core/scene/edit/art.ts';
import { heightTargets, placeTargets, snapHeight, snapPlace, type SnapOptions, type Snapped } from '../../core/scene/edit/snap.ts';
import { heightOf, nameOf, thing } from '../../core/scene/edit/things.ts';
import type { ViewChange } from '../../view/props.ts';
import { sizeMold } from './mold-sizes.ts';

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
  const targets = target.kind === 'thing' ? heightTargets(file, [target.id, ...ridersOf(file, target.id)]) : heightTargets(file, []).filter(({ mm: at }) => at !== targetHeight(file, target));
  return snapHeight(mm, targets, options);
}

/** One drag of a handle in the mold view, from the document before it. Everything selected moves along. */
export function dragEdit(file: SceneFile, change: ViewChange, selected: readonly string[], options: SnapOptions): EditResult {
  const ids = selected.includes(change.id) ? selected : [change.id];
  const placement = thing(file, change.id);
  if (!placement) return { ok: false, reason: 'That thing is no longer there.' };
  const at = placement.kind === 'plane' ? placement.art : placement;
  const steps: ((before: SceneFile) => EditResult)[] = [];
  if (change.xMm !== undefined && change.yMm !== undefined && at) {
    const snapped = snapPlace(change.xMm, change.yMm, placeTargets(file, ids), options);
    if (ids.length > 1) steps.push((before) => shift(before, ids, snapped.x.mm - (at.xMm ?? 0), snapped.y.mm - (at.yMm ?? 0)));
    else steps.push((before) => setPlaces(before, new Map([[change.id, { xMm: snapped.x.mm, yMm: snapped.y.mm }]])));
  }
  if (change.baseMm !== undefined) {
    // Carried over its ground a thing keeps the ground's height; pulled by its float it snaps.
    const to = change.xMm === undefined ? snapTargetHeight(file, { kind: 'thing', id: change.id }, change.baseMm, options).mm : hundredths(change.baseMm);
    if (ids.length > 1 && change.xMm === undefined) steps.push((before) => raise(before, ids, to - heightOf(placement), { riders: true }));
    else steps.push((before) => setHeight(before, change.id, to, { riders: change.xMm === undefined }));
  }
  if (change.turnZDeg !== undefined) {
    const deg = options.suspended ? Math.round(change.turnZDeg * 10) / 10 : Math.round(change.turnZDeg);
    if (placement.kind === 'plane') steps.push((before) => changeArt(before, change.id, { turnDeg: deg }));
    else if (ids.length > 1) steps.push((before) => turn(before, ids, deg - (placement.turnDeg?.[2] ?? 0)));
    else steps.push((before) => setTurn(before, change.id, [placement.turnDeg?.[0] ?? 0, placement.turnDeg?.[1] ?? 0, deg]));
  }
  return inTurn(file, steps);
}

/** Edits one after the other, as one; named by the first. */
export function inTurn(file: SceneFile, steps: readonly ((before: SceneFile) => EditResult)[]): EditResult {
  let result: EditResult = { ok: true, file, label: 'nothing moved' };
  for (const [i, step] of steps.entries()) {
    if (!result.ok) return result;
    const label: string = result.label;
    const next = step(result.file);
    result = next.ok && i > 0 ? { ...next, label } : next;
  }
  return result;
}

function hundredths(mm: number): number {
  return Math.round(mm * 100) / 100;
}
