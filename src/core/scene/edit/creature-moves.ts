/** Painted creatures moved by hand or key, several as one: sideways, turned, to a height, taken out. */
import { creature, creaturesOf, raiseCreatures, removeCreature, setCreature } from './creature.ts';
import { refused, type CreatureFile, type EditResult, type SceneFile } from './file.ts';
import { labelMm, spoken } from './things.ts';

/** Moves creatures over the floor, mm. */
export function moveCreatures(file: SceneFile, ids: readonly string[], by: { readonly xMm: number; readonly yMm: number }): EditResult {
  return each(file, ids, (before, { id, xMm = 0, yMm = 0 }) => setCreature(before, id, { xMm: xMm + by.xMm, yMm: yMm + by.yMm }));
}

/** Turns creatures about the upright axis, degrees counterclockwise seen from above. */
export function turnCreatures(file: SceneFile, ids: readonly string[], byDeg: number): EditResult {
  return each(file, ids, (before, { id, turnDeg: [x, y, z] = [0, 0, 0] }) => setCreature(before, id, { turnDeg: [x, y, z + byDeg] }));
}

export function removeCreatures(file: SceneFile, ids: readonly string[]): EditResult {
  return each(file, ids, (before, { id }) => removeCreature(before, id));
}

/** Sets a creature's lowest point, mm up, with all its planes; as far as the floor and the top let them. */
export function setCreatureBase(file: SceneFile, id: string, mm: number): EditResult {
  const found = creature(file, id);
  if (!found) return refused('That creature is no longer there.');
  const raised = raiseCreatures(file, [id], mm - (found.baseMm ?? 0));
  return raised.ok ? { ...raised, label: `${spoken(found.name ?? id)} at ${labelMm(creature(raised.file, id)?.baseMm ?? 0)}` } : raised;
}

/** One edit after the other, named by the last. */
function each(file: SceneFile, ids: readonly string[], edit: (before: SceneFile, one: CreatureFile) => EditResult): EditResult {
  const chosen = creaturesOf(file).filter(({ id }) => ids.includes(id));
  let result: EditResult = refused('Nothing is chosen. Choose a creature first.');
  let now = file;
  for (const { id } of chosen) {
    result = edit(now, creature(now, id)!);
    if (!result.ok) return result;
    now = result.file;
  }
  return result;
}
