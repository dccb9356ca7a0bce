/** A height that was typed. A drag stops at its limit under the eye; a number that can't be had is answered with words. Pure. */
import { creature } from '../../core/scene/edit/creature.ts';
import { setCreatureBase } from '../../core/scene/edit/creature-moves.ts';
import type { EditResult, SceneFile } from '../../core/scene/edit/file.ts';
import { heightRange, setHeight, type MoveOptions } from '../../core/scene/edit/move.ts';
import { labelMm, nameOf, thing } from '../../core/scene/edit/things.ts';
import { STOP_TOLERANCE_MM } from '../../core/scene/tolerance.ts';

/** Sets one thing's height, mm up; refused where it is farther outside its range than two heights of one stop may lie apart. */
export function typedHeight(file: SceneFile, id: string, mm: number, options: MoveOptions = {}): EditResult {
  const placement = thing(file, id);
  if (placement && Number.isFinite(mm)) {
    const { minMm, maxMm } = heightRange(file, placement);
    if (mm > maxMm + STOP_TOLERANCE_MM) return { ok: false, reason: `Found ${labelMm(mm)} up; ${nameOf(placement)} can begin no higher than ${labelMm(maxMm)}, where the resin ends. Fill higher, or set it lower.` };
    if (mm < minMm - STOP_TOLERANCE_MM) return { ok: false, reason: `Found ${labelMm(mm)} up; ${nameOf(placement)} can begin no lower than ${labelMm(minMm)}${minMm === 0 ? ', the floor' : ''}.` };
  }
  return placement === undefined && creature(file, id) ? setCreatureBase(file, id, mm) : setHeight(file, id, mm, options);
}
