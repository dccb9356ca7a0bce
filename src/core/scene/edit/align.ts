/** Lining things up and spreading them with equal gaps, by the bounds they are drawn with. Locked things stay, and the others go by them. */
import type { Bounds } from '../../solid/solid.ts';
import { refused, type EditResult, type SceneFile } from './file.ts';
import { setHeights, setPlaces } from './move.ts';
import { heightOf, isLocked, nameOf, spokenAll, thing, tidy } from './things.ts';

/** Seen from the front. `center` is between left and right, `middle` between front and back. */
export type Side = 'left' | 'center' | 'right' | 'front' | 'middle' | 'back';

const SIDE_WORDS: Readonly<Record<Side, string>> = {
  left: 'lined up at the left',
  center: 'lined up on one center',
  right: 'lined up at the right',
  front: 'lined up at the front',
  middle: 'lined up in the middle',
  back: 'lined up at the back',
};

interface Span {
  readonly id: string;
  readonly low: number;
  readonly high: number;
  readonly locked: boolean;
}

/** Lines up the things whose bounds are given. */
export function align(file: SceneFile, bounds: ReadonlyMap<string, Bounds>, side: Side): EditResult {
  const axis = side === 'left' || side === 'center' || side === 'right' ? 0 : 1;
  const spans = spansOf(file, bounds, axis);
  if (spans.length < 2) return refused('Choose two or more figures or beds to line up.');
  if (spans.every((span) => span.locked)) return refused('All of these are locked. Unlock those that should move.');
  const anchors = spans.some((span) => span.locked) ? spans.filter((span) => span.locked) : spans;
  const low = Math.min(...anchors.map((span) => span.low));
  const high = Math.max(...anchors.map((span) => span.high));
  const places = new Map<string, { xMm?: number; yMm?: number }>();
  for (const span of spans) {
    if (span.locked) continue;
    const by = side === 'left' || side === 'front' ? low - span.low : side === 'right' || side === 'back' ? high - span.high : (low + high - span.low - span.high) / 2;
    places.set(span.id, placed(file, span.id, axis, by));
  }
  return setPlaces(file, places, `${words(file, spans)} ${SIDE_WORDS[side]}`);
}

/** Spreads three or more with equal gaps between the outer two, side by side (`x`), front to back (`y`) or by `height`. */
export function spread(file: SceneFile, bounds: ReadonlyMap<string, Bounds>, along: 'x' | 'y' | 'height'): EditResult {
  const spans = (along === 'height' ? heightSpans(file, bounds) : spansOf(file, bounds, along === 'x' ? 0 : 1)).sort((a, b) => a.low + a.high - b.low - b.high);
  if (spans.length < 3) return refused('Choose three or more things to spread.');
  const inner = spans.slice(1, -1);
  const locked = inner.find((span) => span.locked);
  if (locked) return refused(`${nameOf(thing(file, locked.id)!)} is locked and lies between the others. Unlock it first.`);
  const [first, last] = [spans[0], spans[spans.length - 1]];
  const gap = (last.low - first.high - inner.reduce((sum, span) => sum + span.high - span.low, 0)) / (spans.length - 1);
  if (gap < 0) return refused(`There is no room for equal gaps between ${nameOf(thing(file, first.id)!)} and ${nameOf(thing(file, last.id)!)}. Move one of them outward.`);
  const label = `${words(file, spans)} spread evenly`;
  const places = new Map<string, { xMm?: number; yMm?: number }>();
  const heights = new Map<string, number>();
  let at = first.high + gap;
  for (const span of inner) {
    const by = at - span.low;
    if (along === 'height') heights.set(span.id, tidy(heightOf(thing(file, span.id)!) + by));
    else places.set(span.id, placed(file, span.id, along === 'x' ? 0 : 1, by));
    at += span.high - span.low + gap;
  }
  return along === 'height' ? setHeights(file, heights, label) : setPlaces(file, places, label);
}

function spansOf(file: SceneFile, bounds: ReadonlyMap<string, Bounds>, axis: 0 | 1): Span[] {
  return [...bounds].flatMap(([id, { min, max }]) => {
    const placement = thing(file, id);
    return placement && placement.kind !== 'plane' ? [{ id, low: min[axis], high: max[axis], locked: isLocked(placement) }] : [];
  });
}

/** A plane has no thickness, and its height is the scene's own. */
function heightSpans(file: SceneFile, bounds: ReadonlyMap<string, Bounds>): Span[] {
  return [...bounds].flatMap(([id, { min, max }]) => {
    const placement = thing(file, id);
    if (!placement) return [];
    const [low, high] = placement.kind === 'plane' ? [placement.atMm, placement.atMm] : [min[2], max[2]];
    return [{ id, low, high, locked: isLocked(placement) }];
  });
}

function placed(file: SceneFile, id: string, axis: 0 | 1, by: number): { xMm?: number; yMm?: number } {
  const placement = thing(file, id)!;
  if (placement.kind === 'plane') return {};
  return axis === 0 ? { xMm: tidy((placement.xMm ?? 0) + by) } : { yMm: tidy((placement.yMm ?? 0) + by) };
}

function words(file: SceneFile, spans: readonly Span[]): string {
  return spokenAll(spans.map((span) => thing(file, span.id)!));
}
