/** A plan of the search laid out as pours in time, each judged by the heat model on what really lies below it. */
import type { Formula, Plane, Scene } from '../../scene/scene.ts';
import type { Displacement } from '../../solid/displacement.ts';
import type { Laid, LaidPour, LayRequest } from '../heat-rounds.ts';
import { tooDeep } from '../hot.ts';
import type { LayerAt } from '../layers.ts';
import { emptyPile, pouredOn } from '../pile.ts';
import { finishOf, firstPour, fitOf, NOTHING, opensAt, pourAt, pourOn, scuffPaintDry, scuffThenPour, type Pace, type PourTimes, type ScheduledPour } from '../schedule.ts';
import { nightOver } from '../sleep.ts';
import type { Slice } from '../slices.ts';
import { firstTopAbove } from '../split.ts';
import { thinnestForHeatMm } from '../thinnest.ts';
import type { BestPlan, BestPour, Prepared } from './best-plan.ts';
import { lessonKey, type Lesson } from './from-scene.ts';
import { lessonOf } from './lessons.ts';

/** Depths that were halved and added carry noise far below this, mm. */
const ROUNDING_MM = 1e-9;

export interface BestLaid extends Laid {
  /** The scene's layers, each in the formula chosen for it. */
  readonly layers: readonly LayerAt[];
  readonly prepared: Prepared;
}

export interface BestRequest extends LayRequest {
  readonly displacement: Displacement;
  /** The even plan, laid once, when it is first asked for; null: it has no hours. */
  readonly even: () => Laid | null;
}

export interface LayContext extends BestRequest {
  readonly prepared: Prepared;
}

export interface Outcome {
  readonly laid: Omit<BestLaid, 'prepared'>;
  /** Nothing is liquid while someone sleeps there, its heat counted. */
  readonly awake: boolean;
  /** Empty: the model lets everything stand as it was planned. */
  readonly learned: readonly (readonly [string, Lesson])[];
}

export function layPlan(scene: Scene, best: BestPlan, context: LayContext): Outcome {
  const { heat, prepared, solids } = context;
  const { pace } = prepared.problem;
  const layers = context.layers.map((layer, i) => ({ ...layer, asked: layer.formula, formula: best.pours.find((pour) => pour.layer === i)!.formula.id }));
  const slices = slicesOf(scene, best, layers, context);
  const pours: LaidPour[] = [];
  const times: ScheduledPour[] = [];
  const learned: [string, Lesson][] = [];
  let keeps = true;
  let awake = true;
  let pile = emptyPile(scene, heat, layers[0].fromMm);
  best.pours.forEach((wish, i) => {
    const slice = slices[i];
    const { newest, planes } = pile;
    const wished = { formula: slice.formula, planes, wish };
    // What heat leaves no hours for is laid all the same, to learn from.
    const byLabel = newest ? (joinedAsWished(pace, newest, wished) ?? joinedAsWished({ ...pace, nights: null }, newest, wished)!) : firstAsWished(pace, wished, context.startMin);
    keeps &&= byLabel.starts === wish.starts && byLabel.route === wish.route;
    const { scheduled, judged, then } = pouredOn(pile, pace, byLabel, { slice, cures: best.pours[i + 1]?.route !== 'wet-on-tacky' });
    pile = then;
    const deep = tooDeep(slice, judged);
    const stuck = deep && slice.toMm - slice.fromMm <= thinnestForHeatMm(slice.formula) + ROUNDING_MM;
    if (judged) learned.push([lessonKey(wish.layer, slice.formula.id), lessonOf(pace, slice, judged, scheduled)]);
    awake &&= nightOver(pace.nights, scheduled.starts, scheduled.opens) === null;
    keeps &&= (!deep || stuck) && awake;
    pours.push({ slice, judged, stuck: stuck ? 'thinner would not do' : null });
    times.push(scheduled);
  });
  const loose = solids.filter(({ placement, floats, safeLockMm }) => floats && placement.hold !== 'thread' && isLoose(placement.baseMm, safeLockMm!, slices.map(({ toMm }) => toMm)));
  const laid = { pours, schedule: finishOf(pace, times, pile.planes), layers, unlockable: loose.map(({ placement }) => placement.id), crowded: [] };
  return { laid, awake, learned: keeps ? [] : learned };
}

function slicesOf(scene: Scene, best: BestPlan, layers: readonly LayerAt[], { solids, prepared }: LayContext): Slice[] {
  const tops = best.pours.map(({ toMm }) => toMm);
  const floaters = solids.filter(({ floats, placement }) => floats && placement.hold !== 'thread');
  return best.pours.map((pour): Slice => {
    const layerAt = layers[pour.layer];
    const inLayer = best.pours.filter(({ layer }) => layer === pour.layer);
    const locks = floaters.filter(({ placement }) => firstTopAbove(placement.baseMm, tops) === pour.toMm).map(({ placement }) => placement.id);
    return {
      layerAt,
      fromMm: pour.fromMm,
      toMm: pour.toMm,
      formula: scene.formulas.get(pour.formula.id)!,
      part: { depthMm: layerAt.toMm - layerAt.fromMm, pours: inLayer.length, place: inLayer.indexOf(pour) + 1 },
      locking: locks.length > 0 && pour.toMm !== layerAt.toMm,
      locks,
      limitMm: prepared.problem.layers[pour.layer].options.find(({ formula }) => formula.id === pour.formula.id)!.limitMm,
    };
  });
}

function isLoose(baseMm: number, safeLockMm: number, tops: readonly number[]): boolean {
  const top = firstTopAbove(baseMm, tops);
  return top !== undefined && top - baseMm > safeLockMm + ROUNDING_MM;
}

interface Wished {
  readonly formula: Formula;
  /** Painted on what lies below it. */
  readonly planes: readonly Plane[];
  readonly wish: BestPour;
}

function firstAsWished(pace: Pace, { formula, planes, wish }: Wished, startMin: number): ScheduledPour {
  const first = firstPour(pace, { formula, planes }, startMin)!;
  return wish.starts <= first.starts ? first : pourAt(pace, formula, wish.starts, { route: null, before: first.before });
}

/** The pour as the search had it, or, where what lies below was moved by heat, as early as that allows. Null as in `pourOn`. */
function joinedAsWished(pace: Pace, below: PourTimes, { formula, planes, wish }: Wished): ScheduledPour | null {
  const { calendar, pourMin, watchedMin, scuffMin, leadMin } = pace;
  // The formula of the wish is as slow as heat has taught.
  const next = { formula, planes, opens: (starts: number) => opensAt(pace.scene, wish.formula, starts + pourMin) };
  const fit = fitOf(pace, next);
  if (planes.length > 0) {
    const before = scuffPaintDry(calendar, planes, Math.max(below.paintable, below.scuffable), scuffMin);
    const starts = fit(watchedMin, Math.max(before.dry!.to, wish.starts));
    return starts === null ? null : pourAt(pace, formula, starts, { route: 'cure-scuff-wipe', before });
  }
  if (wish.route === 'wet-on-tacky') {
    const inWindow = wish.starts >= below.opens && wish.starts + pourMin <= below.closes;
    return inWindow ? pourAt(pace, formula, wish.starts, { route: 'wet-on-tacky' }) : pourOn(pace, below, next);
  }
  const scuffed = scuffThenPour(pace, Math.max(below.scuffable, scuffsTogether(pace) ? wish.starts - leadMin : -Infinity), fit);
  const starts = scuffed && fit(watchedMin, Math.max(scuffed.starts, wish.starts));
  return starts === null ? null : pourAt(pace, formula, starts, { route: 'cure-scuff-wipe', before: { ...NOTHING, scuff: scuffed!.scuff } });
}

function scuffsTogether({ calendar, leadMin, watchedMin }: Pace): boolean {
  return calendar.fit(leadMin + watchedMin, 0) !== null;
}
