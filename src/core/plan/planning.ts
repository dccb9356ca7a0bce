/**
 * Planning, by what it is given: solids → displacement → layers → pours → times → findings, and what is told of them.
 * plan-scene.ts has it whole; a page's first look leaves the telling for later.
 */
import { roomAt } from '../cure/equivalent-time.ts';
import { warmedMixC } from '../cure/mixed-at.ts';
import { completeFormula, mixOf } from '../resin/formula.ts';
import type { Formula, Scene, SolidPlacement } from '../scene/scene.ts';
import { STOP_TOLERANCE_MM } from '../scene/tolerance.ts';
import { displacementOf, type Displacement } from '../solid/displacement.ts';
import { moldVolumeBelow } from '../solid/mold.ts';
import { insideMold } from '../solid/mold-inside.ts';
import type { ReachingSolid } from '../solid/mold-clip.ts';
import { poseSolid } from '../solid/pose.ts';
import { SolidError, type Booleans, type MeshReading, type TriangleMesh } from '../solid/solid.ts';
import { formatLocalTime, parseLocalTime, upToMinute } from '../units/time.ts';
import { ASSUMED_START } from '../units/when.ts';
import type { Planned, PlannedPour, SolidAt } from './context.ts';
import { findingsOf } from './findings.ts';
import { floatingOf } from './floating.ts';
import type { HeatJudge } from './heat-judge.ts';
import { layPours, type Laid, type LaidPour } from './heat-rounds.ts';
import { contentOf, layersOf, type LayerAt } from './layers.ts';
import type { Prepared } from './best/best-plan.ts';
import { deepestOf, fillsOf, withDensest } from './best/formulas.ts';
import { latestOnTacky } from './best/latest.ts';
import type { GoalSearch } from './best/goal-search.ts';
import type { BestRequest } from './best/lay-plan.ts';
import { mixFor } from './mix.ts';
import type { Finding, PlacementResult, Plan, PlanResult, Pour, PourTint } from './plan.ts';
import { opensAt, paceOf, pouringFor, type Schedule } from './schedule.ts';
import type { HeldPlan } from './runs/hold.ts';
import { planRun } from './runs/run.ts';
import { NO_AWAKE_HOURS } from './sleep.ts';
import type { Slice } from './slices.ts';
import { fewestPours } from './split.ts';
import { floorPlanes } from './stops.ts';
import type { Telling } from './telling.ts';
import { tintsOf } from './tints.ts';
import { startingInTime, type StartedPlan } from './wanted-start.ts';

const MM3_PER_ML = 1000;
const NO_CHANGES = { quickDrying: null, longerDay: null, longerEvenings: null, wanted: null } as const;
/** Far beyond any piece; a slip in a depth would ask for a million. */
const MOST_POURS = 500;

export interface Given {
  /** Meshes of `mesh` and `library` placements, by placement id: mm, z up, unposed. */
  readonly meshes: ReadonlyMap<string, MeshReading>;
  readonly booleans: Booleans;
  /** Findings of reading (unknown fields). */
  readonly notes?: readonly Finding[];
  /** Minutes since 2000-01-01T00:00; wins over the scene's own start. */
  readonly startMin?: number;
  /** Judges the heat of a scene that simulates it (heat-simulated.ts); null: nobody does, and the label alone counts. */
  readonly heat: HeatJudge | null;
  /** Says what is told of a plan (telling.ts). Null: reasons, steps, cautions, shopping and cost are left out; heat can't be judged without it. */
  readonly telling: Telling | null;
  /** Looks for other plans than the even one (best/goal-search.ts); a scene that has another goal can't be planned without it. */
  readonly search?: GoalSearch;
  /** Says what every goal's plan would come to; takes a search for each. */
  readonly compare?: boolean;
  /** Puts a solid in its place; one that remembers makes replanning quick. `poseSolid` by default. */
  readonly pose?: (placement: SolidPlacement, mesh: TriangleMesh | undefined) => ReachingSolid;
  /** Times and cups that were found among other pieces (runs/hold.ts); its lines stay as they are. */
  readonly held?: HeldPlan;
}

/** Plans a scene, or says by path why it can't be: a pour that fits no bench hours, a mold without room, hundreds of pours. */
export function planGiven(scene: Scene, given: Given): PlanResult {
  try {
    return planRun(scene, (paced) => planned(paced, given));
  } catch (error) {
    if (error instanceof SolidError) return refused('placements', error.message);
    throw error;
  }
}

function planned(scene: Scene, given: Given): PlanResult {
  const { startMin, readyByMin } = scene.bench;
  const said = given.startMin ?? startMin;
  if (said === undefined && readyByMin !== undefined && given.telling && !given.held && !scene.class) {
    const inTime = startingInTime(readyByMin, (from) => plannedFrom(scene, { ...given, compare: false }, { startMin: from, startIs: 'latest' }));
    if (inTime?.ok && given.compare) return plannedFrom(scene, given, { startMin: parseLocalTime(inTime.plan.pours[0].starts)!, startIs: 'latest' }).result;
    if (inTime) return inTime;
  }
  return plannedFrom(scene, given, { startMin: said ?? parseLocalTime(ASSUMED_START)!, startIs: said === undefined ? 'assumed' : 'said' }).result;
}

/** Minutes since 2000-01-01T00:00, and whether it was said, is the latest that has the piece done in time, or nothing is known of it. */
interface Start {
  readonly startMin: number;
  readonly startIs: Planned['startIs'];
}

function plannedFrom(scene: Scene, given: Given, start: Start): StartedPlan {
  const refusedAs = (result: Extract<PlanResult, { ok: false }>): StartedPlan => ({ result, latestStartMin: null });
  const solids = solidsOf(withDensest(scene), given);
  const displacement = displacementBy(scene, solids, given);
  const layers = layersOf(scene, displacement);
  if (layers.length === 0) return refusedAs(refused('placements', 'beds fill the whole mold up to the top; expected room for resin. Lower the beds or fill higher.'));
  const count = layers.reduce((sum, layer) => sum + fewestPours(layer.toMm - layer.fromMm, deepestOf(scene, layer.formula)), 0);
  if (count > MOST_POURS) return refusedAs(refused('fills', `asks for ${count} pours; expected at most ${MOST_POURS}. Check maxDepthMm and the heights: are they in millimeters?`));

  const startMin = upToMinute(start.startMin);
  const judge = scene.heatModel === 'label' ? null : given.heat;
  const heat = judge && given.search ? given.search.remembering(judge) : judge;
  const laying = { layers, solids, startMin, heat };
  let laidEven: Laid | null | undefined;
  const even = () => (laidEven === undefined ? (laidEven = layPours(scene, laying)) : laidEven);
  const request = { ...laying, displacement, even };
  const asked = layFor(scene, request, given.search);
  if (!asked.ok) return refusedAs(asked);
  const meeting = given.held ? null : (given.telling?.classHeld(scene, asked.laid, { layers: asked.layers, heat, startMin }) ?? null);
  const held = given.held ?? meeting;
  const found = { ...asked, laid: meeting?.laid ?? given.held?.laid(scene, asked.laid, heat) ?? asked.laid };
  if (found.laid.pours.length > MOST_POURS) return refusedAs(refused('plan.goal', `asks for ${found.laid.pours.length} pours; expected at most ${MOST_POURS}. Choose another goal, or a greater minDepthMm.`));
  const used = { ...scene, fills: fillsOf(scene, found.layers) };
  const goals = given.compare && given.search && !meeting ? given.search.comparePlans(scene, request, { goal: scene.plan.goal, ...found }) : null;
  const made = { ...madeOf(used, { ...given, cups: held?.cups }, { ...request, ...found }), startIs: start.startIs, meeting: meeting?.told };
  return { result: written(made, given, goals), latestStartMin: made.wanted?.latestStartMin ?? null };
}

/** What was laid, with the layers as they are poured. */
interface Laying {
  readonly laid: Laid;
  readonly layers: readonly LayerAt[];
  /** Null: the even plan. */
  readonly prepared: Prepared | null;
}

function layFor(scene: Scene, request: BestRequest, search?: GoalSearch): ({ readonly ok: true } & Laying) | Extract<PlanResult, { ok: false }> {
  const { goal } = scene.plan;
  const { calendar, watchedMin } = paceOf(scene);
  if (calendar.fit(watchedMin, request.startMin) === null) return noBenchHours(scene);
  if (goal === 'even') {
    const laid = request.even();
    return laid ? { ok: true, laid, layers: request.layers, prepared: null } : { ok: false, problems: [NO_AWAKE_HOURS] };
  }
  if (!search) throw new Error(`The goal “${goal}” needs its search; found none.`);
  const found = search.layBest(scene, goal, request);
  return found.ok ? { ok: true, laid: found.laid, layers: found.laid.layers, prepared: found.laid.prepared } : { ok: false, problems: [search.noPlanProblem(scene, request.layers, found.why)] };
}

function noBenchHours(scene: Scene): Extract<PlanResult, { ok: false }> {
  const needH = scene.bench.pourH + scene.bench.watchH;
  return refused('bench.hours', `found no ${needH} h at a stretch; expected at least one stretch that long, for a pour and its watching. Lengthen the bench hours, or shorten pouring or watching.`);
}

function madeOf(scene: Scene, given: Given & { readonly cups?: HeldPlan['cups'] }, { laid, layers, prepared, startMin, heat, displacement, ...request }: BestRequest & Laying): Omit<Planned, 'startIs'> {
  const solids = scene.plan.formulas === null ? request.solids : solidsOf(scene, given);
  const whenPoured = displacementWhenPoured(scene, solids, displacement, given);
  const tints = tintsOf(scene, laid.pours.map(({ slice }) => slice));
  const pours = laid.pours.map((pour, i) => pourOf(pour, laid.schedule, { index: i + 1, tint: tints[i], scene, displacement, whenPoured: whenPoured(pour.slice), heat, telling: given.telling, cups: given.cups }));
  const onThreads = solids.filter((solid) => solid.floats && solid.placement.hold === 'thread').map((solid) => solid.placement.id);
  return {
    scene, solids, displacement, layers, pours,
    schedule: laid.schedule,
    goal: scene.plan.goal,
    startMin,
    heat,
    unlockable: [...onThreads, ...laid.unlockable],
    crowded: laid.crowded,
    ...((given.cups ? null : given.telling)?.changesOf(scene, given, { laid, floor: floorPlanes(scene, layers[0].fromMm), startMin, prepared }) ?? NO_CHANGES),
  };
}

function solidsOf(scene: Scene, given: Given): SolidAt[] {
  const { pose = (placement, mesh) => poseSolid(placement.shape, placement, mesh) } = given;
  return scene.placements.filter((placement): placement is SolidPlacement => placement.kind !== 'plane').map((placement) => {
    const reading = given.meshes.get(placement.id) ?? null;
    const broken = reading !== null && reading.volumeErrorFraction === null;
    const solid = broken ? null : pose(placement, reading?.mesh);
    const counted = solid && placement.kind === 'bed' ? insideMold(scene.mold, solid, given.booleans) : (solid?.profile ?? null);
    return { placement, reading, solid, ...floatingOf(scene, placement, counted) };
  });
}

function displacementBy(scene: Scene, solids: readonly SolidAt[], { booleans }: Given): Displacement {
  return displacementOf({
    mold: scene.mold,
    fillMm: scene.fillMm,
    booleans,
    solids: solids.flatMap(({ placement, solid }) =>
      solid ? [{ id: placement.id, kind: placement.kind, voidFraction: placement.kind === 'bed' ? placement.voidFraction : 0, solid }] : [],
    ),
  });
}

/** What is in the way while a pour still stands above its top: not the figures that are set down on it later. */
function displacementWhenPoured(scene: Scene, solids: readonly SolidAt[], all: Displacement, given: Given): (slice: Slice) => Displacement {
  const known = new Map([[solids.length, all]]);
  return ({ toMm, formula }) => {
    if (formula.shrinkageFraction === 0) return all;
    const there = solids.filter(({ placement }) => placement.hold !== 'rests' || placement.baseMm < toMm - STOP_TOLERANCE_MM);
    const found = known.get(there.length) ?? displacementBy(scene, there, given);
    known.set(there.length, found);
    return found;
  };
}

interface PourParts {
  readonly index: number;
  readonly tint: PourTint | null;
  readonly scene: Scene;
  readonly displacement: Displacement;
  readonly whenPoured: Displacement;
  readonly heat: HeatJudge | null;
  readonly telling: Telling | null;
  readonly cups?: HeldPlan['cups'];
}

function pourOf({ slice, judged, stuck }: LaidPour, schedule: Schedule, { index, tint, scene, displacement, whenPoured, heat, telling, cups }: PourParts): PlannedPour {
  const { layerAt, fromMm, toMm, formula } = slice;
  const times = schedule.pours[index - 1];
  const pace = pouringFor(paceOf(scene), times.ends - times.starts);
  const latest = times.route === 'wet-on-tacky' ? latestOnTacky(pace, schedule.pours[index - 2], (starts) => opensAt(scene, formula, starts + pace.pourMin) + times.opens - times.label.opens) : null;
  const content = contentOf(scene.mold, displacement, fromMm, toMm);
  const roomC = roomAt(scene.room, times.starts);
  const mixC = warmedMixC(scene, times.starts);
  const mixedOf = (used: Formula, copies = scene.run.copies) => mixFor({
    netMl: content.netMl,
    formula: used,
    mix: mixOf(used),
    bench: scene.bench,
    tintPercent: tint?.percent ?? 0,
    run: { ...scene.run, copies },
    roomC,
    mixC,
    heat,
  });
  const mixed = cups?.(index - 1, (copies) => mixedOf(formula, copies)) ?? mixedOf(formula);
  const hotCups = (id: string) => mixedOf(scene.formulas.get(id) ?? completeFormula({ id })).batches[0].heat?.hot === true;
  const levelMm = formula.shrinkageFraction === 0 ? toMm : whenPoured.levelForFree(fromMm, content.netMl / (1 - formula.shrinkageFraction));
  const pour: PlannedPour = {
    index,
    layer: layerAt.index,
    fromMm,
    toMm,
    depthMm: toMm - fromMm,
    formula: formula.id,
    ...content,
    ...mixed,
    fillMarkFromRimMm: scene.mold.heightMm - levelMm,
    starts: formatLocalTime(times.starts),
    ends: formatLocalTime(times.ends),
    opens: formatLocalTime(times.opens),
    closes: formatLocalTime(times.closes),
    scuffable: formatLocalTime(times.scuffable),
    paintable: formatLocalTime(times.paintable),
    demold: formatLocalTime(times.demold),
    route: times.route,
    locks: slice.locks,
    tint,
    heat: judged && heat ? toldBy(telling).pourHeat(judged, { depthMm: toMm - fromMm, times, roomC, hotCups, model: heat.model }) : null,
    why: '',
    latestStart: latest === null ? null : formatLocalTime(latest),
    ...(times.box && { box: { from: formatLocalTime(times.box.from), to: formatLocalTime(Math.min(times.box.to, schedule.finish)) } }),
    ...(mixC !== undefined && { mixC }),
    layerAt,
    part: slice.part,
    limitMm: slice.limitMm,
    locking: slice.locking,
    formulaUsed: formula,
    stuck,
  };
  return pour;
}

function toldBy(telling: Telling | null): Telling {
  if (!telling) throw new Error('Heat was judged, and there is no telling of what it found.');
  return telling;
}

/** The plan as it is given out. */
function written(planned: Planned, { telling, notes = [] }: Given, goals: Plan['goals']): PlanResult {
  const { scene, layers, pours, solids, schedule, heat } = planned;
  const finished = telling?.finishingOf(planned) ?? null;
  if (finished && 'ok' in finished) return finished;
  const coats = finished?.plan.coats ?? [];
  const findings = findingsOf(planned, { heat: telling?.heatFindings(planned) ?? [], calendar: telling?.calendarFindings(planned) ?? [], notes: [...(telling?.placeFindings(planned) ?? []), ...((planned.meeting && telling?.classFindings(scene, planned.meeting)) ?? []), ...(finished?.findings ?? []), ...notes] });
  const done = telling?.stepsOf(planned, findings, finished?.steps) ?? [];
  const steps = (planned.meeting && telling?.classSteps(scene, { told: planned.meeting, pours, findings }, done)) ?? done;
  const shopping = telling?.shoppingOf(scene, [...pours, ...coats]) ?? [];
  const plan: Plan = {
    scene: scene.name,
    mold: {
      capacityMl: moldVolumeBelow(scene.mold, scene.mold.heightMm) / MM3_PER_ML,
      fillVolumeMl: moldVolumeBelow(scene.mold, scene.fillMm) / MM3_PER_ML,
      finishedG: finishedGrams(pours, solids),
    },
    placements: solids.map(placementResult),
    layers: layers.map(({ top: _top, asked: _asked, ...layer }) => layer),
    pours: pours.map((pour) => withoutWorkings(pour, telling?.whyOf(planned, pour) ?? '')),
    steps,
    finish: formatLocalTime(schedule.finish),
    shopping,
    cost: telling?.costOf(scene, { shopping, steps, pours: pours.length + coats.length, finishH: finished?.plan.handsH ?? 0 }) ?? null,
    cautions: telling?.cautionsFor(heat !== null, scene.room.box !== undefined) ?? [],
    findings,
    ...(finished && { ready: finished.plan.ready, finishing: finished.plan }),
    copies: scene.run.copies,
    ...(planned.meeting && { class: planned.meeting }),
    goal: planned.goal,
    goals,
  };
  return { ok: true, plan };
}

function withoutWorkings(pour: PlannedPour, why: string): Pour {
  const { layerAt: _layer, part: _part, limitMm: _limit, locking: _locking, formulaUsed: _formula, stuck: _stuck, ...given } = pour;
  return { ...given, why };
}

function placementResult({ placement, reading, solid, massG, liftG, floats, safeLockMm, steelG }: SolidAt): PlacementResult {
  return {
    id: placement.id,
    kind: placement.kind,
    name: placement.name,
    volumeMl: solid ? solid.profile.volumeMm3 / MM3_PER_ML : null,
    watertight: reading?.watertight ?? true,
    massG,
    liftG,
    floats,
    safeLockMm,
    steelG,
    baseMm: placement.baseMm,
    topMm: solid?.bounds.max[2] ?? placement.baseMm,
  };
}

function finishedGrams(pours: readonly PlannedPour[], solids: readonly SolidAt[]): number | null {
  let total = 0;
  for (const pour of pours) total += (pour.netMl / (1 - pour.formulaUsed.shrinkageFraction)) * mixOf(pour.formulaUsed).densityGPerMl;
  for (const { massG } of solids) {
    if (massG === null) return null;
    total += massG;
  }
  return total;
}

function refused(path: string, message: string): Extract<PlanResult, { ok: false }> {
  return { ok: false, problems: [{ path, message }] };
}

