/** The person's shelf of formulas, kept in the browser between pieces. What can't be kept is said, never lost silently. */
import { create } from 'zustand';
import type { FormulaFile } from '../../core/scene/edit/file.ts';

const KEY = 'stillpool.shelf';
/** A shelf is a handful; more than this is not read back. */
const MOST = 200;

export interface Shelf {
  readonly formulas: readonly FormulaFile[];
  /** Why the last change could not be kept, or null. */
  readonly trouble: string | null;
  /** One of the same id is replaced. */
  keep(formula: FormulaFile): void;
  takeOff(id: string): void;
}

export const useShelf = create<Shelf>()((set, get) => {
  const put = (formulas: readonly FormulaFile[]): void => {
    try {
      localStorage.setItem(KEY, JSON.stringify(formulas));
      set({ formulas, trouble: null });
    } catch {
      set({ trouble: 'The browser keeps nothing for this page now, so the shelf stays as it was. The formula is safe in the piece; save the piece to a file.' });
    }
  };
  return {
    formulas: storedShelf(),
    trouble: null,
    keep: (formula) => put([...get().formulas.filter(({ id }) => id !== formula.id), formula]),
    takeOff: (id) => put(get().formulas.filter((formula) => formula.id !== id)),
  };
});

/** Formulas of a stored text; whatever is none is left out. */
export function readShelf(text: string | null): readonly FormulaFile[] {
  if (text === null) return [];
  let stored: unknown;
  try {
    stored = JSON.parse(text);
  } catch {
    return [];
  }
  if (!Array.isArray(stored)) return [];
  return stored.slice(0, MOST).filter((each): each is FormulaFile => typeof each === 'object' && each !== null && typeof (each as FormulaFile).id === 'string');
}

function storedShelf(): readonly FormulaFile[] {
  try {
    return readShelf(localStorage.getItem(KEY));
  } catch {
    return []; // a browser that keeps nothing has an empty shelf
  }
}
