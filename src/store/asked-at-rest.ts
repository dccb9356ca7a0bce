/** Asks the worker about what is derived now; whatever else is asked meanwhile goes first. */
import type { Answer, Kind, RequestOf } from '../work/protocol.ts';
import type { PieceDeriver } from './piece-deriving.ts';
import type { Derived, PieceState } from './piece-state.ts';

/** Null where the piece moves on first, or is not at rest. */
export async function askedAtRest<K extends Kind>(deriver: PieceDeriver, get: () => PieceState, requestOf: (derived: Derived) => RequestOf<K>): Promise<Answer<K> | null> {
  const { derived } = get();
  if (!derived || derived.about || derived.checkingHeat) return null;
  while (get().derived === derived && !get().deriving) {
    const answer = await deriver.ask<K>(requestOf(derived));
    if (answer.ok || !answer.overtaken) return answer;
  }
  return null;
}
