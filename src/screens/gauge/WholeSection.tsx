/** The section end to end, everything in its true place: what the gauge above leaves out. */
import { useMemo } from 'react';
import { halfWidthAt } from '../../core/sheet/section.ts';
import type { GaugeProps } from './Gauge.tsx';
import { pathOf } from './gauge-model.ts';
import { hatchId } from './hatches.tsx';

const WALL_PX = 10;
const MOST_HEIGHT_PX = 96;

export interface WholeSectionProps extends Pick<GaugeProps, 'section' | 'tinted' | 'halted' | 'chosen' | 'poured' | 'later'> {
  readonly prefix: string;
  readonly leftPx: number;
  readonly widthPx: number;
}

export function WholeSection({ section, tinted, halted, chosen, poured = Infinity, later, prefix, leftPx, widthPx }: WholeSectionProps) {
  const scale = Math.min((widthPx - 2 * WALL_PX) / (2 * section.halfRimMm), MOST_HEIGHT_PX / section.heightMm);
  const width = 2 * section.halfRimMm * scale + 2 * WALL_PX;
  const floor = section.heightMm * scale + 2;
  const xOf = (mm: number): number => width / 2 + mm * scale;
  const yOf = (mm: number): number => floor - mm * scale;
  const shapes = useMemo(
    () => {
      const across = (mm: number): number => width / 2 + mm * scale;
      const up = (mm: number): number => floor - mm * scale;
      return section.shapes.map(({ id, kind, outline }) => ({ id, kind, path: pathOf(outline, across, up) }));
    },
    [section, scale, width, floor],
  );
  const half = section.halfRimMm;
  const inside = `M${xOf(-half)} 2L${xOf(-section.halfFloorMm)} ${floor}H${xOf(section.halfFloorMm)}L${xOf(half)} 2Z`;
  const walls = `M1 2V${floor + WALL_PX}H${width - 1}V2H${xOf(half)}L${xOf(section.halfFloorMm)} ${floor}H${xOf(-section.halfFloorMm)}L${xOf(-half)} 2Z`;
  return (
    <figure className="whole" style={{ marginLeft: leftPx }}>
      <figcaption className="soft">The whole section, end to end</figcaption>
      <svg width={width} height={floor + WALL_PX + 1} viewBox={`0 0 ${width} ${floor + WALL_PX + 1}`} role="img" aria-label="The whole section, everything in its true place">
        <clipPath id={`${prefix}-whole`}><path d={inside} /></clipPath>
        <path d={walls} className="wall" />
        <path d={walls} fill={`url(#${hatchId(prefix, 'wall')})`} className="outer" />
        <path d={inside} className="paper" />
        <g clipPath={`url(#${prefix}-whole)`}>
          {section.bands.filter(({ pour }) => pour <= poured).map(({ pour, fromMm, toMm }) => (
            <rect key={pour} x="0" y={yOf(toMm)} width={width} height={(toMm - fromMm) * scale} className={halted.has(pour) ? 'brick-wash' : tinted.has(pour) ? 'water' : 'water clear'} />
          ))}
          {shapes.filter(({ kind }) => kind === 'bed').map(({ id, path }) => <path key={id} d={path} className="silt silt-line" fillRule="evenodd" />)}
          {section.bands.map(({ pour, toMm }) => <path key={pour} d={`M0 ${yOf(toMm)}H${width}`} className="hair" />)}
          {section.planes.map(({ id, atMm }) => <path key={id} d={`M${xOf(-halfWidthAt(section, atMm))} ${yOf(atMm)}H${xOf(halfWidthAt(section, atMm))}`} className={later?.has(id) ? 'plane-line later' : 'plane-line'} />)}
          {shapes.filter(({ kind }) => kind === 'figure').map(({ id, path }) => <path key={id} d={path} className={later?.has(id) ? 'figure small later' : 'figure small'} fillRule="evenodd" />)}
          {shapes.filter(({ kind }) => kind === 'creature').map(({ id, path }) => <path key={id} d={path} className="creature small" />)}
          {section.bands.filter(({ pour }) => pour === chosen).map(({ pour, fromMm, toMm }) => (
            <rect key={pour} x={xOf(-half)} y={yOf(toMm)} width={2 * half * scale} height={(toMm - fromMm) * scale} className="this-pour" />
          ))}
        </g>
        <path d={`M${xOf(-half)} 2L${xOf(-section.halfFloorMm)} ${floor}H${xOf(section.halfFloorMm)}L${xOf(half)} 2`} className="mold" />
      </svg>
    </figure>
  );
}
