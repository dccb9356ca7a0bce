/** What is done to all that is selected: things that are set in and creatures that are painted, each in its own way. Pure. */
import { creature, raiseCreatures } from '../../core/scene/edit/creature.ts';
import { moveCreatures, removeCreatures, turnCreatures } from '../../core/scene/edit/creature-moves.ts';
import type { EditResult, SceneFile } from '../../core/scene/edit/file.ts';
import { remove } from '../../core/scene/edit/keep.ts';
import { raise, shift, turn } from '../../core/scene/edit/move.ts';
import { thingsOf } from '../../core/scene/edit/things.ts';

/** Over the floor, mm. */
export function shiftSelected(file: SceneFile, ids: readonly string[], dxMm: number, dyMm: number): EditResult {
  return both(file, ids, (before, things) => shift(before, things, dxMm, dyMm), (before, creatures) => moveCreatures(before, creatures, { xMm: dxMm, yMm: dyMm }));
}

export function raiseSelected(file: SceneFile, ids: readonly string[], byMm: number): EditResult {
  return both(file, ids, (before, things) => raise(before, things, byMm, { riders: true }), (before, creatures) => raiseCreatures(before, creatures, byMm));
}

/** Counterclockwise seen from above. */
export function turnSelected(file: SceneFile, ids: readonly string[], byDeg: number): EditResult {
  return both(file, ids, (before, things) => turn(before, things, byDeg), (before, creatures) => turnCreatures(before, creatures, byDeg));
}

export function removeSelected(file: SceneFile, ids: readonly string[]): EditResult {
  return both(file, ids, remove, removeCreatures);
}

/** A creature takes these planes along. */
export function planesOf(file: SceneFile, creatures: readonly string[]): readonly string[] {
  return thingsOf(file).filter((each) => each.kind === 'plane' && each.slices?.some((slice) => creatures.includes(slice))).map(({ id }) => id);
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

type EditOf = (file: SceneFile, ids: readonly string[]) => EditResult;

function both(file: SceneFile, ids: readonly string[], things: EditOf, creatures: EditOf): EditResult {
  const painted = ids.filter((id) => creature(file, id) !== undefined);
  const taken = planesOf(file, painted);
  const rest = ids.filter((id) => !painted.includes(id) && !taken.includes(id));
  return inTurn(file, [
    ...(rest.length > 0 || painted.length === 0 ? [(before: SceneFile) => things(before, rest)] : []),
    ...(painted.length > 0 ? [(before: SceneFile) => creatures(before, painted)] : []),
  ]);
}
