/**
 * How near each pour is to its own safe depth: a thin upright inside the right wall, as much of the band's height as the
 * pour takes of what is safe there. One that is too deep is brick and goes all the way. The chosen pour's is written.
 */
import { limitIn } from '../../core/units/in-units.ts';
import type { GaugeBand } from './gauge-model.ts';
import type { LengthUnit } from './height-scale.ts';

/** A band lower than this has no room for words, px. */
const LEAST_WORDS_PX = 22;
const SERIF_PX = 5;

export interface SafeMarksProps {
  readonly bands: readonly GaugeBand[];
  /** Safe depth by pour, mm; those that heat was not judged for are left out. */
  readonly safe: ReadonlyMap<number, number>;
  readonly chosen: number | null;
  readonly unit: LengthUnit;
  /** Inner face of the right wall at a height. */
  readonly wallAt: (y: number) => number;
  /** No words. */
  readonly bare?: boolean;
}

export function SafeMarks({ bands, safe, chosen, unit, wallAt, bare = false }: SafeMarksProps) {
  return (
    <g>
      {bands.map(({ pour, y, height, depthMm }) => {
        const safeMm = safe.get(pour);
        if (safeMm === undefined) return null;
        const share = safeShare(depthMm, safeMm);
        const bottom = y + height;
        const top = bottom - Math.min(1, share) * (height - 2);
        const x = wallAt(bottom) - 7;
        return (
          <g key={pour}>
            <path d={`M${x} ${bottom - 1}V${top}m${-SERIF_PX} 0h${SERIF_PX}`} className={share > 1 ? 'safe-mark over' : 'safe-mark'} />
            {!bare && pour === chosen && height >= LEAST_WORDS_PX && <text className="label halo" x={x - 10} y={bottom - 7} textAnchor="end">safe to {limitIn(Math.floor(safeMm * 10 + 1e-9) / 10, unit)}</text>}
          </g>
        );
      })}
    </g>
  );
}

/** Of a depth in what is safe; rounding does not make it too much. */
export function safeShare(depthMm: number, safeMm: number): number {
  return depthMm <= safeMm + 1e-9 ? Math.min(1, depthMm / safeMm) : Math.max(depthMm / Math.max(safeMm, 1e-9), 1 + 1e-9);
}

/** How a pour's share reads aloud. */
export function safeWords(depthMm: number, safeMm: number | undefined, unit: LengthUnit): string {
  if (safeMm === undefined) return '';
  return depthMm <= safeMm + 1e-9 ? `, safe to ${limitIn(Math.floor(safeMm * 10 + 1e-9) / 10, unit)}` : `, deeper than the ${limitIn(Math.floor(safeMm * 10 + 1e-9) / 10, unit)} that are safe`;
}
