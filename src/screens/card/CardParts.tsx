/** What every thing's card has: its head with the name to type, what the plan says about it, and what can be done with it whole. */
import { duplicate, remove, setLocked } from '../../core/scene/edit/keep.ts';
import type { SceneFile } from '../../core/scene/edit/file.ts';
import type { Severity } from '../../core/plan/plan.ts';
import type { ReactNode } from 'react';
import { Rich } from '../shared/Rich.tsx';
import { usePiece } from '../shared/piece.ts';
import { TextField } from './fields.tsx';

export const SEVERITY_WORDS: Readonly<Record<Severity, string>> = { halt: 'do not pour', caution: 'caution', note: 'note' };

export interface CardHeadProps {
  readonly kind: string;
  readonly name: string;
  readonly words?: string;
  readonly onName: (name: string) => boolean;
}

/** Letters of a name that stand on the card's width in its largest type, and in the next. */
const LARGE_LETTERS = 19;
const MIDDLE_LETTERS = 25;

export function CardHead({ kind, name, words, onName }: CardHeadProps) {
  return (
    <header className="card-head">
      <h2 className="card-kind">{kind}</h2>
      <TextField key={name} className={`card-name${name.length > MIDDLE_LETTERS ? ' small' : name.length > LARGE_LETTERS ? ' middle' : ''}`} label="Name" value={name} onCommit={onName} />
      {words && <p className="card-words"><i>{words}</i></p>}
    </header>
  );
}

/** Findings whose subject is this thing, in the plan's words. */
export function ThingFindings({ id }: { readonly id: string }) {
  const findings = usePiece((state) => state.derived?.plan.findings);
  const placements = usePiece((state) => state.derived?.scene.placements);
  const own = findings?.filter(({ subject }) => subject === id) ?? [];
  if (own.length === 0) return null;
  const names = placements?.map(({ name }) => name) ?? [];
  return (
    <section className="card-section thing-findings" aria-label="What the plan says about it">
      {own.map(({ code, severity, message, remedy }) => (
        <div key={code}>
          <p><span className={`mark mark-${severity}`}>{SEVERITY_WORDS[severity]}</span></p>
          <p><Rich text={message} names={names} /></p>
          <p className="soft"><Rich text={remedy} names={names} /></p>
        </div>
      ))}
    </section>
  );
}

export function KeepActions({ ids, locked, children }: { readonly ids: readonly string[]; readonly locked: boolean; readonly children?: ReactNode }) {
  const edit = usePiece((state) => state.edit);
  const select = usePiece((state) => state.select);
  const readOnly = usePiece((state) => state.readOnly !== null);
  const copy = (): void => {
    let copies: readonly string[] = [];
    const made = edit((before) => {
      const result = duplicate(before, ids);
      if (result.ok) copies = result.ids;
      return result;
    });
    if (made) select(copies);
  };
  if (readOnly) return null;
  return (
    <p className="card-actions">
      {children}
      <button type="button" className="link" onClick={copy}>Copy</button>
      <button type="button" className="link" onClick={() => edit((before) => setLocked(before, ids, !locked))}>{locked ? 'Unlock' : 'Lock'}</button>
      <button type="button" className="link" onClick={() => { if (edit((before: SceneFile) => remove(before, ids))) select([]); }}>Take out</button>
    </p>
  );
}
