/**
 * How near each pour is to its own safe depth: a thin upright inside the right wall, as much of the band's height as the
 * pour takes of what is safe there. One that is too deep is brick and goes all the way. The chosen pour's tag writes it.
 */
import { limitIn } from '../../core/units/in-units.ts';
import type { GaugeBand } from './gauge-model.ts';
import type { LengthUnit } from './height-scale.ts';

const SERIF_PX = 5;
/** Depths that were halved and added carry noise far below this. */
const ROUNDING_MM = 1e-9;

export interface SafeMarksProps {
  readonly bands: readonly GaugeBand[];
  /** Safe depth by pour, mm; those that heat was not judged for are left out. */
  readonly safe: ReadonlyMap<number, number>;
  /** Inner face of the right wall at a height. */
  readonly wallAt: (y: number) => number;
}

export function SafeMarks({ bands, safe, wallAt }: SafeMarksProps) {
  return (
    <g>
      {bands.map(({ pour, y, height, depthMm }) => {
        const safeMm = safe.get(pour);
        if (safeMm === undefined) return null;
        const share = safeShare(depthMm, safeMm);
        const bottom = y + height;
        const top = bottom - Math.min(1, share) * (height - 2);
        const x = wallAt(bottom) - 7;
        return <path key={pour} d={`M${x} ${bottom - 1}V${top}m${-SERIF_PX} 0h${SERIF_PX}`} className={share > 1 ? 'safe-mark over' : 'safe-mark'} />;
      })}
    </g>
  );
}

/** Of a depth in what is safe; rounding does not make it too much. */
export function safeShare(depthMm: number, safeMm: number): number {
  return depthMm <= safeMm + ROUNDING_MM ? Math.min(1, depthMm / safeMm) : Math.max(depthMm / Math.max(safeMm, ROUNDING_MM), 1 + ROUNDING_MM);
}

/** How a pour's share reads aloud. */
export function safeWords(depthMm: number, safeMm: number | undefined, unit: LengthUnit): string {
  if (safeMm === undefined) return '';
  return depthMm <= safeMm + ROUNDING_MM ? `, safe to ${safeDepthIn(safeMm, unit)}` : `, deeper than the ${safeDepthIn(safeMm, unit)} that are safe`;
}

/** Down to the tenth. */
export function safeDepthIn(safeMm: number, unit: LengthUnit): string {
  return limitIn(Math.floor(safeMm * 10 + ROUNDING_MM) / 10, unit);
}
