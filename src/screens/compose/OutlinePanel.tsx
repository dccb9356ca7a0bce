/** The scene as a text that is edited in place: the keyboard's and the screen reader's way through all of it. */
import { useMemo } from 'react';
import { setAt, type FieldValue } from '../../core/scene/edit/set-at.ts';
import type { SceneFile } from '../../core/scene/edit/file.ts';
import { creature } from '../../core/scene/edit/creature.ts';
import { thing, thingsOf } from '../../core/scene/edit/things.ts';
import { outlineOf, type EditKind, type OutlineEdit, type OutlineItem } from '../../core/scene/outline.ts';
import { capital, plain } from '../../core/units/format.ts';
import type { Derived } from '../../store/piece-state.ts';
import { ManyField, TextField, YesNo } from '../card/fields.tsx';
import { partsSaid, type PartSaid } from '../card/parts-said.ts';
import { goTo } from '../card/PieceParts.tsx';
import { QuantityField } from '../card/QuantityField.tsx';
import { readRatio } from '../card/ratio.ts';
import type { QuantityKind } from '../card/typed-quantity.ts';
import { usePiece } from '../shared/piece.ts';
import { useWords } from '../shared/words.ts';
import { sceneNow } from './scene-now.ts';
import { useComposeUi } from './ui.ts';

const QUANTITIES: Partial<Readonly<Record<EditKind, QuantityKind>>> = { length: 'length', angle: 'angle', number: 'number', mass: 'mass', temperature: 'temperature', hours: 'hours', minutes: 'minutes', volume: 'volume', percent: 'percent' };
/** Stands for nothing chosen where that may be. */
const NOT_SAID = '';

export function OutlinePanel({ file, derived }: { readonly file: SceneFile; readonly derived: Derived }) {
  const items = useMemo(() => outlineOf(sceneNow(file, derived), derived.plan), [file, derived]);
  return (
    <section className="outline" id="outline" tabIndex={-1} aria-labelledby="outline-title">
      <h2 id="outline-title">Outline</h2>
      {thingsOf(file).length > 1 && <p className="soft">Press a thing to select it. Tick the boxes to select several.</p>}
      <ul>
        {items.map((item) => <Item key={item.key} item={item} file={file} />)}
        <OnTheCard file={file} />
      </ul>
    </section>
  );
}

/** What is typed on the card alone: each line goes there, and the keyboard goes on from it. */
function OnTheCard({ file }: { readonly file: SceneFile }) {
  const select = usePiece((state) => state.select);
  const showFormula = useComposeUi((ui) => ui.showFormula);
  const go = ({ place, formula }: PartSaid): void => {
    select([]);
    showFormula(formula ?? null);
    requestAnimationFrame(() => goTo(place));
  };
  return (
    <li>
      <p>On the card</p>
      <ul>{partsSaid(file).map((part) => <li key={`${part.place} ${part.formula ?? ''} ${part.words}`}><button type="button" className="outline-thing" onClick={() => go(part)}>{part.words}</button></li>)}</ul>
    </li>
  );
}

function Item({ item, file }: { readonly item: OutlineItem; readonly file: SceneFile }) {
  const words = useWords().planned(item.words);
  const select = usePiece((state) => state.select);
  const selected = usePiece((state) => state.selected);
  const id = item.key.replace(/^creature /, '');
  const isThing = (thing(file, id) ?? creature(file, id)) !== undefined;
  return (
    <li>
      {isThing ? (
        <div className="outline-row">
          <label className="outline-check"><input type="checkbox" checked={selected.includes(id)} onChange={() => select([id], 'toggle')} /><span className="hidden">Select: {words}</span></label>
          <button type="button" className="outline-thing" aria-pressed={selected.includes(id)} onClick={(event) => select([id], event.shiftKey || event.ctrlKey || event.metaKey ? 'toggle' : 'replace')}>{words}</button>
        </div>
      ) : <p>{words}</p>}
      {item.edits.length > 0 && (
        <details>
          <summary>Change it<span className="hidden">: {words}</span></summary>
          <div className="outline-edits">{item.edits.map((each) => <Edit key={each.path} edit={each} />)}</div>
        </details>
      )}
      {item.children.length > 0 && <ul>{item.children.map((child) => <Item key={child.key} item={child} file={file} />)}</ul>}
    </li>
  );
}

function Edit({ edit: { path, words, kind, value, choices } }: { readonly edit: OutlineEdit }) {
  const edit = usePiece((state) => state.edit);
  const set = (to: FieldValue): boolean => edit((before) => setAt(before, path, to));
  const label = capital(words);
  if (kind === 'choice') {
    const given = [...(value === null ? [{ value: NOT_SAID, words: 'not said' }] : []), ...(choices ?? [])];
    return <ManyField label={label} value={String(value ?? NOT_SAID)} choices={given} onChoose={(to) => set(to === NOT_SAID ? null : to)} />;
  }
  if (kind === 'yes-no') return <YesNo label={label} value={value === true} onChange={set} />;
  const quantity = QUANTITIES[kind];
  if (quantity) return <QuantityField label={label} kind={quantity} value={typeof value === 'number' ? value : null} placeholder="not said" onCommit={set} />;
  if (kind === 'ratio') {
    return (
      <TextField labelSeen label={label} value={Array.isArray(value) ? value.map((part: number) => plain(part, 2)).join(' : ') : ''} onCommit={(text) => {
        const ratio = readRatio(text);
        return ratio !== null && set(ratio);
      }} />
    );
  }
  return <TextField labelSeen label={label} type={kind === 'time' ? 'datetime-local' : 'text'} value={String(value ?? '')} onCommit={set} />;
}
