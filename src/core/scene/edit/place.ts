/** Setting new things in a scene: a figure, a bed, a painted plane. */
import { LIMITS } from '../schema.ts';
import type { Hold, Shape } from '../scene.ts';
import { added, refused, type AddResult, type ArtFile, type PlacementFile, type SceneFile } from './file.ts';
import { freshId, freshName, nameOfShape } from './names.ts';
import { heightOf, makesStop, nameOf, spoken, thingsOf, tidy } from './things.ts';

/** Between two heights there is this much clear of figures, or no plane is sought there, mm (a choice of ours). */
const LEAST_CLEAR_MM = 4;

/** From one height up to another, mm. */
export interface Span {
  readonly low: number;
  readonly high: number;
}

export interface NewSolid {
  readonly shape: Shape;
  /** By default after the shape. Made unique. */
  readonly name?: string;
  /** Center of its bounds in the mold, mm; the middle by default. */
  readonly xMm?: number;
  readonly yMm?: number;
  /** Its lowest point, mm up; the floor by default. */
  readonly baseMm?: number;
  /** Left to the rule (rests above the floor, stands on it) unless chosen. */
  readonly hold?: Hold;
  readonly material?: string;
}

export interface NewPlane {
  readonly name?: string;
  /** mm up; by default `planeHeight`. */
  readonly atMm?: number;
  readonly art?: ArtFile;
}

/** A figure: a drawn shape, one of our own figures, or a file. */
export function addFigure(file: SceneFile, figure: NewSolid): AddResult {
  return addSolid(file, 'figure', figure);
}

/** A bed: sand, rock, gravel. A bed is fixed unless it says otherwise. */
export function addBed(file: SceneFile, bed: NewSolid & { readonly voidFraction?: number }): AddResult {
  return addSolid(file, 'bed', bed);
}

/** A painted plane, between the floor and the top. */
export function addPlane(file: SceneFile, plane: NewPlane = {}): AddResult {
  const full = whenFull(file, 1);
  if (full) return refused(full);
  const { art, name: wanted, atMm = planeHeight(file) } = plane;
  const id = freshId(file, 'plane');
  const name = freshName(file, wanted ?? 'Painted plane');
  const height = Number.isFinite(atMm) ? tidy(Math.min(Math.max(atMm, 0), file.fillMm)) : atMm;
  return added({ ...file, placements: [...thingsOf(file), { id, kind: 'plane', name, atMm: height, ...(art && { art }) }] }, `${spoken(name)} added`, [id], name);
}

/**
 * Where a new plane goes, mm up: half way between the two neighbors (floor, planes, top) farthest apart. A stop that is
 * there already, within the middle half of that gap, is taken instead: it costs no further wait. Of gaps as wide the
 * one with such a stop wins, then the lowest. Where that would cut through one of the `standing`, the same among the
 * heights clear of all of them, if there is room.
 */
export function planeHeight(file: SceneFile, standing: readonly Span[] = []): number {
  const planes = thingsOf(file).filter((placement) => placement.kind === 'plane').map(heightOf);
  const bounds = [0, ...planes, file.fillMm].sort((a, b) => a - b);
  const gaps = bounds.slice(1).map((high, i): Span => ({ low: bounds[i], high }));
  const height = middleOfWidest(file, gaps);
  if (!standing.some(({ low, high }) => low < height && height < high)) return height;
  const clear = standing.reduce(without, gaps).filter(({ low, high }) => high - low >= LEAST_CLEAR_MM);
  return clear.length > 0 ? middleOfWidest(file, clear) : height;
}

function without(gaps: readonly Span[], taken: Span): readonly Span[] {
  return gaps.flatMap(({ low, high }) => [{ low, high: Math.min(high, taken.low) }, { low: Math.max(low, taken.high), high }]).filter(({ low, high }) => low < high);
}

function middleOfWidest(file: SceneFile, spans: readonly Span[]): number {
  const gaps = spans.map(({ low, high }) => ({ low, high, stop: stopInMiddle(file, low, high) }));
  const [{ low, high, stop }] = gaps.sort((a, b) => tidy(b.high - b.low) - tidy(a.high - a.low) || Number(b.stop !== undefined) - Number(a.stop !== undefined));
  const middle = (low + high) / 2;
  const whole = Math.round(middle);
  return stop ?? (whole > low && whole < high ? whole : tidy(middle));
}

/** Why no further things fit in the scene, or null. */
export function whenFull(file: SceneFile, more: number): string | null {
  return thingsOf(file).length + more <= LIMITS.placements ? null : `A scene holds ${LIMITS.placements} things at most. Take some out first.`;
}

function addSolid(file: SceneFile, kind: 'figure' | 'bed', solid: NewSolid & { readonly voidFraction?: number }): AddResult {
  const full = whenFull(file, 1);
  if (full) return refused(full);
  const { name: wanted, shape, xMm = 0, yMm = 0, baseMm = 0, ...more } = solid;
  const id = freshId(file, kind);
  const name = freshName(file, wanted ?? nameOfShape(shape));
  const chosen = Object.fromEntries(Object.entries(more).filter(([, value]) => value !== undefined));
  const placement = { id, kind, name, shape, xMm, yMm, baseMm, ...chosen } as PlacementFile;
  return added({ ...file, placements: [...thingsOf(file), placement] }, `${spoken(nameOf(placement))} added`, [id], name);
}

function stopInMiddle(file: SceneFile, low: number, high: number): number | undefined {
  const middle = (low + high) / 2;
  const stops = [...thingsOf(file).filter((placement) => placement.kind !== 'plane' && makesStop(placement)).map(heightOf), ...file.fills.slice(0, -1).map((fill) => fill.toMm)];
  return stops.filter((stop) => Math.abs(stop - middle) <= (high - low) / 4).sort((a, b) => Math.abs(a - middle) - Math.abs(b - middle))[0];
}
