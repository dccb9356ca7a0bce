/** What can go wrong with keeping a piece in the browser, in plain words: what happened, what is safe, what to do. */

export type TroubleKind = 'unavailable' | 'full' | 'write-failed' | 'gone' | 'blocked' | 'outdated' | 'newer' | 'taken-over';

export interface KeepingTrouble {
  readonly kind: TroubleKind;
  readonly what: string;
  readonly safe: string;
  readonly todo: string;
}

const OPEN_IS_SAFE = 'What is open here is complete, but only in this tab until it is kept.';

const WORDS: Readonly<Record<TroubleKind, Omit<KeepingTrouble, 'kind'>>> = {
  unavailable: {
    what: 'This browser keeps nothing for this page (a private window, or storage is turned off).',
    safe: 'What is open here is complete, but it is lost when the tab closes.',
    todo: 'Save to a file now, and again after every change that matters.',
  },
  full: { what: 'The browser has no room left for this piece.', safe: OPEN_IS_SAFE, todo: 'Save to a file now, then forget pieces you no longer need or free some space on the disk.' },
  'write-failed': { what: 'The browser could not keep the last changes. Trying again.', safe: OPEN_IS_SAFE, todo: 'Save to a file now.' },
  gone: { what: 'The browser emptied this page’s storage. Pieces that are not open are lost here.', safe: 'What is open here is complete and is being kept again.', todo: 'Save to a file now. Other pieces: open their files.' },
  blocked: { what: 'Another tab with an older version of this page holds the storage.', safe: OPEN_IS_SAFE, todo: 'Close the other tabs of this page, or save to a file now.' },
  outdated: { what: 'Another tab runs a newer version of this page and now owns the storage.', safe: OPEN_IS_SAFE, todo: 'Save to a file now, then reload this page.' },
  newer: { what: 'The storage was written by a newer version of this page.', safe: 'Nothing in it was touched.', todo: 'Reload to get the newer version; until then save to a file.' },
  'taken-over': { what: 'Another tab took this piece over before the last changes made here were kept.', safe: 'Those changes are still in this tab, and nowhere else.', todo: 'Save to a file now.' },
};

export function trouble(kind: TroubleKind): KeepingTrouble {
  return { kind, ...WORDS[kind] };
}

/** What a failed write or opening means. */
export function troubleOf(error: unknown): KeepingTrouble {
  if (error instanceof StorageTrouble) return trouble(error.kind);
  const name = error instanceof Error || error instanceof DOMException ? error.name : '';
  return trouble(name === 'QuotaExceededError' ? 'full' : 'write-failed');
}

/** An error whose kind is known already. */
export class StorageTrouble extends Error {
  readonly kind: TroubleKind;
  constructor(kind: TroubleKind, cause?: unknown) {
    super(WORDS[kind].what, { cause });
    this.kind = kind;
  }
}
