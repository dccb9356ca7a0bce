/** Sketching on a plane, looked at straight as the viewer will see it: a brush, an eraser, five inks, a width. Every stroke is an edit of the piece. */
import { useEffect, useLayoutEffect, useMemo, useRef, useState, type KeyboardEvent } from 'react';
import { artInMold } from '../../core/scene/art-place.ts';
import type { PlaneFile, SceneFile } from '../../core/scene/edit/file.ts';
import { sketchOf } from '../../core/scene/edit/sketch.ts';
import { drawStroke, eraseAlong, takeStrokesOut } from '../../core/scene/edit/strokes.ts';
import { nameOf, thingsOf } from '../../core/scene/edit/things.ts';
import type { Mold, Scene, Stroke } from '../../core/scene/scene.ts';
import { halfInside, moldRing } from '../../core/sheet/template-mold.ts';
import { strokeLength } from '../../core/sight/sketch/mark.ts';
import { FewField } from '../card/fields.tsx';
import { deepOf } from '../card/place-words.ts';
import { useReadyArt } from '../compose/ready-art.ts';
import type { ReadyArt } from '../compose/scene-now.ts';
import { useDerived, usePiece, usePieceStore } from '../shared/piece.ts';
import { useWords } from '../shared/words.ts';
import type { Backdrop, LaidPicture, PlaneLook } from './backdrop.ts';
import { BoardSurface } from './board-surface.ts';
import { INKS, WIDTHS_MM, inkWords, softOf, useSketchUi, type Tool } from './inks.ts';
import './sketch.css';

const TOOLS = [{ value: 'brush', words: 'brush' }, { value: 'eraser', words: 'eraser' }] as const;
const SEEINGS = [{ value: 'seen', words: 'as seen' }, { value: 'painted', words: 'as painted' }] as const;
const CLOSER = 1.5;
/** Strokes listed, the last drawn first. */
const MOST_LISTED = 60;

export function SketchBoard({ file, plane, onClose }: { readonly file: SceneFile; readonly plane: PlaneFile; readonly onClose: () => void }) {
  const dialog = useRef<HTMLDialogElement>(null);
  const store = usePieceStore();
  const [seeing, setSeeing] = useState<'seen' | 'painted'>('seen');
  const [shown, setShown] = useState<Stroke | null>(null);
  const [surface, setSurface] = useState<BoardSurface | null>(null);
  const sketch = useMemo(() => sketchOf(file, plane.id), [file, plane.id]);
  const { length } = useWords();
  const faceDown = file.cast === 'face-down';
  const mirrored = faceDown && seeing === 'seen';
  const behind = planeBehind(file, plane);
  useEffect(() => {
    if (dialog.current && !dialog.current.open) dialog.current.showModal();
  }, []);
  const onUndoKeys = (event: KeyboardEvent): void => {
    const key = event.key.toLowerCase();
    if (!(event.ctrlKey || event.metaKey) || !(key === 'z' || key === 'y')) return;
    event.preventDefault();
    event.stopPropagation();
    if (key === 'y' || event.shiftKey) store.getState().redo();
    else store.getState().undo();
  };
  return (
    <dialog ref={dialog} className="sketch" tabIndex={-1} aria-labelledby="sketch-title" onClose={onClose} onKeyDownCapture={onUndoKeys} onKeyDown={(event) => event.stopPropagation()}>
      <div className="sketch-body">
        <header className="sketch-head">
          <h2 id="sketch-title">Sketch on <i>{nameOf(plane)}</i></h2>
          <button type="button" className="link" onClick={() => dialog.current?.close()}>Done</button>
          <p className="soft">{length(deepOf(file, plane.atMm))} deep, {mirrored || !faceDown ? 'as the viewer will see it' : 'as you look down into the mold'}.{behind && <> Faintly behind it: <i>{nameOf(behind)}</i>.</>}</p>
        </header>
        <Board file={file} plane={plane} behind={behind} sketch={sketch} mirrored={mirrored} shown={shown} onSurface={setSurface} />
        <div className="sketch-side">
          <Tools />
          {faceDown && <FewField label="Drawn" value={seeing} choices={SEEINGS} onChoose={setSeeing} />}
          <div className="sketch-actions" role="group" aria-label="Look">
            <button type="button" className="link" onClick={() => surface?.zoom(CLOSER)}>Closer</button>
            <button type="button" className="link" onClick={() => surface?.zoom(1 / CLOSER)}>Farther</button>
            <button type="button" className="link" onClick={() => surface?.seeWhole()}>Whole plane</button>
          </div>
          <Steps />
          <StrokeList plane={plane} sketch={sketch} onShow={setShown} />
        </div>
      </div>
    </dialog>
  );
}

function Tools() {
  const { tool, ink, widthMm, set } = useSketchUi();
  const { lengthNumber } = useWords();
  const unit = usePiece((state) => state.units.length);
  const readOnly = usePiece((state) => state.readOnly !== null);
  return (
    <>
      <FewField<Tool> label="With" value={tool} choices={TOOLS} onChoose={(chosen) => set({ tool: chosen })} />
      <fieldset className="inks" disabled={readOnly || tool === 'eraser'}>
        <legend className="quantity-label">Ink</legend>
        {INKS.map((one) => (
          <label key={one.ink}>
            <input type="radio" className="hidden" name="sketch-ink" checked={ink === one.ink} onChange={() => set({ ink: one.ink })} />
            <span><span className="ink-drop" style={{ background: one.ink }} />{one.words}</span>
          </label>
        ))}
      </fieldset>
      <FewField label={`Width, ${unit}`} value={String(widthMm)} choices={WIDTHS_MM.map((mm) => ({ value: String(mm), words: lengthNumber(mm) }))} onChoose={(mm) => set({ widthMm: Number(mm) })} />
    </>
  );
}

function Steps() {
  const undoStep = usePiece((state) => state.undoStep);
  const redoStep = usePiece((state) => state.redoStep);
  const undo = usePiece((state) => state.undo);
  const redo = usePiece((state) => state.redo);
  const refusal = usePiece((state) => state.refusal);
  const { said } = useWords();
  return (
    <>
      {refusal !== null && <p role="alert" className="problem">{said(refusal)}</p>}
      <div className="sketch-actions">
        {undoStep && <button type="button" className="link" onClick={undo}>Undo: {said(undoStep.label)}</button>}
        {redoStep && <button type="button" className="link" onClick={redo}>Redo: {said(redoStep.label)}</button>}
      </div>
    </>
  );
}

type Sketch = ReturnType<typeof sketchOf>;

/** For hands that don't draw: what is there, and out with it. */
function StrokeList({ plane, sketch, onShow }: { readonly plane: PlaneFile; readonly sketch: Sketch; readonly onShow: (stroke: Stroke | null) => void }) {
  const edit = usePiece((state) => state.edit);
  const readOnly = usePiece((state) => state.readOnly !== null);
  const [open, setOpen] = useState(false);
  const { length } = useWords();
  const out = (places: readonly number[]): void => {
    onShow(null);
    edit((before) => takeStrokesOut(before, plane.id, places));
  };
  if (sketch.length === 0) return <p className="soft">Nothing is drawn yet.</p>;
  const listed = open ? sketch.slice(-MOST_LISTED).reverse() : [];
  return (
    <details className="strokes" onToggle={({ currentTarget }) => setOpen(currentTarget.open)}>
      <summary>Strokes: {sketch.length}</summary>
      <ol>
        {listed.map((stroke, n) => {
          const number = sketch.length - n;
          return (
            <li key={`${stroke.at} ${stroke.points.length}`} onPointerEnter={() => onShow(stroke)} onPointerLeave={() => onShow(null)}>
              <span><b>{number}</b> {inkWords(stroke.ink)}, {length(stroke.widthMm)} wide, {stroke.points.length === 1 ? 'a dot' : `${length(strokeLength(stroke))} long`}</span>
              {!readOnly && <button type="button" className="link" aria-label={`Take out stroke ${number}`} onFocus={() => onShow(stroke)} onBlur={() => onShow(null)} onClick={() => out([stroke.at])}>Take out</button>}
            </li>
          );
        })}
      </ol>
      {sketch.length > MOST_LISTED && <p className="soft">And {sketch.length - MOST_LISTED} before them.</p>}
      {!readOnly && <button type="button" className="link" onClick={() => out(sketch.map(({ at }) => at))}>Take all of them out</button>}
    </details>
  );
}

interface BoardProps {
  readonly file: SceneFile;
  readonly plane: PlaneFile;
  readonly behind: PlaneFile | null;
  readonly sketch: Sketch;
  readonly mirrored: boolean;
  readonly shown: Stroke | null;
  readonly onSurface: (surface: BoardSurface | null) => void;
}

function Board({ file, plane, behind, sketch, mirrored, shown, onSurface }: BoardProps) {
  const holder = useRef<HTMLDivElement>(null);
  const surface = useRef<BoardSurface | null>(null);
  const [missing, setMissing] = useState(false);
  const store = usePieceStore();
  const readOnly = usePiece((state) => state.readOnly !== null);
  const { tool, ink, widthMm } = useSketchUi();
  const { mold } = useDerived().scene;
  const backdrop = useBackdrop(file, plane, behind, mold);
  const planeId = plane.id;
  useLayoutEffect(() => {
    const made = BoardSurface.on(holder.current!, {
      drew(points) {
        const brush = useSketchUi.getState();
        store.getState().edit((before) => drawStroke(before, { plane: planeId, ink: brush.ink, widthMm: brush.widthMm, softMm: softOf(brush.widthMm), points }));
      },
      erased: (eraser) => void store.getState().edit((before) => eraseAlong(before, planeId, eraser)),
    });
    surface.current = made;
    setMissing(made === null);
    onSurface(made);
    return () => {
      surface.current = null;
      onSurface(null);
      made?.dispose();
    };
  }, [store, planeId, onSurface]);
  useLayoutEffect(() => {
    surface.current?.setLook({ strokes: sketch, backdrop, half: halfInside(mold, plane.atMm), mirrored, brush: { tool, plane: planeId, ink, widthMm, softMm: softOf(widthMm) }, readOnly, shown });
  });
  return (
    <div className="sketch-place">
      <div ref={holder} className="sketch-board" role="img" aria-label={`The plane ${nameOf(plane)} with ${sketch.length === 1 ? 'one stroke' : `${sketch.length} strokes`}`} />
      {missing && <p role="alert">This browser gives no canvas to draw on. A picture put on the plane does the same.</p>}
    </div>
  );
}

/** The next plane farther from the viewer. */
function planeBehind(file: SceneFile, plane: PlaneFile): PlaneFile | null {
  const way = file.cast === 'face-down' ? 1 : -1;
  const farther = thingsOf(file).filter((each): each is PlaneFile => each.kind === 'plane' && way * (each.atMm - plane.atMm) > 0);
  return farther.sort((a, b) => way * (a.atMm - b.atMm))[0] ?? null;
}

function useBackdrop(file: SceneFile, plane: PlaneFile, behind: PlaneFile | null, mold: Mold): Backdrop {
  const files = usePiece((state) => state.files);
  const painted = usePiece((state) => state.painted);
  const art = useReadyArt(files);
  const images = useImages(art, [plane, behind].flatMap((each) => each?.art?.file ?? []));
  const cast = file.cast ?? 'face-up';
  return useMemo(() => {
    const lookOf = (each: PlaneFile): PlaneLook => ({ picture: pictureOf(each, cast, { art, images }), guides: painted?.guides.filter(({ planeId }) => planeId === each.id) ?? [] });
    return { ...lookOf(plane), wall: moldRing(mold, plane.atMm), behind: behind && { ...lookOf(behind), strokes: sketchOf(file, behind.id) } };
    // Strokes on this plane are not part of it: a new one must not have it drawn anew.
    // eslint-disable-next-line react-hooks/exhaustive-deps
  }, [plane, behind, mold, painted, art, images, cast]);
}

function pictureOf({ art: placed }: PlaneFile, cast: Scene['cast'], { art, images }: { readonly art: ReadonlyMap<string, ReadyArt>; readonly images: ReadonlyMap<string, HTMLImageElement> }): LaidPicture | null {
  const [ready, image] = placed ? [art.get(placed.file), images.get(placed.file)] : [];
  if (!placed || !ready || !image) return null;
  const { widthMm, xMm = 0, yMm = 0, turnDeg = 0, mirror = false } = placed;
  return { image, place: artInMold({ xMm, yMm, turnDeg, mirror }, cast), widthMm, heightMm: widthMm * ready.highPerWide };
}

/** The pictures themselves, once they are read. */
function useImages(art: ReadonlyMap<string, ReadyArt>, paths: readonly string[]): ReadonlyMap<string, HTMLImageElement> {
  const [images, setImages] = useState<ReadonlyMap<string, HTMLImageElement>>(new Map());
  const wanted = paths.join('\n');
  useEffect(() => {
    let gone = false;
    const urls = wanted.split('\n').flatMap((path) => (art.has(path) ? [[path, art.get(path)!.url] as const] : []));
    void Promise.all(urls.map(async ([path, url]) => {
      const image = new Image();
      image.src = url;
      return await image.decode().then(() => [[path, image] as const], () => []);
    })).then((read) => {
      if (!gone) setImages(new Map(read.flat()));
    });
    return () => {
      gone = true;
    };
  }, [art, wanted]);
  return images;
}
