/** Outlines and hatches as SVG path data, mm. */
import type { HatchItem } from './document.ts';
import { hatchMarks } from './hatch.ts';
import type { Ring } from './polygon.ts';
import { boxOf, ringsOf } from './polygon.ts';

/** Rings as `M…L…Z`; open ones without the `Z`. Three decimals: 0.0005 mm. */
export function ringsPath(rings: readonly Ring[], closed: boolean): string {
  return rings
    .filter((ring) => ring.length > 1)
    .map((ring) => `M${ring.map(([x, y]) => `${short(x)} ${short(y)}`).join('L')}${closed ? 'Z' : ''}`)
    .join('');
}

export interface HatchPath {
  readonly strokeMm: number;
  readonly path: string;
  readonly dash: readonly [number, number] | null;
}

export function hatchPath({ region, hatch }: HatchItem): HatchPath {
  const rings = region.flatMap(ringsOf);
  const { lines, strokeMm, dash } = hatchMarks(hatch, boxOf(rings));
  return { path: ringsPath(lines, false), strokeMm, dash };
}

/** mm to the thousandth. */
export const short = (value: number): string => String(Math.round(value * 1000) / 1000);
