/** Which screen is shown, by the address's hash; after a slash, what of it is asked for. */
import { useSyncExternalStore } from 'react';

export const SCREENS = [
  { hash: 'compose', title: 'Compose' },
  { hash: 'pours', title: 'Pours' },
  { hash: 'sheet', title: 'Sheet' },
] as const;

export type ScreenName = (typeof SCREENS)[number]['hash'];

export function useScreen(): ScreenName {
  const hash = useSyncExternalStore(onHash, () => location.hash.slice(1).split('/')[0]);
  return SCREENS.find((screen) => screen.hash === hash)?.hash ?? 'compose';
}

const TEMPLATE = 'sheet/template-';

/** The Sheet screen at a plane's template. */
export function templateHash(planeId: string): string {
  return `#${TEMPLATE}${encodeURIComponent(planeId)}`;
}

/** Id of the plane whose template is asked for; null: none is. */
export function askedTemplate(): string | null {
  const { hash } = location;
  if (!hash.startsWith(`#${TEMPLATE}`)) return null;
  try {
    return decodeURIComponent(hash.slice(TEMPLATE.length + 1));
  } catch {
    return null;
  }
}

function onHash(changed: () => void): () => void {
  addEventListener('hashchange', changed);
  return () => removeEventListener('hashchange', changed);
}
