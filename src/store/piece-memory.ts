/** Small things the browser remembers for the person: units, which piece this tab had open. Losing them loses no work. */
import type { SwitchUnits } from './piece-state.ts';

/** As `localStorage` and `sessionStorage` have it. */
export interface Memory {
  getItem(key: string): string | null;
  setItem(key: string, value: string): void;
}

export interface Memories {
  /** For all tabs. */
  readonly lasting: Memory;
  /** For this tab. */
  readonly tab: Memory;
}

const UNITS = 'stillpool.units';
const PIECE = 'stillpool.piece';

/** The browser's own, or none where storage is turned off. */
export function browserMemories(): Memories {
  return { lasting: guarded(() => localStorage), tab: guarded(() => sessionStorage) };
}

export function rememberedUnits({ lasting }: Memories): SwitchUnits {
  const { length, volume } = (parsed(lasting.getItem(UNITS)) ?? {}) as Partial<SwitchUnits>;
  return { length: length === 'in' ? 'in' : 'mm', volume: volume === 'floz' ? 'floz' : 'mL' };
}

export function rememberUnits({ lasting }: Memories, units: SwitchUnits): void {
  lasting.setItem(UNITS, JSON.stringify(units));
}

export function rememberedPiece({ tab }: Memories): string | null {
  return tab.getItem(PIECE) || null;
}

export function rememberPiece({ tab }: Memories, id: string | null): void {
  tab.setItem(PIECE, id ?? '');
}

function parsed(text: string | null): unknown {
  try {
    return text === null ? null : JSON.parse(text);
  } catch {
    return null;
  }
}

/** Reading the storage throws where it is turned off, writing where it is full. */
function guarded(storage: () => Storage): Memory {
  return {
    getItem(key) {
      try {
        return storage().getItem(key);
      } catch {
        return null;
      }
    },
    setItem(key, value) {
      try {
        storage().setItem(key, value);
      } catch {
        // Remembered until the page closes, as the state holds it.
      }
    },
  };
}
