/**
 * What the plan would cost or save with another goal, and one press to choose it. It is asked for once the plan rests,
 * its heat told; whatever else is asked meanwhile goes first.
 */
import { useEffect, useId, useState } from 'react';
import { besideGoal, GOAL_NAMES } from '../../core/plan/best/goal-words.ts';
import { setGoal } from '../../core/scene/edit/wishes.ts';
import type { Derived } from '../../store/piece-state.ts';
import type { Comparison } from '../../work/protocol.ts';
import { REST_MS, useAtRest, useDerived, usePiece } from '../shared/piece.ts';
import { useWords } from '../shared/words.ts';
import { UseChange } from './UseChange.tsx';
import './other-goals.css';

export function OtherGoals() {
  const id = useId();
  const derived = useDerived();
  const { planned } = useWords();
  const edit = usePiece((state) => state.edit);
  const readOnly = usePiece((state) => state.readOnly !== null);
  const compared = useComparison(derived);
  const { goal: now } = derived.plan;
  const others = compared && besideGoal({ goal: now, goals: compared.goals });
  if (others?.length === 0) return null;
  return (
    <section className="other-goals" aria-labelledby={id}>
      <h3 id={id}>Other goals</h3>
      {others === null || compared === null ? (
        <p className="soft comparing">The other goals are being compared …</p>
      ) : (
        <>
          <p className="soft">Beside this plan, which is for {GOAL_NAMES[now].toLowerCase()}:</p>
          <ul>
            {others.map(({ goal, words }) => (
              <li key={goal}>
                <b>{GOAL_NAMES[goal]}:</b> {planned(words)}.{' '}
                {!readOnly && <button type="button" className="link" onClick={() => edit((before) => setGoal(before, goal))}>Choose {GOAL_NAMES[goal].toLowerCase()}</button>}
              </li>
            ))}
          </ul>
          {compared.longer.map(({ code, message, whatIf }) => <p key={code}>{planned(message)} {whatIf !== undefined && <UseChange change={whatIf} />}</p>)}
        </>
      )}
    </section>
  );
}

/** Null: not known yet. */
function useComparison(derived: Derived): Comparison | null {
  const compare = usePiece((state) => state.compareGoals);
  const atRest = useAtRest(derived);
  const [known, setKnown] = useState<{ readonly of: Derived; readonly comparison: Comparison } | null>(null);
  useEffect(() => {
    if (!atRest) return undefined;
    let left = false;
    const resting = setTimeout(() => void compare().then((comparison) => {
      if (!left && comparison) setKnown({ of: derived, comparison });
    }), REST_MS);
    return () => {
      left = true;
      clearTimeout(resting);
    };
  }, [derived, atRest, compare]);
  return known?.of === derived ? known.comparison : null;
}
