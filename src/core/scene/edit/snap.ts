/**
 * Where a dragged thing comes to rest: on a stop, a boundary, half way, in line with others, or on a whole millimeter.
 * Called at every move of the pointer; makes no edit.
 */
import type { PlacementFile, SceneFile } from './file.ts';
import { heightOf, makesStop, nameOf, thingsOf, tidy } from './things.ts';

/** A pointer this near is on it, screen pixels: half of a comfortable click. */
const SNAP_PX = 8;
/** Without snapping a drag still lands on hundredths, mm: finer is not set by hand. */
const FREE_MM = 0.01;

export interface SnapOptions {
  /** The key that suspends snapping is down. */
  readonly suspended?: boolean;
  /** Screen pixels to a millimeter. */
  readonly pxPerMm: number;
  /** What a thing comes to rest on when nothing is near: 1 mm, or 25.4 / 16 for someone who works in inches. */
  readonly gridMm?: number;
}

export interface SnapTarget {
  readonly mm: number;
  /** What is there: `Lily pads`, `half way`, `center`. */
  readonly words: string;
}

export interface Snapped {
  readonly mm: number;
  /** What it snapped to; null for a whole millimeter or none. */
  readonly to: string | null;
}

/** Heights worth snapping to while the things with these ids move: floor, top, stops, boundaries, and equal gaps between planes. */
export function heightTargets(file: SceneFile, moving: readonly string[]): readonly SnapTarget[] {
  const others = restOf(file, moving);
  const targets: SnapTarget[] = [
    ...others.filter(makesStop).map((placement) => ({ mm: heightOf(placement), words: nameOf(placement) })),
    ...file.fills.slice(0, -1).map((fill) => ({ mm: fill.toMm, words: 'change of fill' })),
    { mm: 0, words: 'floor' },
    { mm: file.fillMm, words: 'top' },
  ];
  const planes = [...new Set(others.filter((placement) => placement.kind === 'plane').map(heightOf))].sort((a, b) => a - b);
  const lines = [...new Set([0, ...planes, file.fillMm])].sort((a, b) => a - b);
  for (let i = 1; i < lines.length; i++) {
    const gap = lines[i] - lines[i - 1];
    targets.push({ mm: tidy(lines[i - 1] + gap / 2), words: 'half way' });
    if (i + 1 < lines.length) targets.push({ mm: tidy(lines[i] + gap), words: 'same gap again' });
    if (i - 1 > 0) targets.push({ mm: tidy(lines[i - 1] - gap), words: 'same gap again' });
  }
  return targets.filter(({ mm }) => mm >= 0 && mm <= file.fillMm);
}

/** A height, mm up, drawn to the nearest target. Where two are as near, the first given wins. */
export function snapHeight(candidateMm: number, targets: readonly SnapTarget[], options: SnapOptions): Snapped {
  return snapAlong(candidateMm, targets, options);
}

export interface PlaceTargets {
  readonly x: readonly SnapTarget[];
  readonly y: readonly SnapTarget[];
}

/** The mold's center lines and those of the things that don't move. */
export function placeTargets(file: SceneFile, moving: readonly string[]): PlaceTargets {
  const center = { mm: 0, words: 'center' };
  const others = restOf(file, moving).flatMap((placement) => {
    const at = placement.kind === 'plane' ? placement.art : placement;
    return at ? [{ x: at.xMm ?? 0, y: at.yMm ?? 0, words: nameOf(placement) }] : [];
  });
  return {
    x: [center, ...others.map(({ x, words }) => ({ mm: x, words }))],
    y: [center, ...others.map(({ y, words }) => ({ mm: y, words }))],
  };
}

/** A place over the floor, each way by itself. */
export function snapPlace(xMm: number, yMm: number, targets: PlaceTargets, options: SnapOptions): { readonly x: Snapped; readonly y: Snapped } {
  return { x: snapAlong(xMm, targets.x, options), y: snapAlong(yMm, targets.y, options) };
}

function snapAlong(candidateMm: number, targets: readonly SnapTarget[], { suspended = false, pxPerMm, gridMm = 1 }: SnapOptions): Snapped {
  if (suspended) return { mm: tidy(Math.round(candidateMm / FREE_MM) * FREE_MM), to: null };
  let best: SnapTarget | null = null;
  let near = SNAP_PX / pxPerMm;
  for (const target of targets) {
    const off = Math.abs(target.mm - candidateMm);
    if (best === null ? off <= near : off < near) {
      best = target;
      near = off;
    }
  }
  if (best) return { mm: best.mm, to: best.words };
  return { mm: tidy(Math.round(candidateMm / gridMm) * gridMm), to: null };
}

function restOf(file: SceneFile, moving: readonly string[]): readonly PlacementFile[] {
  const gone = new Set(moving);
  return thingsOf(file).filter((placement) => !gone.has(placement.id));
}
