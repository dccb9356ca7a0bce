/** The page's paper as the mold view needs it, read from its tokens, anew when the paper turns light or dark. */
import { useMemo, useSyncExternalStore } from 'react';
import type { ViewColors } from '../../view/props.ts';

const TOKENS = ['ground', 'sheet', 'ink', 'ink2', 'rule', 'teal', 'onteal', 'brick', 'brickwash', 'water', 'silt', 'hatch'] as const;

export function useViewColors(): ViewColors {
  const dark = useMedia('(prefers-color-scheme: dark)');
  // The tokens follow the query; it stands for them here.
  return useMemo(() => readColors(dark), [dark]);
}

export function useReducedMotion(): boolean {
  return useMedia('(prefers-reduced-motion: reduce)');
}

function readColors(_dark: boolean): ViewColors {
  const style = getComputedStyle(document.documentElement);
  return Object.fromEntries(TOKENS.map((token) => [token, style.getPropertyValue(`--${token}`).trim()])) as unknown as ViewColors;
}

function useMedia(query: string): boolean {
  return useSyncExternalStore(
    (changed) => {
      const list = matchMedia(query);
      list.addEventListener('change', changed);
      return () => list.removeEventListener('change', changed);
    },
    () => matchMedia(query).matches,
  );
}
