/** Which key asks for what in Compose. Everything the pointer does has one. */
import type { EditResult, SceneFile } from '../../core/scene/edit/file.ts';
import { raiseSelected, shiftSelected, turnSelected } from './selected-edits.ts';

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
  return { kind: 'edit', edit: (file, ids) => shiftSelected(file, ids, dxMm, dyMm) };
}

function raised(byMm: number): Command {
  return { kind: 'edit', edit: (file, ids) => raiseSelected(file, ids, byMm) };
}

function turned(byDeg: number): Command {
  return { kind: 'edit', edit: (file, ids) => turnSelected(file, ids, byDeg) };
}
