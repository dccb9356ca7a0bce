/** Stops, layers and the split into pours: where every top must be, which formula, how deep, how much. */

import { fillAt, type FormulaFacts, type SceneFacts } from './check-scene.ts';
import { moldBetween } from './check-solids.ts';
import { CLIPPED_REL, HEIGHT_MM, MERGE_MM, near, VOLUME_REL, type LayerJson, type PlanJson, type PourJson, type Report } from './check-types.ts';

export interface StopFacts {
  readonly atMm: number;
  /** `kind:id` or `kind` alone. */
  readonly causes: readonly string[];
}

/** A layer under this share of the least depth is a halt. */
const HALT_SHARE = 0.6;
/** Comparisons of heights that were summed in a different order, mm. */
const SAME_MM = 1e-9;

export function checkStops(facts: SceneFacts, plan: PlanJson, report: Report): void {
  const stops = stopsOf(facts);
  if (plan.layers.length !== stops.length) {
    report(`${plan.layers.length} layers where the stops ask for ${stops.length} (tops ${stops.map((s) => s.atMm).join(', ')})`);
    return;
  }
  const opensAt = openHeight(facts);
  stops.forEach((stop, i) => {
    const layer = plan.layers[i];
    const from = i === 0 ? opensAt : stops[i - 1].atMm;
    if (layer.index !== i + 1) report(`layer ${i + 1} is numbered ${layer.index}`);
    if (Math.abs(layer.fromMm - from) > HEIGHT_MM) report(`layer ${i + 1} starts at ${layer.fromMm} mm where ${from} is expected`);
    if (Math.abs(layer.toMm - stop.atMm) > HEIGHT_MM) report(`layer ${i + 1} ends at ${layer.toMm} mm where the stop is at ${stop.atMm}`);
    const found = layer.stops.map((s) => (s.id === undefined ? s.kind : `${s.kind}:${s.id}`)).sort();
    const expected = [...stop.causes].sort();
    if (found.join() !== expected.join()) report(`layer ${i + 1} stops for ${found.join(', ')} where ${expected.join(', ')} is expected`);
  });
}

/** Every plane, base set down on a surface, fill boundary and the top; within 0.05 mm they are one stop at the lowest. */
export function stopsOf(facts: SceneFacts): StopFacts[] {
  const wanted: { at: number; cause: string }[] = [];
  for (const plane of facts.planes) wanted.push({ at: plane.atMm, cause: `plane:${plane.id}` });
  for (const solid of facts.solids) {
    if (solid.hold === 'rests' && solid.baseMm <= facts.fillMm + MERGE_MM) wanted.push({ at: solid.baseMm, cause: `figure:${solid.id}` });
  }
  facts.fills.forEach((fill, i) => wanted.push({ at: fill.toMm, cause: i === facts.fills.length - 1 ? 'top' : 'fill' }));
  const open = wanted.filter((w) => w.at > openHeight(facts) + MERGE_MM + SAME_MM).sort((a, b) => a.at - b.at);
  const stops: { atMm: number; causes: string[] }[] = [];
  for (const w of open) {
    const last = stops[stops.length - 1];
    if (last && w.at - last.atMm <= MERGE_MM + SAME_MM) last.causes.push(w.cause);
    else stops.push({ atMm: w.at, causes: [w.cause] });
  }
  return stops;
}

/** The height where the mold's section first opens: the floor, or the top of a bed that fills the section. */
export function openHeight(facts: SceneFacts): number {
  let at = 0;
  for (const bed of facts.solids) if (bed.closes && bed.baseMm <= at) at = Math.max(at, bed.topMm);
  return at;
}

export function checkVolumes(facts: SceneFacts, plan: PlanJson, report: Report): void {
  for (const layer of plan.layers) checkSpan(facts, layer, `layer ${layer.index}`, report);
  for (const pour of plan.pours) checkSpan(facts, pour, `pour ${pour.index}`, report);
  const capacity = moldBetween(facts.mold, 0, facts.mold.heightMm) / 1000;
  const filled = moldBetween(facts.mold, 0, facts.fillMm) / 1000;
  if (!near(plan.mold.capacityMl, capacity, VOLUME_REL)) report(`mold capacity ${plan.mold.capacityMl} mL where ${capacity} is expected`);
  if (!near(plan.mold.fillVolumeMl, filled, VOLUME_REL)) report(`fill volume ${plan.mold.fillVolumeMl} mL where ${filled} is expected`);
}

function checkSpan(facts: SceneFacts, span: LayerJson | PourJson, name: string, report: Report): void {
  const gross = moldBetween(facts.mold, span.fromMm, span.toMm) / 1000;
  const displaced = displacedMl(facts, span.fromMm, span.toMm);
  const tolerance = volumeTolerance(facts);
  if (!near(span.grossMl, gross, VOLUME_REL)) report(`${name} gross ${span.grossMl} mL where ${gross} is expected`);
  if (!near(span.displacedMl, displaced, tolerance, gross)) report(`${name} displaced ${span.displacedMl} mL where ${displaced} is expected`);
  if (!near(span.netMl, gross - displaced, tolerance, gross)) report(`${name} net ${span.netMl} mL where ${gross - displaced} is expected`);
  if (!near(span.netMl + span.displacedMl, span.grossMl, 1e-9)) report(`${name} net + displaced = ${span.netMl + span.displacedMl} mL, not its gross ${span.grossMl}`);
}

/** Where walls clip a bed, a planner may cut meshes; then only what the contract's walls must keep holds. */
function volumeTolerance(facts: SceneFacts): number {
  return facts.solids.some((s) => s.clipped) ? CLIPPED_REL : VOLUME_REL;
}

function displacedMl(facts: SceneFacts, fromMm: number, toMm: number): number {
  return facts.solids.reduce((sum, s) => sum + s.below(toMm) - s.below(fromMm), 0) / 1000;
}

export function checkFormulas(facts: SceneFacts, plan: PlanJson, report: Report): void {
  for (const layer of plan.layers) {
    const expected = fillAt(facts, (layer.fromMm + layer.toMm) / 2).formula;
    if (layer.formula !== expected) report(`layer ${layer.index} is of ${layer.formula} where its fill is ${expected}`);
  }
  for (const pour of plan.pours) {
    const layer = plan.layers[pour.layer - 1];
    if (layer && pour.formula !== layer.formula) report(`pour ${pour.index} is of ${pour.formula} in a layer of ${layer.formula}`);
  }
}

/** Pours stack without a gap inside their layer, and each depth is its top minus its bottom. */
export function checkStack(plan: PlanJson, report: Report): void {
  let at = plan.layers[0]?.fromMm ?? 0;
  plan.pours.forEach((pour, i) => {
    if (pour.index !== i + 1) report(`pour ${i + 1} is numbered ${pour.index}`);
    if (Math.abs(pour.fromMm - at) > HEIGHT_MM) report(`pour ${pour.index} starts at ${pour.fromMm} mm where the one below ends at ${at}`);
    if (Math.abs(pour.depthMm - (pour.toMm - pour.fromMm)) > HEIGHT_MM) report(`pour ${pour.index} depth ${pour.depthMm} mm is not its top minus its bottom`);
    const layer = plan.layers[pour.layer - 1];
    if (!layer || pour.fromMm < layer.fromMm - HEIGHT_MM || pour.toMm > layer.toMm + HEIGHT_MM) report(`pour ${pour.index} is not inside layer ${pour.layer}`);
    at = pour.toMm;
  });
  for (const layer of plan.layers) {
    const last = plan.pours.filter((p) => p.layer === layer.index).at(-1);
    if (!last || Math.abs(last.toMm - layer.toMm) > HEIGHT_MM) report(`layer ${layer.index} is not poured up to its stop at ${layer.toMm} mm`);
  }
}

export function checkDepths(facts: SceneFacts, plan: PlanJson, report: Report): void {
  for (const pour of plan.pours) {
    const limit = facts.formulas.get(pour.formula)!.maxDepthMm;
    if (pour.toMm - pour.fromMm > limit + HEIGHT_MM) report(`pour ${pour.index} is ${pour.toMm - pour.fromMm} mm deep, over the ${limit} mm of ${pour.formula}`);
  }
}

/** A part of a layer is split into the fewest equal pours within the depth limit. */
export function equalTops(fromMm: number, toMm: number, formula: FormulaFacts): number[] {
  const count = Math.max(1, Math.ceil((toMm - fromMm) / formula.maxDepthMm - SAME_MM));
  return Array.from({ length: count }, (_, i) => fromMm + ((toMm - fromMm) * (i + 1)) / count);
}

/** Layers and pours under the least depth have their finding, and no others. */
export function checkThin(facts: SceneFacts, plan: PlanJson, report: Report): void {
  const findings = plan.findings.filter((f) => f.code === 'layer-too-thin');
  const thinLayers = new Set<number>();
  for (const pour of plan.pours) {
    const least = facts.formulas.get(pour.formula)!.minDepthMm;
    const depth = pour.toMm - pour.fromMm;
    if (depth >= least - SAME_MM) continue;
    thinLayers.add(pour.layer);
    const own = findings.filter((f) => f.pours?.includes(pour.index) || f.subject === `pour ${pour.index}` || f.subject === `layer ${pour.layer}`);
    if (own.length === 0) report(`pour ${pour.index} is ${depth} mm, under the ${least} mm of ${pour.formula}, and nothing says so`);
    if (Math.abs(depth - HALT_SHARE * least) < SAME_MM * 10) continue;
    const severity = depth < HALT_SHARE * least ? 'halt' : 'caution';
    if (own.length > 0 && !own.some((f) => f.severity === severity)) {
      report(`pour ${pour.index} is ${depth} mm against a least depth of ${least}: ${own[0].severity} where ${severity} is expected`);
    }
  }
  for (const finding of findings) {
    const layers = plan.pours.filter((p) => finding.pours?.includes(p.index) || finding.subject === `pour ${p.index}` || finding.subject === `layer ${p.layer}`);
    if (!layers.some((p) => thinLayers.has(p.layer))) report(`${finding.subject} is called too thin (${finding.message}) and is not`);
  }
}
