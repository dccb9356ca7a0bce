/** A pour's heat as a drawing: its hottest point through time as a band, and through the height by how close the hatch is. */
import { useEffect, useId, useState } from 'react';
import type { HeatSeries } from '../../core/cure/verdict-series.ts';
import type { Pour } from '../../core/plan/plan.ts';
import { span } from '../../core/units/format.ts';
import { usePiece, usePieceStore } from '../shared/piece.ts';
import { NARROW_PX, useViewport } from '../shared/viewport.ts';
import { useWords } from '../shared/words.ts';
import { chartShape, depthStrips, gapOf } from './chart-shape.ts';
import { BAND_WORDS, seriesTable, seriesWords } from './series-words.ts';

const HEIGHT_PX = 190;
const TOP_PX = 12;
const BOTTOM_PX = HEIGHT_PX - 24;
const DEPTH_PX = 150;
/** Width of the hatched column, and of how many slabs it is made. */
const COLUMN_PX = 84;
const SLABS = 30;

export function HeatChart({ pour }: { readonly pour: Pour }) {
  const store = usePieceStore();
  const plan = usePiece((state) => state.derived?.plan);
  const checking = usePiece((state) => state.derived?.checkingHeat ?? true);
  const [told, setTold] = useState<{ readonly of: Pour; readonly series: HeatSeries | null } | null>(null);
  useEffect(() => {
    let stale = false;
    if (!checking) void store.getState().heatSeries(pour.index).then((series) => { if (!stale) setTold({ of: pour, series }); });
    return () => { stale = true; };
  }, [store, plan, checking, pour]);
  if (told === null || told.of !== pour) return <p className="soft" role="status">Following the heat of pour {pour.index} …</p>;
  if (told.series === null) return <p className="soft">The heat of this pour can’t be drawn now.</p>;
  return <Drawn pour={pour} series={told.series} />;
}

function Drawn({ pour, series }: { readonly pour: Pour; readonly series: HeatSeries }) {
  const { widthPx } = useViewport();
  const timePx = widthPx < NARROW_PX ? 246 : 430;
  const { planned } = useWords();
  const words = pour.heat ? planned(seriesWords(pour.heat, series)) : '';
  const { band, middle, room, hours, degrees } = chartShape(series, { left: 34, right: timePx - 8, top: TOP_PX, bottom: BOTTOM_PX });
  return (
    <figure className="heat-chart">
      <div className="heat-drawings">
        <svg width={timePx} height={HEIGHT_PX} viewBox={`0 0 ${timePx} ${HEIGHT_PX}`} role="img" aria-label={`Pour ${pour.index} through time. ${words}`}>
          {degrees.map(({ y, label }) => (
            <g key={label}>
              <path d={`M34 ${y}H${timePx - 8}`} className="heat-rule" />
              <text x="28" y={y + 5} textAnchor="end">{label}</text>
            </g>
          ))}
          <path d={band} className="heat-band" />
          <path d={middle} className="heat-middle" />
          <path d={room} className="heat-room" />
          <path d={`M34 ${TOP_PX}V${BOTTOM_PX}H${timePx - 8}`} className="heat-axis" />
          {hours.map(({ x, label }, i) => (
            <g key={label}>
              <path d={`M${x} ${BOTTOM_PX}v4`} className="heat-axis" />
              <text x={x} y={HEIGHT_PX - 5} textAnchor={i === 0 ? 'start' : x > timePx - 24 ? 'end' : 'middle'}>{i === hours.length - 1 ? `${label} h` : label}</text>
            </g>
          ))}
          <text x="40" y={TOP_PX + 4} className="heat-label">°C</text>
        </svg>
        <DepthColumn series={series} pour={pour} />
      </div>
      <figcaption className="soft">{words} {BAND_WORDS}</figcaption>
      <Table series={series} pour={pour} />
    </figure>
  );
}

/** Upright lines, the closer the warmer, from the mold floor to the top of the pour at its warmest moment. */
function DepthColumn({ series: { depth }, pour }: { readonly series: HeatSeries; readonly pour: Pour }) {
  const clip = useId();
  const { lengthNumber, length } = useWords();
  const height = BOTTOM_PX - TOP_PX;
  const strips = depthStrips(depth, height, SLABS);
  const warmest = strips.reduce((a, b) => (b.temperatureC > a.temperatureC ? b : a));
  const top = strips[0];
  // Its own heights: what a bed fills is no part of the stack that is followed.
  const share = (pour.toMm - pour.fromMm) / Math.max(pour.toMm, 1e-9);
  const joint = TOP_PX + Math.min(1, share) * height;
  return (
    <svg width={DEPTH_PX} height={HEIGHT_PX} viewBox={`0 0 ${DEPTH_PX} ${HEIGHT_PX}`} role="img" aria-label={`Pour ${pour.index} through its height, ${span(depth.atH * 60)} after pouring: ${Math.round(top.temperatureC)} °C at the top, ${Math.round(warmest.temperatureC)} °C where it is warmest.`}>
      <clipPath id={clip}><rect x="1" y={TOP_PX} width={COLUMN_PX} height={height} /></clipPath>
      <g clipPath={`url(#${clip})`}>
        {strips.map(({ y, height: tall, temperatureC }) => <path key={y} d={upright(TOP_PX + y, tall, gapOf(temperatureC))} className="heat-hatch" />)}
      </g>
      <rect x="1" y={TOP_PX} width={COLUMN_PX} height={height} className="heat-axis" />
      {joint < BOTTOM_PX - 1 && <path d={`M1 ${joint}h${COLUMN_PX + 6}`} className="heat-joint" />}
      {pour.fromMm > 0 && joint < BOTTOM_PX - 16 && <text x={COLUMN_PX + 10} y={joint + 5}>{lengthNumber(pour.fromMm)}</text>}
      <text x={COLUMN_PX + 10} y={TOP_PX + 10}>{length(pour.toMm)}</text>
      <text x={COLUMN_PX + 10} y={BOTTOM_PX}>0</text>
      <text x="1" y={HEIGHT_PX - 5}>when warmest</text>
    </svg>
  );
}

function upright(y: number, height: number, gapPx: number): string {
  const lines = Math.floor(COLUMN_PX / gapPx);
  return Array.from({ length: lines }, (_, i) => `M${(1 + (i + 0.5) * gapPx).toFixed(1)} ${y.toFixed(1)}v${height.toFixed(1)}`).join('');
}

/** The same for who does not see it. */
function Table({ series, pour }: { readonly series: HeatSeries; readonly pour: Pour }) {
  return (
    <table className="hidden">
      <caption>Hottest point of pour {pour.index}, °C</caption>
      <thead><tr><th scope="col">hours</th><th scope="col">at least</th><th scope="col">at most</th></tr></thead>
      <tbody>{seriesTable(series).map(({ h, lowC, highC }) => <tr key={h}><th scope="row">{h}</th><td>{lowC}</td><td>{highC}</td></tr>)}</tbody>
    </table>
  );
}
