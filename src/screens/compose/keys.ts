/** Which key asks for what in Compose. Everything the pointer does has one. */
import { creature, raiseCreatures } from '../../core/scene/edit/creature.ts';
import { moveCreatures, removeCreatures, turnCreatures } from '../../core/scene/edit/creature-moves.ts';
import type { EditResult, SceneFile } from '../../core/scene/edit/file.ts';
import { remove } from '../../core/scene/edit/keep.ts';
import { raise, shift, turn } from '../../core/scene/edit/move.ts';
import { thingsOf } from '../../core/scene/edit/things.ts';
import { inTurn } from './hands.ts';

export interface KeyPress {
  readonly key: string;
  readonly ctrlKey: boolean;
  readonly metaKey: boolean;
  readonly shiftKey: boolean;
  readonly altKey: boolean;
}

export type Command =
  | { readonly kind: 'edit'; readonly edit: (file: SceneFile, ids: readonly string[]) => EditResult }
  | { readonly kind: 'undo' | 'redo' | 'duplicate' | 'remove' | 'deselect' | 'select all' };

/** Degrees for one press of a bracket. */
const TURN_DEG = 1;

/** null: the key means nothing here and goes its usual way. Arrows 1 mm, with Shift 5, with Alt a tenth. */
export function commandOf(press: KeyPress): Command | null {
  const { key, shiftKey } = press;
  const command = press.ctrlKey || press.metaKey;
  if (command) {
    switch (key.toLowerCase()) {
      case 'z': return { kind: shiftKey ? 'redo' : 'undo' };
      case 'y': return { kind: 'redo' };
      case 'd': return { kind: 'duplicate' };
      case 'a': return { kind: 'select all' };
      default: return null;
    }
  }
  const stepMm = press.altKey ? 0.1 : shiftKey ? 5 : 1;
  switch (key) {
    case 'ArrowLeft': return moved(-stepMm, 0);
    case 'ArrowRight': return moved(stepMm, 0);
    case 'ArrowUp': return moved(0, stepMm);
    case 'ArrowDown': return moved(0, -stepMm);
    case 'PageUp': return raised(stepMm);
    case 'PageDown': return raised(-stepMm);
    case '[': case '{': return turned(TURN_DEG * (shiftKey ? 15 : 1));
    case ']': case '}': return turned(-TURN_DEG * (shiftKey ? 15 : 1));
    case 'Delete': case 'Backspace': return { kind: 'remove' };
    case 'Escape': return { kind: 'deselect' };
    default: return null;
  }
}

function moved(dxMm: number, dyMm: number): Command {
  return { kind: 'edit', edit: forBoth((file, ids) => shift(file, ids, dxMm, dyMm), (file, ids) => moveCreatures(file, ids, { xMm: dxMm, yMm: dyMm })) };
}

function raised(byMm: number): Command {
  return { kind: 'edit', edit: forBoth((file, ids) => raise(file, ids, byMm, { riders: true }), (file, ids) => raiseCreatures(file, ids, byMm)) };
}

function turned(byDeg: number): Command {
  return { kind: 'edit', edit: forBoth((file, ids) => turn(file, ids, byDeg), (file, ids) => turnCreatures(file, ids, byDeg)) };
}

type EditOf = (file: SceneFile, ids: readonly string[]) => EditResult;

/** Things that are set in, and creatures that are painted, each in its own way. */
function forBoth(things: EditOf, creatures: EditOf): EditOf {
  return (file, ids) => {
    const painted = ids.filter((id) => creature(file, id) !== undefined);
    // A creature takes its planes along.
    const taken = thingsOf(file).filter((each) => each.kind === 'plane' && each.slices?.some((slice) => painted.includes(slice))).map(({ id }) => id);
    const rest = ids.filter((id) => !painted.includes(id) && !taken.includes(id));
    return inTurn(file, [...(rest.length > 0 || painted.length === 0 ? [(before: SceneFile) => things(before, rest)] : []), ...(painted.length > 0 ? [(before: SceneFile) => creatures(before, painted)] : [])]);
  };
}

/** Takes out all that is selected. */
export const removeSelected: EditOf = forBoth(remove, removeCreatures);
