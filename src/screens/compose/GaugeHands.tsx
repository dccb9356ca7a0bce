/** What lies over the gauge in Compose: things to press and drag, the selected one in the accent color, and its clip. */
import { useId } from 'react';
import { figureBars } from '../gauge/BarGauge.tsx';
import type { GaugeModel } from '../gauge/gauge-model.ts';
import { lengthIn } from '../../core/units/in-units.ts';
import type { SwitchUnits } from '../../store/piece-state.ts';
import { creature } from '../../core/scene/edit/creature.ts';
import { nameOf, thing } from '../../core/scene/edit/things.ts';
import type { SceneFile } from '../../core/scene/edit/file.ts';
import { stepOf } from '../card/typed-quantity.ts';
import { usePiece } from '../shared/piece.ts';
import { Clip } from './Clip.tsx';
import { setTargetHeight, targetHeight, type HeightTarget } from './hands.ts';
import { useHeightDrag } from './height-drag.ts';
import { moldSizeWords } from './mold-sizes.ts';
import { pathBox } from './path-box.ts';
import { useComposeUi } from './ui.ts';

/** A line is pressed within this of it, px. */
const LINE_REACH_PX = 12;
/** On a phone farther, up to half way to the next plane: a finger is broader, px. */
const FINGER_REACH_PX = 22;
/** The least height a thing's own press takes, px. */
const LEAST_PX = 24;
/** How much of its right end a plane is pressed at, and of its left end a change of fill, px. */
const PLANE_PX = 110;
const LINE_PX = 40;
/** Half the clip's height, px. */
const CLIP_HALF_PX = 24;

const RIM: HeightTarget = { kind: 'rim' };
/** What a finger takes the rim by, px. */
const RIM_PX = { width: 44, height: 28 };

export interface GaugeHandsProps {
  readonly file: SceneFile;
  readonly model: GaugeModel;
  /** Phone width: figures are bars, the clip's numbers stand under each other. */
  readonly narrow: boolean;
  readonly widthPx: number;
}

export function GaugeHands({ file, model, narrow, widthPx }: GaugeHandsProps) {
  const prefix = useId();
  const selected = usePiece((state) => state.selected);
  const select = usePiece((state) => state.select);
  const line = useComposeUi((ui) => ui.line);
  const holdLine = useComposeUi((ui) => ui.holdLine);
  const holdRim = useComposeUi((ui) => ui.holdRim);
  const moldCardIsUp = useComposeUi((ui) => ui.formula === null) && selected.length === 0;
  const units = usePiece((state) => state.units);
  const edit = usePiece((state) => state.edit);
  const take = (target: HeightTarget): void => {
    if (target.kind === 'thing') select([target.id]);
    else {
      select([]);
      holdLine(target.kind === 'line' ? target.at : null);
      if (target.kind === 'rim') holdRim(file.mold.heightMm);
    }
  };
  const drag = useHeightDrag(model.pxPerMm, take, () => holdRim(null));
  const yOf = (mm: number): number => model.floor - mm * model.pxPerMm;
  const rimLeft = Math.min(model.right - RIM_PX.width / 2, widthPx - RIM_PX.width);
  const last = selected[selected.length - 1];
  const carried: HeightTarget | null = last !== undefined && (thing(file, last) ?? creature(file, last)) ? { kind: 'thing', id: last } : line !== null && file.fills[line] ? { kind: 'line', at: line } : null;
  const bars = narrow ? figureBars(model) : [];
  const things: readonly Press[] = narrow
    ? bars.map(({ id, x, y, width, height }) => press(file, { kind: 'thing', id }, units, x - 8, x + width + 7, Math.max(0, y), y + Math.max(LEAST_PX, height)))
    : creaturesFirst(model.shapes).flatMap(({ id, path, topY, baseY }) => {
        const box = pathBox(path);
        const grow = Math.max(0, LEAST_PX - (baseY - topY)) / 2;
        return box ? [press(file, { kind: 'thing', id }, units, Math.max(model.openFrom, box.x0), Math.min(model.openTo, box.x1), topY - grow, baseY + grow)] : [];
      });
  // Planes are pressed where their names stand, over the figures; on a phone outside the wall, as all lines are there.
  const [planeFrom, planeTo] = narrow ? [0, model.left] : [model.openTo - Math.min(PLANE_PX, (model.openTo - model.openFrom) / 2), model.openTo];
  const planes = model.planes.map(({ id, y }) => {
    const half = Math.min(...model.planes.filter((other) => other.id !== id).map((other) => Math.abs(other.y - y) / 2));
    const reach = narrow ? Math.max(LINE_REACH_PX, Math.min(FINGER_REACH_PX, half)) : LINE_REACH_PX;
    return press(file, { kind: 'thing', id }, units, planeFrom, planeTo, y - reach, y + reach);
  });
  const [lineFrom, lineTo] = narrow ? [0, model.left] : [model.left, model.left + LINE_PX];
  const lines = file.fills
    .map(({ toMm }, at) => press(file, { kind: 'line', at }, units, lineFrom, lineTo, yOf(toMm) - LINE_REACH_PX, yOf(toMm) + LINE_REACH_PX))
    // A phone has no room for a line beside a plane; the card has it.
    .filter((line) => !narrow || planes.every((plane) => plane.y1 <= line.y0 || plane.y0 >= line.y1));
  // On a phone the clip lies over what is near its height; that is pressed on the card or the outline meanwhile.
  const clipY = carried && narrow ? yOf(targetHeight(file, carried) ?? 0) : null;
  const covered = ({ y0, y1, x0 }: Press): boolean => clipY !== null && x0 < model.left && y1 > clipY - CLIP_HALF_PX && y0 < clipY + CLIP_HALF_PX;
  const buttons = [...lines, ...things, ...planes].filter((each) => !covered(each));
  const chosen = model.shapes.filter(({ id, kind }) => kind === 'figure' && selected.includes(id));
  return (
    <>
      {narrow && <svg className="gauge-selected" aria-hidden="true">{bars.filter(({ id }) => selected.includes(id)).map(({ id, x, y, width, height }) => <rect key={id} x={x} y={y} width={width} height={height} rx={width / 2} className="teal" />)}</svg>}
      {!narrow && (
        <svg className="gauge-selected" aria-hidden="true">
          <clipPath id={`${prefix}-open`}><rect x={model.openFrom} y={model.top} width={model.openTo - model.openFrom} height={model.floor - model.top} /></clipPath>
          {model.planes.filter(({ id }) => selected.includes(id)).map(({ id, path }) => <path key={id} d={path} className="teal" />)}
          {chosen.map(({ id, path }) => <path key={id} d={path} className="teal figure-chosen" fillRule="evenodd" clipPath={`url(#${prefix}-open)`} />)}
          {model.shapes.filter(({ id, kind }) => kind === 'creature' && selected.includes(id)).map(({ id, path }) => <path key={id} d={path} className="teal-edge teal-dashes" clipPath={`url(#${prefix}-open)`} />)}
          {model.shapes.filter(({ id, kind }) => kind === 'bed' && selected.includes(id)).map(({ id, path }) => <path key={id} d={path} className="teal-edge" />)}
        </svg>
      )}
      <div role="group" aria-label="Things on the gauge">
        {buttons.map(({ key, target, label, x0, x1, y0, y1 }) => (
          <button
            key={key}
            type="button"
            className="gauge-thing"
            aria-label={label}
            aria-pressed={target.kind === 'thing' ? selected.includes(target.id) : carried?.kind === 'line' && carried.at === target.at}
            style={{ left: x0, top: y0, width: Math.max(LEAST_PX, x1 - x0), height: y1 - y0 }}
            {...drag.handlers(target)}
            onClick={(event) => (target.kind === 'thing' ? select([target.id], event.shiftKey || event.ctrlKey || event.metaKey ? 'toggle' : 'replace') : take(target))}
          />
        ))}
      </div>
      {moldCardIsUp && (
        <>
          <button
            type="button"
            className="rim-grip"
            aria-label={`Rim of the mold: ${moldSizeWords('heightMm', file.mold.heightMm, units)}. Arrow keys move it`}
            style={{ left: rimLeft, top: model.top - RIM_PX.height / 2, width: RIM_PX.width, height: RIM_PX.height }}
            {...drag.handlers(RIM)}
            onKeyDown={(event) => {
              const way = event.key === 'ArrowUp' ? 1 : event.key === 'ArrowDown' ? -1 : 0;
              if (way === 0) return;
              event.preventDefault();
              event.stopPropagation();
              const by = way * stepOf('length', units, event);
              edit((before) => setTargetHeight(before, RIM, before.mold.heightMm + by));
            }}
          />
          {drag.target?.kind === 'rim' && <span className="rim-words" style={narrow ? { left: 2, top: model.top + 8 } : { right: widthPx - rimLeft + 4, top: model.top + 4 }}>{moldSizeWords('heightMm', file.mold.heightMm, units)}</span>}
        </>
      )}
      {carried && <Clip key={carried.kind === 'thing' ? carried.id : `fill ${carried.at}`} file={file} target={carried} drag={drag} yOf={yOf} leftPx={model.left} rightPx={model.right} narrow={narrow} widthPx={widthPx} />}
    </>
  );
}

interface Press {
  readonly key: string;
  readonly target: Exclude<HeightTarget, { kind: 'rim' }>;
  readonly label: string;
  readonly x0: number;
  readonly x1: number;
  readonly y0: number;
  readonly y1: number;
}

/** Figures and beds lie over them, so that they are pressed there. */
function creaturesFirst(shapes: GaugeModel['shapes']): GaugeModel['shapes'] {
  return [...shapes.filter(({ kind }) => kind === 'creature'), ...shapes.filter(({ kind }) => kind !== 'creature')];
}

function press(file: SceneFile, target: Exclude<HeightTarget, { kind: 'rim' }>, units: SwitchUnits, x0: number, x1: number, y0: number, y1: number): Press {
  if (target.kind === 'thing') return { key: target.id, target, label: labelOf(file, target.id), x0, x1, y0, y1 };
  const { toMm } = file.fills[target.at];
  return { key: `fill ${target.at}`, target, label: target.at === file.fills.length - 1 ? 'Top of the resin' : `Change of fill at ${lengthIn(toMm, units.length, 2)}`, x0, x1, y0, y1 };
}

function labelOf(file: SceneFile, id: string): string {
  const one = thing(file, id) ?? creature(file, id);
  return one ? nameOf(one) : id;
}
