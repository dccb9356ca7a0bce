/**
 * A plane's guide in its true proportions. As painted: looking down into the mold, with what is hidden and what fades hatched
 * and the hints numbered. As seen: what of it shows from the show face, turned round where the piece is cast face-down.
 */
import { useId } from 'react';
import type { Mold, Scene } from '../../core/scene/scene.ts';
import { moldRing } from '../../core/sheet/template-mold.ts';
import type { PlacedPicture } from '../../core/sight/colors/picture.ts';
import type { Receiver } from '../../core/sight/casters.ts';
import type { PlaneGuide } from '../../core/sight/guide.ts';
import { colorsPlace, colorsUrl } from './guide-colors.ts';
import { boundsOf, pathOf } from './guide-svg.ts';

export type Seeing = 'painted' | 'seen';

export interface GuideDrawingProps {
  readonly guides: readonly PlaneGuide[];
  /** Of the same creatures on planes nearer the viewer: they cover this one. */
  readonly nearer: readonly PlaneGuide[];
  /** What a lamp throws here, drawn dotted. */
  readonly shadows: Receiver['shadows'];
  readonly atMm: number;
  readonly mold: Mold;
  readonly cast: Scene['cast'];
  readonly seeing: Seeing;
  readonly label: string;
}

const WIDTH_PX = 272;
const MOST_HEIGHT_PX = 220;
const MARGIN_MM = 4;
/** mm. Lengths of the scale bar. */
const BARS_MM = [100, 50, 20, 10, 5, 2, 1];
const BAR_ROOM_PX = 24;
/** Px between numbers of hints that would stand on each other. */
const APART_PX = 14;

export function GuideDrawing({ guides, nearer, shadows, atMm, mold, cast, seeing, label }: GuideDrawingProps) {
  const prefix = useId();
  const box = boundsOf([...[...guides, ...nearer].map(({ outline }) => outline), ...shadows.map(({ region }) => region)], MARGIN_MM);
  if (!box) return null;
  const turned = seeing === 'seen' && cast === 'face-down';
  const scale = Math.min(WIDTH_PX / (box.maxX - box.minX), MOST_HEIGHT_PX / (box.maxY - box.minY));
  const [width, height] = [(box.maxX - box.minX) * scale, (box.maxY - box.minY) * scale];
  const xOf = (mm: number): number => (turned ? box.maxX - mm : mm - box.minX) * scale;
  const yOf = (mm: number): number => (box.maxY - mm) * scale;
  const hints = guides.flatMap((guide) => guide.hints);
  const wall = moldRing(mold, atMm).map(([x, y]) => `${xOf(x).toFixed(1)} ${yOf(y).toFixed(1)}`).join('L');
  const barMm = BARS_MM.find((mm) => mm * scale <= WIDTH_PX / 3) ?? BARS_MM[BARS_MM.length - 1];
  return (
    <svg className="guide-drawing" width={width} height={height + BAR_ROOM_PX} viewBox={`0 0 ${width} ${height + BAR_ROOM_PX}`} role="img" aria-label={label}>
      <pattern id={`${prefix}-hidden`} width="8" height="8" patternUnits="userSpaceOnUse" patternTransform="rotate(-45)"><path d="M0 4H8" className="guide-hatch" /></pattern>
      <pattern id={`${prefix}-feather`} width="4" height="4" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><path d="M0 2H4" className="guide-hatch" /></pattern>
      <clipPath id={`${prefix}-box`}><rect width={width} height={height} /></clipPath>
      <g clipPath={`url(#${prefix}-box)`}>
        <rect width={width} height={height} className="guide-ground" />
        {guides.map((guide) => seeing === 'painted' ? (
          <g key={guide.creatureId}>
            <path d={pathOf(guide.hidden, xOf, yOf)} fill={`url(#${prefix}-hidden)`} className="guide-thin" fillRule="evenodd" />
            <path d={pathOf(guide.feather, xOf, yOf)} fill={`url(#${prefix}-feather)`} fillRule="evenodd" />
            <path d={pathOf(guide.outline, xOf, yOf)} className="guide-outline" />
            {guide.colors && <Colors picture={guide.colors.picture} xOf={xOf} yOf={yOf} />}
            <path d={pathOf(guide.fresh, xOf, yOf)} className={guide.colors ? 'guide-fresh colored' : 'guide-fresh'} fillRule="evenodd" />
          </g>
        ) : (
          <g key={guide.creatureId}>
            <path d={pathOf(guide.outline, xOf, yOf)} className="guide-paint" fillRule="evenodd" />
            {guide.colors && <Colors picture={guide.colors.picture} xOf={xOf} yOf={yOf} />}
          </g>
        ))}
        {seeing === 'seen' && [...nearer].sort((a, b) => b.depthMm - a.depthMm).map((guide) => <path key={`${guide.planeId} ${guide.creatureId}`} d={pathOf(guide.outline, xOf, yOf)} className="guide-cover" fillRule="evenodd" />)}
        {seeing === 'painted' && shadows.map(({ of, region }) => <path key={of} d={pathOf(region, xOf, yOf)} className="guide-shadow" />)}
        <path d={`M${wall}Z`} className="guide-wall" />
      </g>
      {seeing === 'painted' && spreadOut(hints.map(({ atXMm, atYMm }) => [xOf(atXMm), yOf(atYMm)] as const), { width, height }).map(([x, y], i) => <text key={i} x={x} y={y + 5} textAnchor="middle" className="guide-number halo">{i + 1}</text>)}
      <path d={`M1 ${height + 8}v6M1 ${height + 11}H${1 + barMm * scale}v-3v6`} className="guide-bar" />
      <text x={8 + barMm * scale} y={height + 16} className="guide-words">{barMm}{'\u00a0'}mm</text>
    </svg>
  );
}

function Colors({ picture, xOf, yOf }: { readonly picture: PlacedPicture; readonly xOf: (mm: number) => number; readonly yOf: (mm: number) => number }) {
  return <image href={colorsUrl(picture)} preserveAspectRatio="none" {...colorsPlace(picture, xOf, yOf)} />;
}

/** Numbers within the drawing, and none on another: what stands too near goes down a line. */
function spreadOut(at: readonly (readonly [number, number])[], { width, height }: { readonly width: number; readonly height: number }): readonly (readonly [number, number])[] {
  const placed: (readonly [number, number])[] = [];
  for (const [wishedX, wishedY] of at) {
    const x = Math.min(Math.max(wishedX, 8), width - 8);
    let y = Math.min(Math.max(wishedY, 8), height - 8);
    while (placed.some(([px, py]) => Math.abs(px - x) < APART_PX && Math.abs(py - y) < APART_PX) && y + APART_PX < height) y += APART_PX;
    placed.push([x, y]);
  }
  return placed;
}
