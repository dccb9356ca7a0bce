/** The mold view at work: what the document says, drawn; drags and presses become edits. The 3D library comes when it is first needed. */
import { Suspense, useEffect, useMemo, useRef, type RefObject } from 'react';
import { creaturesOf } from '../../core/scene/edit/creature.ts';
import type { SceneFile } from '../../core/scene/edit/file.ts';
import { heightOf, isLocked, thing, thingsOf } from '../../core/scene/edit/things.ts';
import { SIXTEENTH_MM } from '../../core/units/imperial.ts';
import type { SnapOptions } from '../../core/scene/edit/snap.ts';
import { supportAt } from '../../core/solid/support.ts';
import type { Derived } from '../../store/piece-state.ts';
import type { MoldSizing, ViewChange } from '../../view/props.ts';
import { halfSizes } from '../card/place-words.ts';
import { useGuideArt, usePaintedForms } from '../planes/painted-view.ts';
import { fetched } from '../shared/fetched.tsx';
import { usePiece, usePieceStore } from '../shared/piece.ts';
import { useWords } from '../shared/words.ts';
import { useSketchPictures, withSketches } from '../sketch/sketch-pictures.ts';
import { dragEdit } from './hands.ts';
import { moldSizeWords, sizeMold } from './mold-sizes.ts';
import { LOOKED_AT, sceneWith, solidOf } from './looked-at.ts';
import { useReadyArt } from './ready-art.ts';
import { sceneNow, surfacesBut, viewPlanes, viewPours, viewSolids } from './scene-now.ts';
import { useComposeUi } from './ui.ts';
import { useReducedMotion, useViewColors } from './view-colors.ts';

const MoldView = fetched(async () => (await import('../../view/mold-view.tsx')).MoldView);

/** The mold fills about this share of the picture's width: what a pixel is worth for snapping. */
const SHARE = 0.7;

export function MoldPicture({ file, derived }: { readonly file: SceneFile; readonly derived: Derived }) {
  const store = usePieceStore();
  const selected = usePiece((state) => state.selected);
  const chosenPour = usePiece((state) => state.chosenPour);
  const files = usePiece((state) => state.files);
  const select = usePiece((state) => state.select);
  const seenFrom = useComposeUi((ui) => ui.seenFrom);
  const turnedByHand = useComposeUi((ui) => ui.turnedByHand);
  const holdLine = useComposeUi((ui) => ui.holdLine);
  const units = usePiece((state) => state.units);
  const readOnly = usePiece((state) => state.readOnly !== null);
  const inHand = usePiece((state) => state.dragging);
  const moldCardIsUp = useComposeUi((ui) => ui.formula === null) && selected.length === 0;
  const { length, lengthNumber } = useWords();
  const colors = useViewColors();
  const reducedMotion = useReducedMotion();
  const art = useReadyArt(files);
  const holder = useRef<HTMLDivElement>(null);
  const suspended = useAltKey();
  /** What is being carried, and its height before: ground that was climbed does not lift it onto planes. */
  const carried = useRef<{ readonly id: string; readonly baseMm: number } | null>(null);

  const lookedAt = usePiece((state) => state.lookedAt);
  const scene = useMemo(() => (lookedAt ? sceneWith(file, derived, lookedAt) : sceneNow(file, derived)), [file, derived, lookedAt]);
  const solids = useMemo(() => [...viewSolids(derived.solids, file), ...(lookedAt ? [solidOf(lookedAt)] : [])], [derived.solids, file, lookedAt]);
  const guides = useGuideArt(colors);
  const creatures = usePaintedForms(file);
  const sketches = useSketchPictures(file);
  const planes = useMemo(() => withSketches(viewPlanes(scene, art, guides), sketches), [scene, art, guides, sketches]);
  const pours = useMemo(() => viewPours(derived), [derived]);
  const locked = useMemo(() => {
    const held = readOnly ? [...thingsOf(file), ...creaturesOf(file)] : thingsOf(file).filter(isLocked);
    return [...held.map(({ id }) => id), LOOKED_AT];
  }, [file, readOnly]);

  /** As finely as a drag sets things now. */
  const snapOptions = (): SnapOptions => ({
    suspended: suspended.current || !useComposeUi.getState().snaps,
    pxPerMm: ((holder.current?.clientWidth ?? 600) * SHARE) / (2 * halfSizes(file).xMm),
    gridMm: store.getState().units.length === 'in' ? SIXTEENTH_MM : 1,
  });
  const onDrag = (change: ViewChange, phase: 'move' | 'end' | 'cancel'): void => {
    const { selected: ids, drag, readOnly } = store.getState();
    if (phase !== 'move') carried.current = null;
    if (readOnly !== null) return;
    const options = snapOptions();
    drag((before) => dragEdit(before, change, ids, options), phase);
  };
  const sizing: MoldSizing = {
    words: (size, mm) => moldSizeWords(size, mm, units),
    onDrag(size, mm, phase) {
      const options = snapOptions();
      store.getState().drag((before) => sizeMold(before, size, mm, options), phase);
    },
  };
  const supportHeightAt = (id: string, xMm: number, yMm: number): number => {
    const { document, derived: latest } = store.getState();
    const placement = document && thing(document, id);
    if (!document || !latest || !placement) return 0;
    if (carried.current?.id !== id) carried.current = { id, baseMm: heightOf(placement) };
    const planesMm = thingsOf(document).filter(({ kind }) => kind === 'plane').map(heightOf);
    return supportAt({ xMm, yMm, baseMm: carried.current.baseMm, planesMm, surfaces: surfacesBut(id, latest.solids, document) });
  };
  return (
    <div className="mold-picture" ref={holder}>
      <Suspense fallback={<p className="soft drawing">The mold is being drawn …</p>}>
        <MoldView
          scene={scene}
          solids={solids}
          planes={planes}
          pours={pours}
          creatures={creatures}
          poured={chosenPour ?? undefined}
          selected={selected}
          locked={locked}
          seenFrom={seenFrom}
          onSelect={(ids, how) => {
            if (ids.includes(LOOKED_AT)) return;
            holdLine(null);
            select(ids, how);
          }}
          onDrag={onDrag}
          supportHeightAt={supportHeightAt}
          heightWords={units.length === 'in' ? (upMm, deepMm) => `${lengthNumber(upMm)} up, ${length(deepMm)} deep` : undefined}
          sizing={moldCardIsUp && !readOnly ? sizing : undefined}
          colors={colors}
          reducedMotion={reducedMotion}
          inHand={inHand}
          onTurned={turnedByHand}
        />
      </Suspense>
    </div>
  );
}

/** Whether Alt is down: it suspends snapping. */
function useAltKey(): RefObject<boolean> {
  const down = useRef(false);
  useEffect(() => {
    const note = (event: KeyboardEvent | PointerEvent): void => {
      down.current = event.altKey;
    };
    addEventListener('keydown', note, true);
    addEventListener('keyup', note, true);
    addEventListener('pointermove', note, true);
    return () => {
      removeEventListener('keydown', note, true);
      removeEventListener('keyup', note, true);
      removeEventListener('pointermove', note, true);
    };
  }, []);
  return down;
}
