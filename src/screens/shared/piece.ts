/** The piece's store, given to the components by the page. */
import { createContext, useContext } from 'react';
import { useStore, type StoreApi } from 'zustand';
import type { Derived, PieceState } from '../../store/piece-state.ts';

export const PieceContext = createContext<StoreApi<PieceState> | null>(null);

export function usePieceStore(): StoreApi<PieceState> {
  const store = useContext(PieceContext);
  if (store === null) throw new Error('No piece store: the component stands outside PieceContext; put it inside.');
  return store;
}

/** Select primitives or values that keep their identity. */
export function usePiece<T>(select: (state: PieceState) => T): T {
  return useStore(usePieceStore(), select);
}

/** ms that a plan stands before more is asked about it: what was just pressed gets its answer first. */
export const REST_MS = 300;

/** Whether the plan stands still and its heat is told: only then more may be asked about it. */
export function useAtRest({ about, checkingHeat }: Derived): boolean {
  const still = usePiece((state) => !state.deriving && !state.dragging);
  return still && !about && !checkingHeat;
}

/** What was derived from the piece, for screens that stand only while there is something. */
export function useDerived(): Derived {
  const derived = usePiece((state) => state.derived);
  if (derived === null) throw new Error('Nothing is planned yet; the screen must not stand yet.');
  return derived;
}
