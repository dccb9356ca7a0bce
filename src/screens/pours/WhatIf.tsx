/**
 * What if: another room, other hours, another formula or other drying, tried on the piece as it is. The difference to the
 * plan is told in a sentence, and one press makes it an edit.
 */
import { useEffect, useMemo, useState } from 'react';
import { benchHours } from '../../core/scene/edit/bench.ts';
import { choiceOf } from '../../core/scene/edit/choice.ts';
import type { SceneFile } from '../../core/scene/edit/file.ts';
import { roomC } from '../../core/scene/edit/room.ts';
import { thingsOf } from '../../core/scene/edit/things.ts';
import { goalOf } from '../../core/scene/edit/wishes.ts';
import { dayAndTime } from '../../core/units/when.ts';
import { differenceSentence } from '../../core/plan/what-if-sentence.ts';
import { leadOf, noPlanSentence, tried, type Trial } from '../../core/plan/what-if.ts';
import type { Derived } from '../../store/piece-state.ts';
import { ManyField, TextField } from '../card/fields.tsx';
import { formulaChoices } from '../card/formula-choices.ts';
import { QuantityField } from '../card/QuantityField.tsx';
import { REST_MS, useAtRest, useDerived, usePiece } from '../shared/piece.ts';
import { useWords } from '../shared/words.ts';
import { NOTHING_TRIED, trialsFrom, usualDryH, type Tries } from './what-if-tries.ts';
import './what-if.css';

export function WhatIf() {
  const file = usePiece((state) => state.document);
  const readOnly = usePiece((state) => state.readOnly !== null);
  const [tries, setTries] = useState<Tries>(NOTHING_TRIED);
  if (file === null || readOnly) return null;
  const set = (part: Partial<Tries>): true => {
    setTries((before) => ({ ...before, ...part }));
    return true;
  };
  return (
    <details className="cautions what-if">
      <summary>What if …</summary>
      <div className="what-if-fields">
        <QuantityField label="Room" kind="temperature" value={tries.roomC ?? roomC(file)} onCommit={(c) => set({ roomC: c })} />
        {benchHours(file).map(({ days, from, to }, at) => (
          <div key={at} className="hours" role="group" aria-label={`Try bench hours, ${days}`}>
            <span>Hands there {days}</span>
            <TextField labelSeen type="time" label="from" value={tries.hours.get(at)?.from ?? from} onCommit={(text) => set({ hours: new Map(tries.hours).set(at, { from: text, to: tries.hours.get(at)?.to ?? to }) })} />
            <TextField labelSeen type="time" label="to" value={tries.hours.get(at)?.to ?? to} onCommit={(text) => set({ hours: new Map(tries.hours).set(at, { from: tries.hours.get(at)?.from ?? from, to: text }) })} />
          </div>
        ))}
        <Fills file={file} tries={tries} set={set} />
        {thingsOf(file).some(({ kind }) => kind === 'plane') && <QuantityField label="Each painted plane dries" kind="hours" placeholder="as it does now" value={tries.dryH ?? usualDryH(file)} onCommit={(dryH) => set({ dryH })} />}
      </div>
      <Answered file={file} trials={trialsFrom(file, tries)} onDone={() => setTries(NOTHING_TRIED)} />
    </details>
  );
}

function Fills({ file, tries, set }: { readonly file: SceneFile; readonly tries: Tries; readonly set: (part: Partial<Tries>) => true }) {
  const { length } = useWords();
  const last = file.fills.length - 1;
  // Where the goal chooses, a fill's own formula does not count.
  if (goalOf(file) !== 'even' && choiceOf(file) !== null) return null;
  return file.fills.map((_, i) => last - i).map((at) => (
    <ManyField key={at} label={last === 0 ? 'Poured with' : `Fill to ${length(file.fills[at].toMm)} poured with`} value={tries.formulas.get(at) ?? file.fills[at].formula} choices={formulaChoices(file)} onChoose={(formula) => set({ formulas: new Map(tries.formulas).set(at, formula) })} />
  ));
}

/** The sentence, or why the change can't be made. */
function Answered({ file, trials, onDone }: { readonly file: SceneFile; readonly trials: readonly Trial[]; readonly onDone: () => void }) {
  const edit = usePiece((state) => state.edit);
  const { planned, said } = useWords();
  const key = JSON.stringify(trials);
  // The trials are new objects on every look; what they say is not.
  const changed = useMemo(() => tried(file, JSON.parse(key) as Trial[]), [file, key]);
  const answer = useAnswer(file, key, trials.length > 0 && changed.ok ? changed.file : null);
  if (trials.length === 0) return <p className="soft">Change something here to see what the plan would make of it. The piece stays as it is.</p>;
  if (!changed.ok) return <p role="alert" className="problem">{said(changed.reason)}</p>;
  return (
    <>
      <p role="status" className="what-if-answer">{answer === null ? 'Being planned …' : planned(answer.sentence)}</p>
      {answer?.finish && <p className="soft">Done {dayAndTime(answer.finish)}.</p>}
      <p className="card-actions">
        <button type="button" className="button" onClick={() => { if (edit((before) => tried(before, trials))) onDone(); }}>Use this</button>
        <button type="button" className="link" onClick={onDone}>Leave it as it is</button>
      </p>
    </>
  );
}

interface Told {
  readonly sentence: string;
  /** Null: there is no plan then. */
  readonly finish: string | null;
}

/** Null: not known yet. */
function useAnswer(file: SceneFile, key: string, document: SceneFile | null): Told | null {
  const derived = useDerived();
  const planWith = usePiece((state) => state.planWith);
  const atRest = useAtRest(derived);
  const [known, setKnown] = useState<{ readonly of: Derived; readonly document: SceneFile; readonly told: Told } | null>(null);
  useEffect(() => {
    if (!atRest || document === null || derived.document !== file) return undefined;
    let left = false;
    const resting = setTimeout(() => void planWith(document).then((answer) => {
      if (left || !answer) return;
      const lead = leadOf(file, JSON.parse(key) as Trial[]);
      const told = answer.ok ? { sentence: differenceSentence(lead, derived, answer.value), finish: answer.value.plan.finish } : { sentence: noPlanSentence(lead, answer.problems), finish: null };
      setKnown({ of: derived, document, told });
    }), REST_MS);
    return () => {
      left = true;
      clearTimeout(resting);
    };
  }, [derived, atRest, document, file, key, planWith]);
  return known?.of === derived && known.document === document ? known.told : null;
}
