/** The card's other fields: a word typed, one of a few, one of many, yes or no. */
import { useId, useState, type KeyboardEvent, type ReactNode } from 'react';
import { usePiece, usePieceStore } from '../shared/piece.ts';
import { useWords } from '../shared/words.ts';

/** `place`: an id by which the section is gone to. */
export function CardSection({ title, children, note, place }: { readonly title: string; readonly children: ReactNode; readonly note?: ReactNode; readonly place?: string }) {
  const id = useId();
  return (
    <section className="card-section" id={place} aria-labelledby={id}>
      <h3 id={id} tabIndex={place === undefined ? undefined : -1}>{title}{note && <span className="soft"> {note}</span>}</h3>
      {children}
    </section>
  );
}

export interface TextFieldProps {
  readonly label: string;
  readonly value: string;
  readonly onCommit: (text: string) => boolean;
  readonly className?: string;
  readonly labelSeen?: boolean;
  readonly type?: 'text' | 'date' | 'datetime-local' | 'time';
  /** What stands there while there is no text. */
  readonly placeholder?: string;
}

/** A text that Enter or leaving commits and Escape puts back. */
export function TextField({ label, value, onCommit, className, labelSeen = false, type = 'text', placeholder }: TextFieldProps) {
  const id = useId();
  const readOnly = usePiece((state) => state.readOnly !== null);
  const store = usePieceStore();
  const { said } = useWords();
  const [draft, setDraft] = useState<string | null>(null);
  const [problem, setProblem] = useState<string | null>(null);
  const commit = (): void => {
    if (draft === null || draft === value) {
      setDraft(null);
      setProblem(null);
      return;
    }
    const made = onCommit(draft);
    // Its own refusal, read now: the store's is soon another field's.
    setProblem(made ? null : said(store.getState().refusal ?? 'That can’t be set here.'));
    if (made) setDraft(null);
  };
  const onKeyDown = (event: KeyboardEvent): void => {
    event.stopPropagation();
    if (event.key === 'Enter') commit();
    if (event.key === 'Escape') {
      setDraft(null);
      setProblem(null);
    }
  };
  return (
    <span className={`text-field ${className ?? ''}`}>
      <label htmlFor={id} className={labelSeen ? 'quantity-label' : 'hidden'}>{label}</label>
      <input id={id} type={type} placeholder={placeholder} autoComplete="off" spellCheck={false} readOnly={readOnly} value={draft ?? value} aria-invalid={problem !== null} aria-describedby={problem !== null ? `${id}-problem` : undefined} onChange={(event) => { setDraft(event.target.value); setProblem(null); }} onBlur={commit} onKeyDown={onKeyDown} />
      {problem !== null && <span id={`${id}-problem`} role="alert" className="problem">{problem}</span>}
    </span>
  );
}

export interface Choice<T extends string> {
  readonly value: T;
  readonly words: string;
}

export interface ChoiceFieldProps<T extends string> {
  readonly label: string;
  readonly value: T;
  readonly choices: readonly Choice<T>[];
  readonly onChoose: (value: T) => void;
  readonly labelSeen?: boolean;
  readonly usual?: boolean;
}

/** One of a few, all of them seen. */
export function FewField<T extends string>({ label, value, choices, onChoose, labelSeen = true, usual = false }: ChoiceFieldProps<T>) {
  const name = useId();
  const readOnly = usePiece((state) => state.readOnly !== null);
  return (
    <div className="few" role="radiogroup" aria-labelledby={name}>
      <span id={name} className={labelSeen ? 'quantity-label' : 'hidden'}>{label}{usual && <span className="usual-mark"> usual</span>}</span>
      <span className="few-choices">
        {choices.map((choice) => (
          <label key={choice.value}>
            <input type="radio" className="hidden" name={name} disabled={readOnly} checked={choice.value === value} onChange={() => onChoose(choice.value)} onKeyDown={(event) => event.stopPropagation()} />
            <span>{choice.words}</span>
          </label>
        ))}
      </span>
    </div>
  );
}

/** One of many. */
export function ManyField<T extends string>({ label, value, choices, onChoose, labelSeen = true, usual = false }: ChoiceFieldProps<T>) {
  const id = useId();
  const readOnly = usePiece((state) => state.readOnly !== null);
  return (
    <span className="many">
      <span className={labelSeen ? 'quantity-label' : 'hidden'}><label htmlFor={id}>{label}</label>{usual && <span className="usual-mark"> usual</span>}</span>
      <select id={id} className={usual ? 'usual' : undefined} disabled={readOnly} value={value} onChange={(event) => onChoose(event.target.value as T)} onKeyDown={(event) => event.stopPropagation()}>
        {choices.map((choice) => <option key={choice.value} value={choice.value}>{choice.words}</option>)}
      </select>
    </span>
  );
}

export function YesNo({ label, value, onChange }: { readonly label: string; readonly value: boolean; readonly onChange: (value: boolean) => void }) {
  const readOnly = usePiece((state) => state.readOnly !== null);
  return (
    <label className="yes-no">
      <input type="checkbox" checked={value} disabled={readOnly} onChange={(event) => onChange(event.target.checked)} />
      <span>{label}</span>
    </label>
  );
}
