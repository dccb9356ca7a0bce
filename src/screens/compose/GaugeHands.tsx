/** What lies over the gauge in Compose: things to press and drag, the selected one in the accent color, and its clip. */
import { useId } from 'react';
import { figureBars } from '../gauge/BarGauge.tsx';
import type { GaugeModel } from '../gauge/gauge-model.ts';
import { nameOf, thing } from '../../core/scene/edit/things.ts';
import type { SceneFile } from '../../core/scene/edit/file.ts';
import { usePiece } from '../shared/piece.ts';
import { Clip } from './Clip.tsx';
import type { HeightTarget } from './hands.ts';
import { useHeightDrag } from './height-drag.ts';
import { pathBox } from './path-box.ts';
import { useComposeUi } from './ui.ts';

/** A line is pressed within this of it, px. */
const LINE_REACH_PX = 12;
/** The least height a thing's own press takes, px. */
const LEAST_PX = 24;

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
  const take = (target: HeightTarget): void => {
    if (target.kind === 'thing') select([target.id]);
    else {
      select([]);
      holdLine(target.at);
    }
  };
  const drag = useHeightDrag(model.pxPerMm, take);
  const yOf = (mm: number): number => model.floor - mm * model.pxPerMm;
  const last = selected[selected.length - 1];
  const carried: HeightTarget | null = last !== undefined && thing(file, last) ? { kind: 'thing', id: last } : line !== null && file.fills[line] ? { kind: 'line', at: line } : null;
  const bars = narrow ? figureBars(model) : [];
  const buttons = [
    ...file.fills.map(({ toMm }, at) => ({ key: `fill ${at}`, target: { kind: 'line', at } as HeightTarget, label: at === file.fills.length - 1 ? 'Top of the resin' : `Change of fill at ${toMm} mm`, x0: model.left, x1: model.left + 40, y0: yOf(toMm) - LINE_REACH_PX, y1: yOf(toMm) + LINE_REACH_PX })),
    ...model.planes.map(({ id, y }) => ({ key: id, target: { kind: 'thing', id } as HeightTarget, label: labelOf(file, id), x0: model.openFrom, x1: model.openTo, y0: y - LINE_REACH_PX, y1: y + LINE_REACH_PX })),
    ...bars.map(({ id, x, y, width, height }) => ({ key: id, target: { kind: 'thing', id } as HeightTarget, label: labelOf(file, id), x0: x - 8, x1: x + width + 7, y0: y, y1: y + Math.max(LEAST_PX, height) })),
    ...(narrow ? [] : model.shapes).flatMap(({ id, path, topY, baseY }) => {
      const box = pathBox(path);
      if (!box) return [];
      const grow = Math.max(0, LEAST_PX - (baseY - topY)) / 2;
      return [{ key: id, target: { kind: 'thing', id } as HeightTarget, label: labelOf(file, id), x0: Math.max(model.openFrom, box.x0), x1: Math.min(model.openTo, box.x1), y0: topY - grow, y1: baseY + grow }];
    }),
  ];
  const chosen = model.shapes.filter(({ id, kind }) => kind === 'figure' && selected.includes(id));
  return (
    <>
      {narrow && <svg className="gauge-selected" aria-hidden="true">{bars.filter(({ id }) => selected.includes(id)).map(({ id, x, y, width, height }) => <rect key={id} x={x} y={y} width={width} height={height} rx={width / 2} className="teal" />)}</svg>}
      {!narrow && (
        <svg className="gauge-selected" aria-hidden="true">
          <clipPath id={`${prefix}-open`}><rect x={model.openFrom} y={model.top} width={model.openTo - model.openFrom} height={model.floor - model.top} /></clipPath>
          {model.planes.filter(({ id }) => selected.includes(id)).map(({ id, path }) => <path key={id} d={path} className="teal" />)}
          {chosen.map(({ id, path }) => <path key={id} d={path} className="teal figure-chosen" fillRule="evenodd" clipPath={`url(#${prefix}-open)`} />)}
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
      {carried && <Clip key={carried.kind === 'thing' ? carried.id : `fill ${carried.at}`} file={file} target={carried} drag={drag} yOf={yOf} leftPx={model.left} rightPx={model.right} narrow={narrow} widthPx={widthPx} />}
    </>
  );
}

function labelOf(file: SceneFile, id: string): string {
  const placement = thing(file, id);
  return placement ? nameOf(placement) : id;
}
