/** What the search is asked, from a scene: its layers with the formulas they may be poured in, its lines, figures and expenses. */
import { rateAt, roomAt } from '../../cure/equivalent-time.ts';
import type { Formula, Mold, Room, Scene } from '../../scene/scene.ts';
import { STOP_TOLERANCE_MM } from '../../scene/tolerance.ts';
import type { Displacement } from '../../solid/displacement.ts';
import { MINUTES_PER_HOUR } from '../../units/time.ts';
import type { SolidAt } from '../context.ts';
import type { HeatJudge } from '../heat-judge.ts';
import { contentOf, type LayerAt } from '../layers.ts';
import { paceOf } from '../schedule.ts';
import { sliceLayer } from '../slices.ts';
import { floorPlanes, planesAt } from '../stops.ts';
import type { BestProblem, Expenses, Option } from './problem.ts';
import { warmthIn, type WarmthTable } from './warmth.ts';

/** A line this near to a bed's edge is at it, mm. */
const EDGE_MM = 0.25;

/** What heat has taught of a formula in a layer: less depth, later or earlier moments than its label's, in label hours. */
export interface Lesson {
  readonly limitMm: number;
  /** Onto a tacky surface. */
  readonly wetMm: number;
  readonly hours: Partial<Pick<Formula, 'bondOpensH' | 'bondClosesH' | 'scuffableH' | 'paintableH' | 'demoldH'>>;
}

export interface SceneParts {
  readonly layers: readonly LayerAt[];
  readonly solids: readonly SolidAt[];
  readonly displacement: Displacement;
  readonly startMin: number;
  /** By layer index (from 0) and formula id. */
  readonly lessons: ReadonlyMap<string, Lesson>;
  readonly heat: HeatJudge | null;
  /** Where the coolest plan is asked for: what is known of how warm pours get. */
  readonly warmth?: WarmthTable | null;
}

export function lessonKey(layer: number, formula: string): string {
  return `${layer} ${formula}`;
}

export function problemOf(scene: Scene, parts: SceneParts): BestProblem {
  const { layers, solids, displacement, startMin, lessons } = parts;
  const { plan } = scene;
  const ids = (layer: LayerAt) => plan.formulas ?? [layer.formula];
  const asked: BestProblem = {
    pace: paceOf(scene),
    startMin,
    layers: layers.map((layer, i) => ({
      fromMm: layer.fromMm,
      toMm: layer.toMm,
      options: ids(layer).map((id) => ({ ...optionOf(scene.formulas.get(id)!, lessons.get(lessonKey(i, id))), warmth: warmthOf(scene, parts, i, id) })),
      planes: planesAt(scene, layer.top),
    })),
    floor: floorPlanes(scene, layers[0].fromMm),
    floaters: solids.flatMap(({ placement, floats, safeLockMm }) => (floats && placement.hold !== 'thread' && safeLockMm !== null ? [{ id: placement.id, baseMm: placement.baseMm, safeLockMm }] : [])),
    pinsMm: plan.pinsMm,
    avoid: plan.avoid,
    alsoMm: layers.flatMap((layerAt, i) => ids(layerAt).flatMap((formula) => evenLines(scene, parts, { ...layerAt, formula }, lessons.get(lessonKey(i, formula))?.limitMm ?? Infinity))),
    netBelowMl: netBelow(scene.mold, displacement),
    expenses: expensesOf(scene, [...new Set(layers.flatMap(ids))]),
    cupMin: plan.cupMin,
    shows: showing(solids),
  };
  return asked;
}

/** Asked for the same lines by every goal and in every round. */
const NET_BELOW = new WeakMap<Displacement, (atMm: number) => number>();

function netBelow(mold: Mold, displacement: Displacement): (atMm: number) => number {
  const known = NET_BELOW.get(displacement);
  if (known) return known;
  const found = new Map<number, number>();
  const once = (atMm: number): number => {
    const netMl = found.get(atMm) ?? contentOf(mold, displacement, 0, atMm).netMl;
    found.set(atMm, netMl);
    return netMl;
  };
  NET_BELOW.set(displacement, once);
  return once;
}

/** A formula as it behaves in a layer: its label's, or tightened by what heat has taught. */
function optionOf(formula: Formula, lesson: Lesson | undefined): Option {
  if (!lesson) return { formula, limitMm: formula.maxDepthMm };
  return { formula: { ...formula, ...lesson.hours }, limitMm: Math.min(formula.maxDepthMm, lesson.limitMm), wetMm: lesson.wetMm };
}

function warmthOf({ formulas, room }: Scene, { heat, warmth }: SceneParts, layer: number, id: string): Option['warmth'] {
  const formula = formulas.get(id)!;
  return heat && warmth ? warmthIn(warmth, { layer, formula, roomC: room.temperatureC, concernC: heat.familyOf(formula).concernC }) : undefined;
}

/** The lines of the even plan, which may lie off the grid. */
function evenLines(scene: Scene, { layers, solids }: SceneParts, layerAt: LayerAt, limitMm: number): number[] {
  return sliceLayer(scene, layerAt, { layers, solids, limitMm }).slices.map(({ toMm }) => toMm);
}

function expensesOf({ formulas, plan }: Scene, ids: readonly string[]): Expenses {
  const prices = ids.map((id) => formulas.get(id)!.price);
  const oneCurrency = new Set(prices.map((price) => price?.currency)).size === 1;
  const known = oneCurrency && prices.every((price) => price !== undefined);
  return { perMl: known ? new Map(ids.map((id, i) => [id, prices[i]!.amount / prices[i]!.kitMl])) : null, perPour: plan.pourCost, perScuff: plan.scuffCost };
}

/** Least at a bed's top or bottom edge, most across a figure. */
function showing(solids: readonly SolidAt[]): BestProblem['shows'] {
  const spans = solids.map(({ placement, solid }) => ({ isBed: placement.kind === 'bed', fromMm: placement.baseMm, toMm: solid?.bounds.max[2] ?? placement.baseMm }));
  return (atMm) => {
    if (spans.some(({ isBed, toMm }) => isBed && Math.abs(atMm - toMm) <= EDGE_MM)) return 0;
    return spans.some(({ isBed, fromMm, toMm }) => !isBed && atMm > fromMm + STOP_TOLERANCE_MM && atMm < toMm - STOP_TOLERANCE_MM) ? 2 : 1;
  };
}

/** The hours of the label that lie between a pour’s end, or start, and a moment: what heat moved, as a label would say it. */
export function labelHours(room: Room, formula: Formula, fromMin: number, toMin: number): number {
  let progress = 0;
  let at = fromMin;
  for (const entry of [...room.profile.filter(({ fromMin: from }) => from > fromMin && from < toMin), { fromMin: toMin }]) {
    progress += (entry.fromMin - at) * rateAt(roomAt(room, at), formula.atC);
    at = entry.fromMin;
  }
  return progress / MINUTES_PER_HOUR;
}
