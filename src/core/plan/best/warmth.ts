/**
 * How warm a pour would get, from verdicts: a table of the situations that occur (a layer, a formula, a tacky or a cured
 * surface) with the depths that were judged there and the warm end of what they may reach. Between them it is read off
 * straight lines from the room's temperature up; where nothing was judged, from the label's depth at the temperature of
 * concern. Only the search reads it: what it finds is judged by the model itself.
 */
import type { Formula } from '../../scene/scene.ts';
import type { LaidPour } from '../heat-rounds.ts';
import type { Schedule } from '../schedule.ts';

/** Temperatures this near to each other count as one, °C: nobody pours for days to gain less. */
const STEP_C = 0.5;
/** Tabulated temperatures carry noise far below this share of a step. */
const ROUNDING = 1e-6;

interface Point {
  readonly depthMm: number;
  readonly highC: number;
}

/** By situation: what was judged, deepest last. */
export type WarmthTable = ReadonlyMap<string, readonly Point[]>;

/** A temperature in whole steps, upward. */
export function warmthStep(highC: number): number {
  return Math.ceil(highC / STEP_C - ROUNDING);
}

/** The table with a judged plan's verdicts. Pours that no one judged tell nothing. */
export function withVerdicts(table: WarmthTable, pours: readonly LaidPour[], { pours: times }: Schedule): WarmthTable {
  const more = new Map(table);
  pours.forEach(({ slice: { layerAt, formula, fromMm, toMm }, judged }, i) => {
    if (!judged) return;
    const key = situation(layerAt.index - 1, formula.id, times[i].route === 'wet-on-tacky');
    const point = { depthMm: toMm - fromMm, highC: judged.verdict.rangeC[1] };
    const others = more.get(key) ?? [];
    const same = others.find(({ depthMm }) => depthMm === point.depthMm);
    if (same && same.highC >= point.highC) return;
    more.set(key, [...others.filter((other) => other !== same), point].sort((a, b) => a.depthMm - b.depthMm));
  });
  return more;
}

/** Reads the table for a formula in a layer, counted from 0: steps of temperature by depth and surface. */
export function warmthIn(table: WarmthTable, { layer, formula, roomC, concernC }: { readonly layer: number; readonly formula: Formula; readonly roomC: number; readonly concernC: number }): (depthMm: number, onTacky: boolean) => number {
  const known = (onTacky: boolean) => table.get(situation(layer, formula.id, onTacky));
  const byLabel: readonly Point[] = [{ depthMm: formula.maxDepthMm, highC: concernC }];
  return (depthMm, onTacky) => warmthStep(read([{ depthMm: 0, highC: roomC }, ...(known(onTacky) ?? known(!onTacky) ?? byLabel)], depthMm));
}

/** On straight lines between the points, and on through the last; never falling with depth. */
function read(points: readonly Point[], depthMm: number): number {
  const above = points.findIndex((point) => point.depthMm >= depthMm);
  const i = above < 0 ? points.length - 1 : Math.max(1, above);
  const [low, high] = [points[i - 1], points[i]];
  const slope = Math.max(0, (high.highC - low.highC) / (high.depthMm - low.depthMm));
  return Math.max(low.highC, high.highC + slope * (depthMm - high.depthMm));
}

function situation(layer: number, formula: string, onTacky: boolean): string {
  return `${layer} ${formula} ${onTacky ? 'tacky' : 'cured'}`;
}
