/**
 * A number one types in any unit. What was typed stays as typed while it is the value; the other unit follows.
 * Enter or leaving commits, Escape puts back, arrow keys step. Bad input keeps its text and says what is expected.
 */
import { useId, useState, type CSSProperties, type FocusEvent, type KeyboardEvent } from 'react';
import { usePiece, usePieceStore } from '../shared/piece.ts';
import { useWords } from '../shared/words.ts';
import { readQuantity, showQuantity, stepOf, unitBeside, type QuantityKind } from './typed-quantity.ts';

export interface QuantityFieldProps {
  /** Read aloud, and seen unless `words` stands around the field. */
  readonly label: string;
  /** null: nothing is given yet. */
  readonly value: number | null;
  readonly kind: QuantityKind;
  /** Makes the edit; false: refused, and the store says why; words: refused, and why. */
  readonly onCommit: (value: number) => boolean | string;
  /** The field stands inside a sentence: its label is only read aloud. */
  readonly inSentence?: boolean;
  /** Nobody touched it: the value is the usual one. */
  readonly usual?: boolean;
  /** The one in the accent color: what is being set now. */
  readonly strong?: boolean;
  /** What stands there while there is no value. */
  readonly placeholder?: string;
  /** The other unit is not shown. */
  readonly alone?: boolean;
  /** A unit that stands beside the field, where none is typed. */
  readonly unit?: string;
}

export function QuantityField({ label, value, kind, onCommit, inSentence = false, usual = false, strong = false, placeholder, alone = false, unit }: QuantityFieldProps) {
  const id = useId();
  const units = usePiece((state) => state.units);
  const readOnly = usePiece((state) => state.readOnly !== null);
  const store = usePieceStore();
  const { said } = useWords();
  const [draft, setDraft] = useState<string | null>(null);
  const [typed, setTyped] = useState<{ readonly text: string; readonly value: number } | null>(null);
  const [trouble, setTrouble] = useState<{ readonly text: string; readonly words: string } | null>(null);

  const rest = value === null ? '' : typed && typed.value === value ? typed.text : showQuantity(value, kind, units);
  const text = draft ?? rest;
  const problem = trouble && trouble.text === text ? trouble.words : null;
  const other = unit ?? (value === null || alone ? null : unitBeside(rest, value, kind, units));

  const commit = (): void => {
    if (draft === null || draft === rest || (draft.trim() === '' && value === null)) {
      setDraft(null);
      return;
    }
    const read = readQuantity(draft, kind, units);
    if ('problem' in read) {
      setTrouble({ text: draft, words: read.problem });
      return;
    }
    const made = read.value === value || onCommit(read.value);
    if (made !== true) {
      // Its own refusal, read now: the store's is soon another field's.
      setTrouble({ text: draft, words: said(made || (store.getState().refusal ?? 'That can’t be set here.')) });
      return;
    }
    setTyped({ text: draft.trim(), value: read.value });
    setTrouble(null);
    setDraft(null);
  };
  const step = (event: KeyboardEvent, way: 1 | -1): void => {
    const read = draft === null ? null : readQuantity(draft, kind, units);
    const from = read && 'value' in read ? read.value : value;
    if (from === null || readOnly) return;
    event.preventDefault();
    // Sums of steps stay on the steps: no 0.30000000000000004.
    if (onCommit(Number((from + way * stepOf(kind, units, event)).toFixed(6))) === true) setDraft(null);
  };
  const onKeyDown = (event: KeyboardEvent<HTMLInputElement>): void => {
    event.stopPropagation(); // the picture's keys are not meant here
    if (event.key === 'Enter') commit();
    else if (event.key === 'Escape') {
      setDraft(null);
      setTrouble(null);
    } else if (event.key === 'ArrowUp') step(event, 1);
    else if (event.key === 'ArrowDown') step(event, -1);
  };
  const width = `calc(${widthInDigits(text || placeholder || '')}ch + 12px)`;
  return (
    <span className={['quantity', strong && 'strong', inSentence && 'in-sentence'].filter(Boolean).join(' ')}>
      <label htmlFor={id} className={inSentence ? 'hidden' : 'quantity-label'}>{label}</label>
      <input
        id={id}
        type="text"
        inputMode="text"
        autoComplete="off"
        className={usual ? 'usual' : undefined}
        style={{ '--width': width } as CSSProperties}
        value={text}
        placeholder={placeholder}
        readOnly={readOnly}
        aria-invalid={problem !== null}
        aria-describedby={problem ? `${id}-problem` : other ? `${id}-other` : undefined}
        onFocus={(event: FocusEvent<HTMLInputElement>) => event.currentTarget.select()}
        onChange={(event) => setDraft(event.target.value)}
        onBlur={commit}
        onKeyDown={onKeyDown}
      />
      {inSentence ? (
        <>
          {usual && <span className="usual-mark">usual</span>}
          {other !== null && <span id={`${id}-other`} className="hidden">{other}</span>}
        </>
      ) : (usual || other !== null) && (
        <span className="beside">
          {usual && <span className="usual-mark">usual</span>}
          {other !== null && <span id={`${id}-other`} className="other-unit">{other}</span>}
        </span>
      )}
      {problem !== null && <span id={`${id}-problem`} role="alert" className="problem">{problem}</span>}
    </span>
  );
}

/** Goes to the first field within that keeps a text it could not take, so that nothing is made with another value in its place. Whether there is one. */
export function goToUnread(within: Element | null): boolean {
  const unread = within?.querySelector<HTMLElement>('[aria-invalid="true"]') ?? null;
  unread?.focus();
  return unread !== null;
}

/** A letter m is over one and a half digits wide. Only for browsers that can't size a field by what it holds. */
function widthInDigits(text: string): number {
  return Math.max(3, [...text].reduce((sum, letter) => sum + (letter === 'm' ? 1.6 : 1), 0));
}
