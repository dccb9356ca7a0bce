/** A plan of the search laid out as pours in time, each judged by the heat model on what really lies below it. */
import { warmedMixC } from '../../cure/mixed-at.ts';
import type { Formula, Plane, Room, Scene } from '../../scene/scene.ts';
import type { Displacement } from '../../solid/displacement.ts';
import type { Span } from '../bench-calendar.ts';
import { stayUntil } from '../box/stays.ts';
import { timedPour } from '../box/timed.ts';
import type { HeatSoFar } from '../heat-judge.ts';
import type { Laid, LaidPour, LayRequest } from '../heat-rounds.ts';
import type { LayerAt } from '../layers.ts';
import { finishOf, firstPour, paintAndDry, pourOn, scuffPaintDry, scuffThenPour, timesAt, type Pace, type PourTimes, type ScheduledPour } from '../schedule.ts';
import type { Slice } from '../slices.ts';
import { firstTopAbove } from '../split.ts';
import { thinnestForHeatMm } from '../thinnest.ts';
import type { BestPlan, BestPour, Prepared } from './best-plan.ts';
import { lessonKey, type Lesson } from './from-scene.ts';
import { lessonOf, tooDeep } from './lessons.ts';

/** Depths that were halved and added carry noise far below this, mm. */
const ROUNDING_MM = 1e-9;

export interface BestLaid extends Laid {
  /** The scene's layers, each in the formula chosen for it. */
  readonly layers: readonly LayerAt[];
  readonly prepared: Prepared;
}

export interface BestRequest extends LayRequest {
  readonly displacement: Displacement;
}

export interface LayContext extends BestRequest {
  readonly prepared: Prepared;
}

export interface Outcome {
  readonly laid: Omit<BestLaid, 'prepared'>;
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
  let stays: readonly Span[] = [];
  let soFar: HeatSoFar | null = heat?.begin(scene.mold, scene.room) ?? null;
  best.pours.forEach((wish, i) => {
    const slice = slices[i];
    const planes = i > 0 && best.pours[i - 1].layer !== wish.layer ? prepared.problem.layers[best.pours[i - 1].layer].planes : [];
    const below = times[i - 1];
    const byLabel = below ? joinedAsWished(pace, below, { formula: slice.formula, planes, wish }) : firstAsWished(pace, slice.formula, { floor: prepared.problem.floor, startMin: context.startMin, wish });
    keeps &&= byLabel.starts === wish.starts && byLabel.route === wish.route;
    const [on, { formula }, mixC] = [soFar, slice, warmedMixC(scene, byLabel.starts)];
    const judge = on && ((room?: Room) => on.pour({ fromMin: byLabel.starts, depthMm: slice.toMm - slice.fromMm, formula, family: heat!.familyOf(formula), mixC, room }));
    const stay = below && byLabel.before.scuff.length > 0 ? stayUntil(pace, below, byLabel.before.scuff[0].from) : null;
    if (stay) stays = [...stays, stay];
    const { scheduled, judged } = timedPour(pace, byLabel, { judge, stays, cures: best.pours[i + 1]?.route !== 'wet-on-tacky' });
    if (judged) soFar = judged.then;
    const stuck = judged !== null && tooDeep(slice, judged) && slice.toMm - slice.fromMm <= thinnestForHeatMm(slice.formula) + ROUNDING_MM;
    if (judged) learned.push([lessonKey(wish.layer, slice.formula.id), lessonOf(pace, slice, judged, scheduled)]);
    if (judged && tooDeep(slice, judged) && !stuck) keeps = false;
    pours.push({ slice, judged, stuck: stuck ? 'thinner would not do' : null });
    times.push(scheduled);
  });
  const topPlanes = prepared.problem.layers[layers.length - 1].planes;
  const loose = solids.filter(({ placement, floats, safeLockMm }) => floats && placement.hold !== 'thread' && isLoose(placement.baseMm, safeLockMm!, slices.map(({ toMm }) => toMm)));
  const laid = { pours, schedule: finishOf(pace, times, topPlanes), layers, unlockable: loose.map(({ placement }) => placement.id), crowded: [] };
  return { laid, learned: keeps ? [] : learned };
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

function firstAsWished(pace: Pace, formula: Formula, { floor, startMin, wish }: { readonly floor: readonly Plane[]; readonly startMin: number; readonly wish: BestPour }): ScheduledPour {
  const first = firstPour(pace, formula, floor, startMin)!;
  const before = floor.length > 0 ? paintAndDry(pace.calendar, floor, startMin) : first.before;
  return wish.starts <= first.starts ? first : at(pace, formula, wish.starts, { route: null, before });
}

/** The pour as the search had it, or, where what lies below was moved by heat, as early as that allows. */
function joinedAsWished(pace: Pace, below: PourTimes, { formula, planes, wish }: { readonly formula: Formula; readonly planes: readonly Plane[]; readonly wish: BestPour }): ScheduledPour {
  const { calendar, pourMin, watchedMin, scuffMin, leadMin } = pace;
  const nothing = { planes: [], scuff: [], paint: [], dry: null };
  if (planes.length > 0) {
    const before = scuffPaintDry(calendar, planes, Math.max(below.paintable, below.scuffable), scuffMin);
    return at(pace, formula, calendar.fit(watchedMin, Math.max(before.dry!.to, wish.starts))!, { route: 'cure-scuff-wipe', before });
  }
  if (wish.route === 'wet-on-tacky') {
    const inWindow = wish.starts >= below.opens && wish.starts + pourMin <= below.closes;
    return inWindow ? at(pace, formula, wish.starts, { route: 'wet-on-tacky', before: nothing }) : pourOn(pace, below, formula, planes);
  }
  const { scuff, starts } = scuffThenPour(calendar, Math.max(below.scuffable, scuffsTogether(pace) ? wish.starts - leadMin : -Infinity), scuffMin, watchedMin, leadMin);
  return at(pace, formula, Math.max(starts, calendar.fit(watchedMin, Math.max(starts, wish.starts))!), { route: 'cure-scuff-wipe', before: { ...nothing, scuff } });
}

function scuffsTogether({ calendar, leadMin, watchedMin }: Pace): boolean {
  return calendar.fit(leadMin + watchedMin, 0) !== null;
}

function at(pace: Pace, formula: Formula, starts: number, rest: Pick<ScheduledPour, 'route' | 'before'>): ScheduledPour {
  const label = timesAt(pace, formula, starts);
  return { ...label, ...rest, formula, missedWindow: false, label };
}
