/** Compose: the gauge, the mold to look into, and the card of what is selected. */
import { useEffect, type CSSProperties, type KeyboardEvent as ReactKeyboardEvent } from 'react';
import { moldMaterialWords } from '../../core/resin/material-words.ts';
import { addPlane } from '../../core/scene/edit/place.ts';
import { duplicate } from '../../core/scene/edit/keep.ts';
import type { SceneFile } from '../../core/scene/edit/file.ts';
import { thingsOf } from '../../core/scene/edit/things.ts';
import type { PieceState } from '../../store/piece-state.ts';
import { currentView } from '../../view/current-view.ts';
import type { SeenFrom } from '../../view/props.ts';
import { Card } from '../card/Card.tsx';
import { usePiece, usePieceStore } from '../shared/piece.ts';
import { plainProblem } from '../shared/plain-problem.ts';
import { useTopBarPx } from '../shared/top-bar-px.ts';
import { leaveWheelToPage } from '../shared/wheel.ts';
import { useWords } from '../shared/words.ts';
import { ComposeGauge } from './ComposeGauge.tsx';
import { FindingSlip } from './FindingSlip.tsx';
import { hintFor } from './hints.ts';
import { commandOf, type KeyPress } from './keys.ts';
import { planeLandingOf } from './landing.ts';
import { MoldPicture } from './MoldPicture.tsx';
import { NewPiece } from './NewPiece.tsx';
import { OutlinePanel } from './OutlinePanel.tsx';
import { SetSomething } from './SetSomething.tsx';
import { removeSelected } from './selected-edits.ts';
import { Slip } from './Slip.tsx';
import { useComposeUi } from './ui.ts';
import './compose.css';

const VIEWS: readonly SeenFrom[] = ['corner', 'front', 'end', 'above'];
/** Cast face-down the show face is the floor. */
const VIEWS_FACE_DOWN: readonly SeenFrom[] = [...VIEWS, 'below'];

export function ComposeScreen() {
  const file = usePiece((state) => state.document);
  const derived = usePiece((state) => state.derived);
  const unplanned = usePiece((state) => state.unplanned);
  const selected = usePiece((state) => state.selected);
  const asking = useComposeUi((ui) => ui.asking);
  const outline = useComposeUi((ui) => ui.outline);
  const showOutline = useComposeUi((ui) => ui.showOutline);
  const onKeys = usePageKeys();
  const { said } = useWords();
  const topBarPx = useTopBarPx();
  const untouched = usePiece((state) => state.kept.state === 'untouched');
  if (file === null || derived === null) return null;
  return (
    <div className="compose" style={{ '--top-bar': `${topBarPx}px` } as CSSProperties}>
      <nav aria-label="Shortcuts">
        <button type="button" className="skip button" onClick={() => {
          showOutline(true);
          requestAnimationFrame(() => document.getElementById('outline')?.focus());
        }}>Go to the outline: the whole piece as text</button>
      </nav>
      <ComposeGauge file={file} derived={derived} topBarPx={topBarPx} />
      <main className="compose-main">
        <header className="mold-head">
          <MoldLine file={file} />
          {!outline && <SeenFromChoice views={file.cast === 'face-down' ? VIEWS_FACE_DOWN : VIEWS} />}
          <button type="button" className="link outline-switch" aria-pressed={outline} onClick={() => showOutline(!outline)}>Outline</button>
        </header>
        {outline && <OutlinePanel file={file} derived={derived} />}
        {/* Kept while it is not seen: a picture once given up is slow to come back. */}
        <div className="picture-frame" hidden={outline} role="group" aria-label="Mold view. Arrow keys move what is selected, with Shift farther, with Alt finer; Page Up and Page Down raise and lower it, brackets turn it" tabIndex={0} onKeyDown={onKeys} onWheelCapture={leaveWheelToPage}>
          <MoldPicture file={file} derived={derived} />
        </div>
        <div className="hint-row">
          <p className="hint">{!outline && <i>{hintFor(file, selected, untouched)}</i>}</p>
          {selected.length > 0 && <SnapSwitch />}
        </div>
        {unplanned.length > 0 && <div role="alert" className="unplanned">{unplanned.map((problem) => <p key={problem.path + problem.message}>{said(plainProblem(problem, file))}</p>)}</div>}
        {(thingsOf(file).length > 0 || derived.plan.findings[0]?.severity === 'halt') && <FindingSlip file={file} derived={derived} />}
        <SetRow />
      </main>
      <Slip><Card /></Slip>
      {(asking === 'figure' || asking === 'bed') && <SetSomething key={asking} file={file} kind={asking} />}
      {asking === 'new piece' && <NewPiece />}
    </div>
  );
}

function MoldLine({ file: { mold, fillMm } }: { readonly file: SceneFile }) {
  const words = useWords();
  const select = usePiece((state) => state.select);
  const holdLine = useComposeUi((ui) => ui.holdLine);
  const sizes = mold.shape === 'box' ? [mold.lengthMm, mold.widthMm, mold.heightMm] : [mold.diameterMm, mold.heightMm];
  return (
    <button type="button" className="mold-line" onClick={() => { select([]); holdLine(null); }}>
      <span className="soft">{mold.shape === 'box' ? 'Box' : 'Round'} mold, {moldMaterialWords(mold.material ?? 'silicone')}</span>
      <span>{words.sizes(sizes)}, filled to {words.length(fillMm)}</span>
    </button>
  );
}

function SeenFromChoice({ views }: { readonly views: readonly SeenFrom[] }) {
  const seenFrom = useComposeUi((ui) => ui.seenFrom);
  const turned = useComposeUi((ui) => ui.turned);
  const seeFrom = useComposeUi((ui) => ui.seeFrom);
  const look = (view: SeenFrom): void => {
    // The same word again, after turning by hand: the view's own property does not change, so it is asked.
    if (view === seenFrom && turned) currentView().stage.look.again();
    seeFrom(view);
  };
  return (
    <div className="seen-from" role="group" aria-label="Seen from">
      <span className="soft" aria-hidden="true">Seen from</span>
      <span className="seen-words">{(views.includes(seenFrom) ? views : [...views, seenFrom]).map((view) => <button key={view} type="button" aria-pressed={!turned && seenFrom === view} onClick={() => look(view)}>{view}</button>)}</span>
    </div>
  );
}

/** For hands without an Alt key too. */
function SnapSwitch() {
  const snaps = useComposeUi((ui) => ui.snaps);
  const snap = useComposeUi((ui) => ui.snap);
  return (
    <label className="yes-no snap-switch">
      <input type="checkbox" checked={snaps} onChange={({ target }) => snap(target.checked)} />
      <span>Snaps <span className="soft roomy">(with Alt freely)</span></span>
    </label>
  );
}

function SetRow() {
  const store = usePieceStore();
  const undoStep = usePiece((state) => state.undoStep);
  const redoStep = usePiece((state) => state.redoStep);
  const undo = usePiece((state) => state.undo);
  const redo = usePiece((state) => state.redo);
  const readOnly = usePiece((state) => state.readOnly !== null);
  const ask = useComposeUi((ui) => ui.ask);
  const { said } = useWords();
  return (
    <div className="set-row">
      <div role="group" aria-label="Set something in the mold">
        <p className="soft" aria-hidden="true">Set <span className="roomy">something </span>in the mold</p>
        <p className="button-rows">
          <button type="button" className="button" aria-disabled={readOnly} aria-label="a figure" onClick={() => ask('figure')}><span className="roomy">a </span>figure</button>
          <button type="button" className="button" aria-disabled={readOnly} aria-label="a painted plane" onClick={() => setPlane(store.getState())}><span className="roomy">a painted </span>plane</button>
          <button type="button" className="button" aria-disabled={readOnly} aria-label="a bed" onClick={() => ask('bed')}><span className="roomy">a </span>bed</button>
        </p>
      </div>
      <p className="steps">
        {redoStep && <button type="button" className="link" onClick={redo}>Redo: {said(redoStep.label)}</button>}
        {undoStep && <button type="button" className="link" onClick={undo}>Undo: {said(undoStep.label)}</button>}
      </p>
    </div>
  );
}

/** A plane asks nothing: it goes where there is most room, clear of figures if it can, and is selected so that it can be put elsewhere. */
function setPlane({ derived, edit, select }: PieceState): void {
  let ids: readonly string[] = [];
  const made = edit((before) => {
    const result = addPlane(before, derived ? planeLandingOf(before, derived) : {});
    if (result.ok) ids = result.ids;
    return result;
  });
  if (made) select(ids);
}

/** Keys with nothing else in focus, and those of the picture. */
function usePageKeys(): (event: ReactKeyboardEvent) => void {
  const store = usePieceStore();
  useEffect(() => {
    const onKey = (event: KeyboardEvent): void => {
      if (event.defaultPrevented || !meansThePage(event)) return;
      if (perform(store.getState(), event)) event.preventDefault();
    };
    addEventListener('keydown', onKey);
    return () => removeEventListener('keydown', onKey);
  }, [store]);
  return (event) => {
    if (event.defaultPrevented || event.target !== event.currentTarget) return;
    if (!perform(store.getState(), event)) return;
    event.preventDefault();
    event.stopPropagation();
  };
}

/** Undo and redo count everywhere but in a field; the rest only where no button or field has the focus. */
function meansThePage({ target, ctrlKey, metaKey, key }: KeyboardEvent): boolean {
  if (!(target instanceof Element) || target.closest('dialog[open]')) return false;
  if (target.closest('input, select, textarea')) return false;
  const undoes = (ctrlKey || metaKey) && /^[zyd]$/i.test(key);
  return undoes || target === document.body || ((key === 'Delete' || key === 'Escape') && target.closest('.compose') !== null);
}

/** Whether the key meant something. */
function perform(state: PieceState, press: KeyPress): boolean {
  const command = commandOf(press);
  const { document: file, selected, edit, select } = state;
  if (!command || !file) return false;
  switch (command.kind) {
    case 'undo': state.undo(); return true;
    case 'redo': state.redo(); return true;
    case 'deselect': if (selected.length === 0) return false; select([]); return true;
    case 'select all': select(thingsOf(file).map(({ id }) => id)); return true;
    default:
  }
  if (selected.length === 0) return false;
  if (command.kind === 'edit') edit((before) => command.edit(before, selected));
  else if (command.kind === 'remove') {
    if (edit((before) => removeSelected(before, selected))) select([]);
  } else {
    let copies: readonly string[] = [];
    const made = edit((before) => {
      const result = duplicate(before, selected);
      if (result.ok) copies = result.ids;
      return result;
    });
    if (made) select(copies);
  }
  return true;
}
