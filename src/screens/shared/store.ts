/** The scene's store, given to the components by the page. */
import { createContext, useContext } from 'react';
import { useStore } from 'zustand';
import type { SceneState, SceneStore, ShownScene } from '../../store/scene-store.ts';

export const StoreContext = createContext<SceneStore | null>(null);

export function useScene<T>(select: (state: SceneState) => T): T {
  const store = useContext(StoreContext);
  if (store === null) throw new Error('No scene store: the component stands outside StoreContext; put it inside.');
  return useStore(store, select);
}

/** The scene that is shown, for screens that stand only while there is one. */
export function useShown(): ShownScene {
  const shown = useScene((state) => state.shown);
  if (shown === null) throw new Error('No scene is shown; the screen must not stand yet.');
  return shown;
}
