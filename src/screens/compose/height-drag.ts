/** Dragging a height on the gauge, by the clip or by the thing itself: live, snapping, one undo step on release. */
import { useEffect, useEffectEvent, useRef, useState, type PointerEvent } from 'react';
import type { EditResult, SceneFile } from '../../core/scene/edit/file.ts';
import { SIXTEENTH_MM } from '../../core/units/imperial.ts';
import { usePieceStore } from '../shared/piece.ts';
import { useComposeUi } from './ui.ts';
import { setTargetHeight, snapTargetHeight, targetHeight, type HeightTarget } from './hands.ts';

/** A finger that moved less than this has pressed, not dragged, px. */
const PRESS_PX = 3;

interface Held {
  readonly target: HeightTarget;
  readonly pointer: number;
  readonly fromY: number;
  readonly fromMm: number;
  /** The scale when it was taken: dragging the rim changes it. */
  readonly pxPerMm: number;
  /** The last one made; null until it is a drag. */
  edit: ((before: SceneFile) => EditResult) | null;
}

export interface HeightDrag {
  /** What the height snapped to just now, in words; null for nothing. */
  readonly snappedTo: string | null;
  readonly dragging: boolean;
  /** What is in hand; null before it is a drag. */
  readonly target: HeightTarget | null;
  /** Pointer handlers for an element that stands for the target. `onPress`: it was pressed without being moved. */
  handlers(target: HeightTarget, onPress?: () => void): {
    onPointerDown(event: PointerEvent<HTMLElement>): void;
    onPointerMove(event: PointerEvent<HTMLElement>): void;
    onPointerUp(event: PointerEvent<HTMLElement>): void;
    onPointerCancel(): void;
  };
}

export function useHeightDrag(pxPerMm: number, onTake: (target: HeightTarget) => void, onLetGo: () => void): HeightDrag {
  const store = usePieceStore();
  const held = useRef<Held | null>(null);
  const [snappedTo, setSnappedTo] = useState<string | null>(null);
  const [target, setTarget] = useState<HeightTarget | null>(null);
  const dragging = target !== null;

  const letGo = (how: 'end' | 'cancel'): void => {
    const now = held.current;
    held.current = null;
    setSnappedTo(null);
    setTarget(null);
    if (now?.edit) store.getState().drag(now.edit, how);
    onLetGo();
  };
  const cancel = useEffectEvent(() => letGo('cancel'));
  useEffect(() => {
    if (!dragging) return;
    const onKey = (event: KeyboardEvent): void => {
      if (event.key !== 'Escape') return;
      event.preventDefault();
      event.stopPropagation();
      cancel();
    };
    addEventListener('keydown', onKey, true);
    return () => removeEventListener('keydown', onKey, true);
  }, [dragging]);
  return {
    snappedTo,
    dragging,
    target,
    handlers: (target, onPress) => ({
      onPointerDown(event) {
        const { document, readOnly } = store.getState();
        const fromMm = document && targetHeight(document, target);
        if (event.button !== 0 || readOnly !== null || fromMm === null) return;
        event.currentTarget.setPointerCapture(event.pointerId);
        held.current = { target, pointer: event.pointerId, fromY: event.clientY, fromMm, pxPerMm, edit: null };
      },
      onPointerMove(event) {
        const now = held.current;
        if (!now || now.pointer !== event.pointerId) return;
        if (!now.edit && Math.abs(event.clientY - now.fromY) < PRESS_PX) return;
        if (!now.edit) {
          setTarget(now.target);
          onTake(now.target);
        }
        const { document, drag, units } = store.getState();
        if (!document) return;
        const wished = now.fromMm + (now.fromY - event.clientY) / now.pxPerMm;
        const snapped = snapTargetHeight(document, now.target, wished, { suspended: event.altKey || !useComposeUi.getState().snaps, pxPerMm, gridMm: units.length === 'in' ? SIXTEENTH_MM : 1 });
        setSnappedTo(snapped.to);
        now.edit = (before) => setTargetHeight(before, now.target, snapped.mm);
        drag(now.edit, 'move');
      },
      onPointerUp(event) {
        if (held.current?.pointer !== event.pointerId) return;
        const pressed = held.current.edit === null;
        letGo('end');
        if (pressed) onPress?.();
      },
      onPointerCancel: () => letGo('cancel'),
    }),
  };
}
