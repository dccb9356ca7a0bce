/**
 * The clip: straddles the wall at the height of what is selected. Its outer half says deep, its inner half up. Dragged it
 * sets the height; each half is typed in after a press; arrow keys move it 1 mm, with Shift 5, with Alt a tenth.
 */
import { useRef, useState, type KeyboardEvent } from 'react';
import type { SceneFile } from '../../core/scene/edit/file.ts';
import { STOP_TOLERANCE_MM } from '../../core/scene/tolerance.ts';
import { haltedPours } from '../../store/findings.ts';
import { deepOf } from '../card/place-words.ts';
import { readQuantity, stepOf } from '../card/typed-quantity.ts';
import { usePiece } from '../shared/piece.ts';
import { useWords } from '../shared/words.ts';
import { clipNumber, spokenHeight } from './clip-words.ts';
import { typedHeight } from '../card/typed-height.ts';
import { setTargetHeight, targetHeight, targetName, type HeightTarget } from './hands.ts';
import type { HeightDrag } from './height-drag.ts';

/** The clip ends this far right of the wall's inside, px; where its numbers are wider than the room left of that, it begins at the column's edge and runs on. */
const IN_THE_WALL_PX = 74;
const FROM_EDGE_PX = 4;

/** What was snapped to stands right of the clip, px from the wall. */
const SNAP_AWAY_PX = 84;

export interface ClipProps {
  readonly file: SceneFile;
  readonly target: HeightTarget;
  readonly drag: HeightDrag;
  readonly yOf: (mm: number) => number;
  /** Inner faces of the walls. */
  readonly leftPx: number;
  readonly rightPx: number;
  readonly narrow: boolean;
  readonly widthPx: number;
}

type Half = 'deep' | 'up';

export function Clip({ file, target, drag, yOf, leftPx, rightPx, narrow, widthPx }: ClipProps) {
  const edit = usePiece((state) => state.edit);
  const units = usePiece((state) => state.units);
  const refusal = usePiece((state) => state.refusal);
  const { said } = useWords();
  const halted = usePiece((state) => state.derived?.plan);
  const [typing, setTyping] = useState<{ readonly half: Half; readonly text: string; readonly problem: string | null } | null>(null);
  /** What was typed stays as typed, in its half, while it is the height. */
  const [typed, setTyped] = useState<{ readonly half: Half; readonly text: string; readonly upMm: number } | null>(null);
  const deepButton = useRef<HTMLButtonElement>(null);
  const upButton = useRef<HTMLButtonElement>(null);
  const up = targetHeight(file, target);
  if (up === null) return null;
  const y = yOf(up);
  const name = targetName(file, target);
  const says: Readonly<Record<Half, string>> = { deep: clipNumber(deepOf(file, up), units), up: clipNumber(up, units) };
  const halts = halted !== undefined && touchesHalt(halted, up);

  const move = (event: KeyboardEvent): void => {
    const way = event.key === 'ArrowUp' ? 1 : event.key === 'ArrowDown' ? -1 : 0;
    if (way === 0) return;
    event.preventDefault();
    event.stopPropagation();
    const by = way * stepOf('length', units, event);
    edit((before) => setTargetHeight(before, target, (targetHeight(before, target) ?? 0) + by));
  };
  const close = (half: Half): void => {
    setTyping(null);
    // The field is gone in a moment; the half it stood in keeps the focus.
    requestAnimationFrame(() => (half === 'deep' ? deepButton : upButton).current?.focus());
  };
  const commit = (): void => {
    if (!typing) return;
    // What was not typed over is not read: its fraction is a rounded one.
    if (typing.text === says[typing.half]) return close(typing.half);
    const read = readQuantity(typing.text, 'length', units);
    if ('problem' in read) {
      setTyping({ ...typing, problem: read.problem });
      return;
    }
    const to = typing.half === 'deep' ? deepOf(file, read.value) : read.value;
    if (!edit((before) => (target.kind === 'thing' ? typedHeight(before, target.id, to, { riders: true }) : setTargetHeight(before, target, to)))) {
      setTyping({ ...typing, problem: '' });
      return;
    }
    setTyped({ half: typing.half, text: typing.text.trim(), upMm: to });
    close(typing.half);
  };
  const half = (which: Half) =>
    typing?.half === which ? (
      <span className="clip-half">
        <input
          autoFocus
          type="text"
          autoComplete="off"
          aria-label={`${name}, ${which}`}
          aria-invalid={typing.problem !== null}
          value={typing.text}
          onFocus={(event) => event.currentTarget.select()}
          onChange={(event) => setTyping({ half: which, text: event.target.value, problem: null })}
          onBlur={() => setTyping(null)}
          onKeyDown={(event) => {
            event.stopPropagation();
            if (event.key === 'Enter') commit();
            if (event.key === 'Escape') close(which);
          }}
        />
      </span>
    ) : (
      <button
        type="button"
        ref={which === 'deep' ? deepButton : upButton}
        className="clip-half"
        aria-label={`${name}: ${spokenHeight(up, deepOf(file, up), units)}. Type how ${which === 'deep' ? 'deep' : 'far up'}; arrow keys move it`}
        {...drag.handlers(target, () => setTyping({ half: which, text: typed && typed.half === which && typed.upMm === up ? typed.text : says[which], problem: null }))}
        onClick={(event) => {
          // A press with the pointer is told by its own handlers; this is Enter, space, or a screen reader.
          if (event.detail === 0) setTyping({ half: which, text: says[which], problem: null });
        }}
        onKeyDown={move}
      >
        <b>{says[which]}</b> <span>{which}</span>
      </button>
    );
  return (
    <div className={['clip', narrow && 'clip-narrow', halts && 'clip-halt', drag.dragging && 'dragging'].filter(Boolean).join(' ')} style={{ top: y }} role="group" aria-label={`Height of ${name}`}>
      <span className="clip-line" aria-hidden="true" style={{ left: leftPx, width: Math.max(0, rightPx - leftPx) }} />
      <div className="clip-place" style={narrow ? { left: 2, width: widthPx - 4 } : { left: FROM_EDGE_PX, minWidth: leftPx + IN_THE_WALL_PX - FROM_EDGE_PX }}>
        <div className="clip-body">
          {half('deep')}
          {half('up')}
        </div>
      </div>
      {drag.snappedTo && <span className="clip-snap" style={{ left: leftPx + SNAP_AWAY_PX }}>{drag.snappedTo}</span>}
      {typing !== null && typing.problem !== null && <p role="alert" className="clip-problem problem">{typing.problem || said(refusal ?? 'That can’t be set here.')}</p>}
      <span className="hidden" aria-live="polite">{drag.dragging ? '' : `${name} ${spokenHeight(up, deepOf(file, up), units)}`}</span>
    </div>
  );
}

/** Whether a pour that must not be poured begins or ends at a height. */
function touchesHalt(plan: Parameters<typeof haltedPours>[0], upMm: number): boolean {
  const halted = haltedPours(plan);
  return halted.size < plan.pours.length && plan.pours.some(({ index, fromMm, toMm }) => halted.has(index) && (Math.abs(fromMm - upMm) <= STOP_TOLERANCE_MM || Math.abs(toMm - upMm) <= STOP_TOLERANCE_MM));
}
