/** The window's size in px, and the widths at which the page is laid out anew. */
import { useSyncExternalStore } from 'react';

export const WIDE_PX = 1200;
export const NARROW_PX = 800;

export interface Viewport {
  readonly widthPx: number;
  readonly heightPx: number;
}

let last: Viewport = { widthPx: 0, heightPx: 0 };

export function useViewport(): Viewport {
  return useSyncExternalStore(onResize, current);
}

/** The same object while nothing changed, as the hook needs it. */
function current(): Viewport {
  const { innerWidth: widthPx, innerHeight: heightPx } = window;
  if (last.widthPx !== widthPx || last.heightPx !== heightPx) last = { widthPx, heightPx };
  return last;
}

function onResize(changed: () => void): () => void {
  addEventListener('resize', changed);
  return () => removeEventListener('resize', changed);
}
