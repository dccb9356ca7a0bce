/** Steps through how the layers stack, forward and back: by its buttons, by the arrow keys, by swiping over it, a finger also over the picture. */
import { useEffect, useMemo, useRef, type PointerEvent } from 'react';
import { depthAt } from '../../core/scene/depth.ts';
import { listed } from '../../core/units/format.ts';
import { dayAndTime } from '../../core/units/when.ts';
import type { Derived } from '../../store/piece-state.ts';
import { beforePour } from '../../store/pour-steps.ts';
import { useDerived, usePiece } from '../shared/piece.ts';
import { leaveWheelToPage } from '../shared/wheel.ts';
import { useWords, type Words } from '../shared/words.ts';
import { PouredPicture } from './PouredPicture.tsx';

/** px. A shorter stroke, or one more up than across, is no swipe. */
const SWIPE_PX = 40;

export function PourSteps() {
  const derived = useDerived();
  const chosen = usePiece((state) => state.chosenPour);
  const choosePour = usePiece((state) => state.choosePour);
  const count = derived.plan.pours.length;
  const at = chosen ?? count;
  const step = (by: number): void => {
    const to = Math.min(Math.max(at + by, 0), count);
    // The list stays where it is: it would carry the picture out of sight.
    if (to !== at) choosePour(to);
  };
  useArrowKeys(step);
  const start = useRef<{ x: number; y: number } | null>(null);
  const began = ({ clientX: x, clientY: y }: PointerEvent): void => { start.current = { x, y }; };
  const ended = ({ clientX: x, clientY: y }: PointerEvent): void => {
    const from = start.current;
    start.current = null;
    if (!from || Math.abs(x - from.x) < SWIPE_PX || Math.abs(y - from.y) > Math.abs(x - from.x)) return;
    step(x < from.x ? 1 : -1);
  };
  const canceled = (): void => { start.current = null; };
  /** Over the picture: a mouse turns the mold, a finger steps instead, and two are the page's. */
  const touched = (event: PointerEvent): void => {
    if (event.pointerType === 'mouse') return;
    event.stopPropagation();
    if (event.isPrimary) began(event);
    else canceled();
  };
  const inWords = useWords();
  const words = useMemo(() => stepWords(derived, at, inWords), [derived, at, inWords]);
  return (
    <section className="pour-steps" aria-label="How the layers stack">
      <div className="poured" onWheelCapture={leaveWheelToPage} onPointerDownCapture={touched} onPointerUpCapture={ended} onPointerCancelCapture={canceled}>
        <PouredPicture pour={chosen} />
      </div>
      <div className="step-strip" onPointerDown={began} onPointerUp={ended} onPointerCancel={canceled}>
        <button type="button" className="button" aria-disabled={at === 0} onClick={() => step(-1)}>Back</button>
        <div className="step-words" aria-live="polite">
          <p><b>{words.title}</b></p>
          {words.lines.map((line) => <p key={line} className="soft">{line}</p>)}
          <p className="soft by-finger">Swipe left or right to step.</p>
        </div>
        <button type="button" className="button" aria-disabled={at === count} onClick={() => step(1)}>Forward</button>
      </div>
    </section>
  );
}

/** Left and right anywhere on the screen, but in a field or where they mean something else. */
function useArrowKeys(step: (by: number) => void): void {
  const latest = useRef(step);
  useEffect(() => {
    latest.current = step;
  });
  useEffect(() => {
    const onKey = (event: KeyboardEvent): void => {
      if (event.altKey || event.ctrlKey || event.metaKey || event.defaultPrevented) return;
      if (event.target instanceof HTMLElement && event.target.closest('input, select, textarea, dialog, [role="slider"]')) return;
      if (event.key === 'ArrowRight') latest.current(1);
      else if (event.key === 'ArrowLeft') latest.current(-1);
      else return;
      event.preventDefault();
    };
    addEventListener('keydown', onKey);
    return () => removeEventListener('keydown', onKey);
  }, []);
}

function stepWords({ plan, scene }: Derived, at: number, { length }: Words): { readonly title: string; readonly lines: readonly string[] } {
  const names = (ids: readonly string[]): string => listed(ids.map((id) => scene.placements.find((placement) => placement.id === id)?.name ?? id));
  const pour = plan.pours.find(({ index }) => index === at);
  if (!pour) return { title: 'The empty mold', lines: [`Pour 1 comes ${dayAndTime(plan.pours[0].starts)}.`] };
  const { painted, set, holds, floats } = beforePour(plan, at);
  const deepMm = depthAt(scene, pour.toMm);
  const deep = deepMm > 0 ? `${length(deepMm)} deep` : 'to the show face';
  return {
    title: `Filled to pour ${at} of ${plan.pours.length}: ${length(pour.toMm)} up, ${deep}`,
    lines: [
      ...(painted.length > 0 ? [`Painted before it: ${names(painted)}.`] : []),
      ...(set.length > 0 ? [`Set before it: ${names(set)}.`] : []),
      ...(holds.length > 0 ? [`It holds down ${names(holds)}, which would float.`] : []),
      ...(floats.length > 0 ? [`Nothing holds ${names(floats)}: floats in it.`] : []),
      ...(painted.length + set.length + holds.length + floats.length === 0 ? ['Nothing is set or painted before it.'] : []),
    ],
  };
}
