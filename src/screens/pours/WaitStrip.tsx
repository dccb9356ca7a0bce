/** One wait as its own strip: as long as it takes, on the scale that all strips share. */
import { MINUTES_PER_DAY } from '../../core/units/time.ts';
import type { Wait, WaitKind } from '../../store/waits.ts';

const DAYS = ['Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat', 'Sun'];
const BAR_PX = 16;
const TOP_PX = 9;
/** A label of a day that stands nearer to the strip's end would be cut off, px. */
const LABEL_ROOM_PX = 14;

export interface WaitStripProps {
  readonly wait: Wait;
  readonly pxPerMin: number;
  /** Ids of the patterns for closed bench and drying. */
  readonly prefix: string;
}

export function WaitStrip({ wait, pxPerMin, prefix }: WaitStripProps) {
  const xOf = (min: number): number => 1 + (min - wait.fromMin) * pxPerMin;
  const end = xOf(Math.max(wait.toMin, wait.tacky?.toMin ?? 0));
  const width = Math.max(40, end + LABEL_ROOM_PX);
  const bottom = TOP_PX + BAR_PX;
  return (
    <svg className="strip" width={width} height={bottom + 22} viewBox={`0 0 ${width} ${bottom + 22}`} aria-hidden="true">
      {wait.spans.map(({ kind, fromMin, toMin }) => (
        <rect key={fromMin} x={xOf(fromMin)} y={TOP_PX} width={Math.max(1, (toMin - fromMin) * pxPerMin)} height={BAR_PX} {...looks(kind, prefix)} />
      ))}
      {wait.midnights.map(({ atMin, weekday }) => {
        const x = xOf(atMin);
        const spaced = MINUTES_PER_DAY * pxPerMin >= 30 || weekday === 0;
        return (
          <g key={atMin}>
            <path d={`M${x} ${bottom}v5`} className="tick" />
            {spaced && x > LABEL_ROOM_PX - 6 && <text className="label soft" x={x} y={bottom + 19} textAnchor="middle">{DAYS[weekday]}</text>}
          </g>
        );
      })}
      {wait.tacky && (
        <path className="tacky" d={`M${xOf(wait.tacky.fromMin)} ${TOP_PX - 1}v-6H${xOf(wait.tacky.toMin)}v6`} />
      )}
    </svg>
  );
}

/** How each kind is filled; the legend shows the same. */
function looks(kind: WaitKind, prefix: string): { className: string; fill?: string } {
  if (kind === 'cures') return { className: 'wait', fill: `url(#${prefix}-cures)` };
  if (kind === 'bench closed') return { className: 'wait', fill: `url(#${prefix}-closed)` };
  if (kind === 'dries') return { className: 'wait dries', fill: `url(#${prefix}-dries)` };
  return { className: `wait ${kind}` };
}

export function WaitPatterns({ prefix }: { readonly prefix: string }) {
  return (
    <svg width="0" height="0" className="patterns" aria-hidden="true">
      <defs>
        <pattern id={`${prefix}-cures`} width="6" height="5" patternUnits="userSpaceOnUse"><path d="M0 2.5H6" className="hatch-line" strokeWidth="1" /></pattern>
        <pattern id={`${prefix}-closed`} width="7" height="8" patternUnits="userSpaceOnUse"><circle cx="3" cy="4" r="0.9" className="hatch-dot" /></pattern>
        <pattern id={`${prefix}-dries`} width="6" height="6" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><path d="M1 -1V7" className="dries-line" /></pattern>
      </defs>
    </svg>
  );
}

export function WaitLegend({ prefix }: { readonly prefix: string }) {
  const kinds: readonly WaitKind[] = ['cures', 'bench closed', 'scuff', 'paint', 'dries'];
  return (
    <ul className="legend" aria-label="What the strips show">
      {kinds.map((kind) => (
        <li key={kind}>
          <svg width={kind === 'scuff' ? 6 : 30} height="14" aria-hidden="true"><rect x="1" y="1" width={kind === 'scuff' ? 4 : 28} height="12" {...looks(kind, prefix)} /></svg>
          {kind}
        </li>
      ))}
      <li>
        <svg width="30" height="14" aria-hidden="true"><path className="tacky" d="M1.500 11V4H28.500v7" /></svg>
        tacky
      </li>
    </ul>
  );
}
