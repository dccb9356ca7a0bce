/** The gauge at phone width: numbers in the bands, figures as bars of true height, names elsewhere. */
import { useId, useMemo } from 'react';
import { lengthIn } from '../../core/units/in-units.ts';
import type { GaugeProps } from './Gauge.tsx';
import { gaugeModel, gaugeWords, LINE_TAG_PX, TAG_PX, type GaugeBand, type GaugeModel, type GaugeShape } from './gauge-model.ts';
import { Hatches, hatchId } from './hatches.tsx';
import { SafeMarks, safeWords } from './SafeMarks.tsx';
import './gauge.css';

const LEFT_PX = 40;
const RIM_PX = 12;
const STAFF_PX = 8;
const BAR_PX = 9;
/** A number in a band lower than this would run into its neighbors; a smaller one fits down to the second, px. */
const LEAST_NUMBER_PX = 20;
const LEAST_SMALL_NUMBER_PX = 12;

export function BarGauge({ section, unit, leastHeightMm, tinted, leftward, halted, safe, marked, mark, chosen, poured = Infinity, later, onChoose, widthPx, heightPx, hands }: GaugeProps) {
  const prefix = useId();
  const mostRight = widthPx - 10;
  const model = useMemo(
    () => gaugeModel(section, { leftPx: LEFT_PX, rightPx: mostRight, topPx: RIM_PX, bottomPx: heightPx - 4, staffPx: STAFF_PX, leftward, unit, leastHeightMm }),
    [section, leftward, unit, leastHeightMm, mostRight, heightPx],
  );
  const { top, floor, right, bands } = model;
  const inner = right - LEFT_PX;
  const bars = useMemo(() => figureBars(model), [model]);
  const presses = useMemo(() => bandPresses(model), [model]);
  return (
    <section className="gauge bar-gauge" aria-label="Gauge">
      <div className="gauge-drawing" style={{ height: floor + 4 }}>
        <svg className="gauge-picture" width={widthPx} height={floor + 4} viewBox={`0 0 ${widthPx} ${floor + 4}`} role="img" aria-label={gaugeWords(section, halted, unit)}>
          <Hatches prefix={prefix} />
          <clipPath id={`${prefix}-inside`}><rect x={LEFT_PX} y={top} width={inner} height={floor - top} /></clipPath>
          <rect x={LEFT_PX} y={top} width={inner} height={floor - top} className="paper" />
          {bands.map(({ pour, hatch, y, height }) => pour > poured ? <path key={pour} d={`M${LEFT_PX} ${y}H${right}`} className="pour-line to-come" /> : (
            <g key={pour}>
              <rect x={LEFT_PX} y={y} width={inner} height={height} className={halted.has(pour) ? 'brick-wash' : tinted.has(pour) ? 'water' : 'water clear'} />
              {!halted.has(pour) && <rect x={LEFT_PX} y={y} width={inner} height={height} fill={`url(#${hatchId(prefix, hatch)})`} className="hatched" />}
              <path d={`M${LEFT_PX} ${y}H${right}`} className="pour-line" />
              {halted.has(pour) && <path d={`M${LEFT_PX} ${y}L${right} ${y + height}M${LEFT_PX} ${y + height}L${right} ${y}`} className="crossed" />}
            </g>
          ))}
          <g clipPath={`url(#${prefix}-inside)`}>
            {model.shapes.filter(({ kind }) => kind === 'bed').map(({ id, path }) => <path key={id} d={path} className="silt silt-line" fillRule="evenodd" />)}
          </g>
          {model.planes.map(({ id, path }) => <path key={id} d={path} className={later?.has(id) ? 'ink later' : 'ink'} />)}
          {bars.map(({ id, kind, x, y, width, height }) => <rect key={id} x={x} y={y} width={width} height={height} rx={width / 2} className={kind === 'creature' ? 'creature small' : later?.has(id) ? 'figure later' : 'figure'} />)}
          {model.staff.map(({ y, height, dark }) => <rect key={y} x={LEFT_PX} y={y} width={STAFF_PX} height={height} className={dark ? 'staff dark' : 'staff'} />)}
          {bands.filter(({ pour }) => halted.has(pour)).map(({ pour, y, height }) => (
            <path key={pour} d={`M${LEFT_PX - 6} ${y}h12v${Math.max(6, height)}h-12zM${right - 6} ${y}h12v${Math.max(6, height)}h-12z`} className="board" />
          ))}
          {model.depthTicks.filter(({ rank }) => rank !== 'fine').map(({ y, label }) => (
            <g key={y}>
              <path d={`M${LEFT_PX} ${y}h${label === null ? -5 : -9}`} className="tick" />
              {label !== null && <text className="number" x={LEFT_PX - 12} y={y + 5} textAnchor="end">{label}</text>}
            </g>
          ))}
          <path d={`M${LEFT_PX - 8} ${top}H${LEFT_PX}V${floor}H${right}V${top}H${right + 8}`} className="mold" />
          <SafeMarks bands={bands.filter(({ pour }) => pour <= poured)} safe={safe} wallAt={() => right + 2} />
          {bands.filter(({ pour }) => pour === chosen).map(({ pour, y, height }) => <rect key={pour} x={LEFT_PX} y={y} width={inner} height={height} className="this-pour" />)}
          {bands.filter(({ height }) => height >= LEAST_SMALL_NUMBER_PX).map(({ pour, y, height }) => (
            <text key={pour} className={['bar-number halo', halted.has(pour) && 'halt', height < LEAST_NUMBER_PX && 'small'].filter(Boolean).join(' ')} x={LEFT_PX + STAFF_PX + 16} y={y + height / 2 + (height < LEAST_NUMBER_PX ? 5 : 6)} textAnchor="middle">{pour}</text>
          ))}
        </svg>
        <div role="group" aria-label="Pours on the gauge">
          {[...presses].reverse().map(({ pour, y, height, depthMm, fromMm, toMm }) => (
            <button
              key={pour}
              type="button"
              className={['band-button', marked.has(pour) && mark && `band-${mark}`].filter(Boolean).join(' ')}
              aria-pressed={chosen === pour}
              aria-label={`Pour ${pour}, ${lengthIn(depthMm, unit)}, from ${lengthIn(fromMm, unit)} to ${lengthIn(toMm, unit)} up${safeWords(depthMm, safe.get(pour), unit)}${halted.has(pour) ? ', do not pour' : ''}`}
              style={{ left: LEFT_PX, top: y, width: inner, height }}
              onClick={() => onChoose(pour)}
            />
          ))}
        </div>
        {hands?.(model)}
      </div>
    </section>
  );
}

/**
 * Where each pour is pressed: its band, made as high as a finger needs where thin ones leave room for it. Of more pours
 * than have room some are left out, as their tags are; the list has them.
 */
export function bandPresses({ tags, lineTags }: Pick<GaugeModel, 'tags' | 'lineTags'>): readonly GaugeBand[] {
  const half = (lineTags ? LINE_TAG_PX : TAG_PX) / 2;
  const edges = tags.slice(1).map((below, i) => Math.min(Math.max(below.y, tags[i].tagY + half), below.tagY - half));
  return tags.map((tag, i) => {
    const top = i === 0 ? Math.min(tag.y, tag.tagY - half) : edges[i - 1];
    const bottom = i === tags.length - 1 ? Math.max(tag.y + tag.height, tag.tagY + half) : edges[i];
    return { ...tag, y: top, height: bottom - top };
  });
}

export interface FigureBar {
  readonly id: string;
  readonly kind: GaugeShape['kind'];
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** A bar of true height for each figure and each painted creature, px. */
export function figureBars({ shapes, right }: GaugeModel): readonly FigureBar[] {
  return barsOf(shapes.filter(({ kind }) => kind !== 'bed')).map(({ id, kind, topY, baseY, column }) => ({ id, kind, x: right - 7 - BAR_PX - column * (BAR_PX + 5), y: topY, width: BAR_PX, height: Math.max(BAR_PX, baseY - topY) }));
}

/** Bars side by side where figures stand at the same heights. */
function barsOf(figures: readonly Pick<GaugeShape, 'id' | 'kind' | 'topY' | 'baseY'>[]) {
  const columns: number[] = [];
  return [...figures].sort((a, b) => a.topY - b.topY).map((figure) => {
    let column = columns.findIndex((end) => end + BAR_PX < figure.topY);
    if (column < 0) column = columns.length;
    columns[column] = figure.baseY;
    return { ...figure, column };
  });
}

