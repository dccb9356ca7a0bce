/** Which screen is shown, by the address's hash. */
import { useSyncExternalStore } from 'react';

export const SCREENS = [
  { hash: 'compose', title: 'Compose' },
  { hash: 'pours', title: 'Pours' },
  { hash: 'sheet', title: 'Sheet' },
] as const;

export type ScreenName = (typeof SCREENS)[number]['hash'];

export function useScreen(): ScreenName {
  const hash = useSyncExternalStore(onHash, () => location.hash.slice(1));
  return SCREENS.find((screen) => screen.hash === hash)?.hash ?? 'compose';
}

function onHash(changed: () => void): () => void {
  addEventListener('hashchange', changed);
  return () => removeEventListener('hashchange', changed);
}
