/** Waits for something that may fail and keeps what went wrong as words. */
import { useState } from 'react';
import { messageOf } from '../../files/fail.ts';

/** The words, or null; and a runner that clears them first. */
export function useTrouble(): readonly [string | null, (work: () => Promise<void>) => void] {
  const [trouble, setTrouble] = useState<string | null>(null);
  const guard = (work: () => Promise<void>): void => {
    setTrouble(null);
    work().catch((error: unknown) => setTrouble(messageOf(error)));
  };
  return [trouble, guard];
}
