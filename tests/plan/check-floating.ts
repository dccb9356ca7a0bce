/** Lift, floating and locking: what would rise, how deep it may be covered at first, and which pour holds it down. */

import { limitsOf } from './check-heat.ts';
import { equalTops, openHeight } from './check-layers.ts';
import type { FormulaFacts, SceneFacts } from './check-scene.ts';
import type { Solid } from './check-solids.ts';
import { ARITHMETIC_REL, HEIGHT_MM, MERGE_MM, near, VOLUME_REL, type LayerJson, type PlacementOutJson, type PlanJson, type Report } from './check-types.ts';

/** Share of the depth at which it would rise that may be poured at once (contract). */
const SAFE_SHARE = 0.8;
/** Locking depths are whole multiples of this, mm (contract). */
const LOCK_STEP_MM = 0.5;
/** Depths are found by halving; the level's own noise, mm. */
const LEVEL_MM = 1e-6;
/** Lifts closer to nothing than this may be called either way, g. */
const EVEN_G = 1e-9;

export interface Floater {
  readonly id: string;
  readonly baseMm: number;
  readonly safeLockMm: number;
}

export function checkPlacements(facts: SceneFacts, plan: PlanJson, report: Report): void {
  for (const solid of facts.solids) {
    const found = plan.placements.find((p) => p.id === solid.id);
    if (!found) report(`${solid.id} is missing from the placements`);
    else {
      checkVolumeAndMass(facts, solid, found, report);
      if (solid.kind === 'figure') checkLift(facts, solid, found, plan, report);
    }
  }
}

function checkVolumeAndMass(facts: SceneFacts, solid: Solid, found: PlacementOutJson, report: Report): void {
  const whole = solid.volumeMm3 / 1000;
  if (!near(found.volumeMl, whole, VOLUME_REL) && !near(found.volumeMl, whole * solid.grains, VOLUME_REL)) {
    report(`${solid.id} has ${found.volumeMl} mL where ${whole} is expected`);
  }
  const mass = facts.masses.get(solid.id)!;
  const agrees = mass === null ? found.massG === null : found.massG !== null && near(found.massG, mass, VOLUME_REL);
  if (!agrees && solid.grains === 1) report(`${solid.id} weighs ${found.massG} g where ${mass} is expected`);
}

function checkLift(facts: SceneFacts, solid: Solid, found: PlacementOutJson, plan: PlanJson, report: Report): void {
  const mass = facts.masses.get(solid.id)!;
  const loose = ['rests', 'stands', 'thread'].includes(solid.hold);
  const unknown = plan.findings.some((f) => f.code === 'weight-unknown' && f.subject === solid.id);
  if (!loose && unknown) report(`${solid.id} is held (${solid.hold}) and is asked for its weight`);
  if (mass === null) {
    if (found.liftG !== null) report(`${solid.id} has no weight but a lift of ${found.liftG} g`);
    if (loose && !unknown) report(`${solid.id} has no weight, is not fastened, and nothing says so`);
    return;
  }
  if (loose && unknown) report(`${solid.id} weighs ${mass} g and is called of unknown weight`);
  const lifts = liquids(facts, solid).map((rho) => (rho * solid.below(facts.fillMm)) / 1000 - mass);
  if (found.liftG === null || !lifts.some((lift) => Math.abs(found.liftG! - lift) <= VOLUME_REL * (mass + solid.volumeMm3 / 1000))) {
    report(`${solid.id} lifts ${found.liftG} g where ${lifts.join(' or ')} is expected`);
    return;
  }
  checkFloats(facts, solid, found, plan, report);
}

function checkFloats(facts: SceneFacts, solid: Solid, found: PlacementOutJson, plan: PlanJson, report: Report): void {
  const lift = found.liftG!;
  if (Math.abs(lift) < EVEN_G) return;
  const free = solid.hold === 'rests' || solid.hold === 'stands' || solid.hold === 'thread';
  const floats = free && lift > 0;
  if (found.floats !== floats) report(`${solid.id} (${solid.hold}, lift ${lift} g) ${found.floats ? 'is said to float' : 'is not said to float'}`);
  const cannot = plan.findings.some((f) => f.code === 'cannot-lock' && f.subject === solid.id && f.severity === 'halt');
  if (solid.hold === 'thread') {
    if (floats !== cannot) report(`${solid.id} on a thread lifts ${lift} g and ${cannot ? 'is' : 'is not'} called impossible to lock`);
    return;
  }
  if (!floats) {
    if (found.safeLockMm !== null) report(`${solid.id} does not float and has a safe lock of ${found.safeLockMm} mm`);
    if (cannot) report(`${solid.id} does not float and is called impossible to lock`);
    return;
  }
  if (!plan.findings.some((f) => f.code === 'floats' && f.subject === solid.id && f.severity === 'caution')) report(`${solid.id} floats with ${lift} g and no caution says so`);
  const mass = facts.masses.get(solid.id)!;
  const safes = liquids(facts, solid).map((rho) => SAFE_SHARE * riseDepth(solid, mass, rho));
  if (found.safeLockMm === null || !safes.some((safe) => Math.abs(found.safeLockMm! - safe) <= LEVEL_MM * Math.max(1, safe))) {
    report(`${solid.id} safe lock ${found.safeLockMm} mm where ${safes.join(' or ')} is expected`);
  }
}

/** The densest mix it touches. A fill that only a merged stop's 0.05 mm brings into touch may be counted or not. */
function liquids(facts: SceneFacts, solid: Solid): number[] {
  return [...new Set([0, MERGE_MM].map((slack) => {
    const top = Math.min(solid.topMm, facts.fillMm);
    let from = openHeight(facts);
    let densest = 0;
    for (const fill of facts.fills) {
      if (Math.min(top, fill.toMm) - Math.max(solid.baseMm, from) > slack + HEIGHT_MM) densest = Math.max(densest, facts.formulas.get(fill.formula)!.mixedGPerMl);
      from = Math.max(from, fill.toMm);
    }
    return densest;
  }))];
}

/** Depth over its base at which the liquid carries it. */
function riseDepth(solid: Solid, massG: number, rho: number): number {
  let low = 0;
  let high = solid.topMm - solid.baseMm;
  for (let i = 0; i < 100; i++) {
    const middle = (low + high) / 2;
    if ((rho * solid.below(solid.baseMm + middle)) / 1000 < massG) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/** The floaters that lie loose, with the safe lock the plan states (checked above). */
function floatersOf(facts: SceneFacts, plan: PlanJson): Floater[] {
  return facts.solids.flatMap((solid) => {
    const found = plan.placements.find((p) => p.id === solid.id);
    const loose = solid.hold === 'rests' || solid.hold === 'stands';
    return loose && found?.floats && found.safeLockMm !== null ? [{ id: solid.id, baseMm: solid.baseMm, safeLockMm: found.safeLockMm }] : [];
  });
}

/**
 * Every layer is split as the locking rule says; where several bases pull at one layer, any split that keeps the limits stands.
 * `filmed`: what stands less than a merged stop's height below the layer. The contract does not say whether that film locks it.
 */
export function checkSplits(facts: SceneFacts, plan: PlanJson, report: Report): void {
  const floaters = floatersOf(facts, plan);
  if (facts.goal !== 'even') return checkChosenLines(facts, plan, { floaters, report });
  for (const layer of plan.layers) {
    const tops = plan.pours.filter((p) => p.layer === layer.index).map((p) => p.toMm);
    const formula = facts.formulas.get(layer.formula)!;
    const inside = floaters.filter((f) => f.baseMm > layer.fromMm - HEIGHT_MM && f.baseMm < layer.toMm - MERGE_MM - HEIGHT_MM);
    const filmed = floaters.filter((f) => f.baseMm <= layer.fromMm - HEIGHT_MM && f.baseMm >= layer.fromMm - MERGE_MM - HEIGHT_MM);
    const bases = new Set([...inside, ...filmed].map((f) => f.baseMm));
    const single = bases.size <= 1 && filmed.length === 0;
    const broken = limitsOf(facts, plan, layer.index, formula).map((limited) => {
      const problems: string[] = [];
      const told: Report = (problem) => problems.push(problem);
      if (single) checkSingleLock(layer, limited, inside, tops, plan, told);
      else checkSeveralLocks(layer, limited, { inside, filmed }, tops, plan, told);
      return problems;
    });
    if (broken.every((problems) => problems.length > 0)) broken[0].forEach(report);
  }
}

/** A goal's lines are free, but for pins, what is avoided and locks. Depths are checked for every plan. */
function checkChosenLines(facts: SceneFacts, plan: PlanJson, { floaters, report }: { readonly floaters: readonly Floater[]; readonly report: Report }): void {
  const tops = plan.pours.map((p) => p.toMm);
  const stops = plan.layers.map((layer) => layer.toMm);
  const open = plan.layers[0].fromMm;
  for (const pin of facts.pinsMm) if (pin > open + HEIGHT_MM && !tops.some((top) => Math.abs(top - pin) <= HEIGHT_MM)) report(`no line is at ${pin} mm, where one must be`);
  for (const top of tops) {
    const isFree = [...stops, ...facts.pinsMm].some((stop) => Math.abs(stop - top) <= HEIGHT_MM);
    const span = facts.avoid.find(({ fromMm, toMm }) => top >= fromMm - HEIGHT_MM && top <= toMm + HEIGHT_MM);
    if (!isFree && span) report(`a line is at ${top} mm, where none may be from ${span.fromMm} to ${span.toMm}`);
  }
  for (const floater of floaters) {
    const isLocked = !tops.some((top) => top > floater.baseMm + MERGE_MM + HEIGHT_MM) || locked(tops.filter((top) => top > floater.baseMm + MERGE_MM), floater.baseMm, floater.safeLockMm);
    if (!isLocked && !isCannot(plan, floater.id)) report(`${floater.id} at ${floater.baseMm} mm is not locked within ${floater.safeLockMm} mm by tops at ${tops.join(', ')}, and nothing says so`);
  }
}

function isCannot(plan: PlanJson, id: string): boolean {
  return plan.findings.some((f) => f.code === 'cannot-lock' && f.subject === id);
}

function checkSingleLock(layer: LayerJson, formula: FormulaFacts, floaters: readonly Floater[], tops: readonly number[], plan: PlanJson, report: Report): void {
  const equal = equalTops(layer.fromMm, layer.toMm, formula);
  let expected: number[] | null = equal;
  if (floaters.length > 0) {
    const base = floaters[0].baseMm;
    const safe = Math.min(...floaters.map((f) => f.safeLockMm));
    if (!locked(equal, base, safe)) expected = dividedTops(layer, formula, base, safe);
  }
  for (const floater of floaters) {
    const cannot = isCannot(plan, floater.id);
    if (expected !== null && cannot) report(`${floater.id} is called impossible to lock where tops at ${expected.join(', ')} would hold it`);
    if (expected === null && !cannot && !locked(tops, floater.baseMm, floater.safeLockMm)) report(`${floater.id} can't be locked within ${floater.safeLockMm} mm and nothing says so`);
  }
  const wanted = expected ?? equal;
  if (!sameTops(tops, wanted)) report(`layer ${layer.index} is poured to ${tops.join(', ')} mm where ${wanted.join(', ')} is expected`);
}

/** The first top above a base lies within the safe lock. */
function locked(tops: readonly number[], baseMm: number, safeMm: number): boolean {
  const first = tops.find((top) => top > baseMm + HEIGHT_MM);
  return first !== undefined && first - baseMm <= safeMm + HEIGHT_MM;
}

/** Divided at base + d, d the deepest step within the lock that leaves both parts their least depth; null where none does. */
function dividedTops(layer: LayerJson, formula: FormulaFacts, baseMm: number, safeMm: number): number[] | null {
  for (let k = Math.floor(safeMm / LOCK_STEP_MM + 1e-9); k >= 1; k--) {
    const at = baseMm + k * LOCK_STEP_MM;
    const enough = at - layer.fromMm >= formula.minDepthMm - HEIGHT_MM && layer.toMm - at >= formula.minDepthMm - HEIGHT_MM;
    if (enough) return [...equalTops(layer.fromMm, at, formula), ...equalTops(at, layer.toMm, formula)];
  }
  return null;
}

function sameTops(found: readonly number[], expected: readonly number[]): boolean {
  return found.length === expected.length && found.every((top, i) => Math.abs(top - expected[i]) <= HEIGHT_MM);
}

/** Each floater is within its lock or called impossible, and every division is a locking height between equal pours. */
function checkSeveralLocks(
  layer: LayerJson, formula: FormulaFacts, { inside, filmed }: { inside: readonly Floater[]; filmed: readonly Floater[] },
  tops: readonly number[], plan: PlanJson, report: Report,
): void {
  const floaters = [...inside, ...filmed];
  for (const f of inside) {
    if (!isCannot(plan, f.id) && !locked(tops, f.baseMm, f.safeLockMm)) report(`${f.id} at ${f.baseMm} mm is not locked within ${f.safeLockMm} mm by tops at ${tops.join(', ')}`);
  }
  const bases = [...new Set(floaters.map((f) => f.baseMm))].map((base) => (
    { base, safe: Math.min(...floaters.filter((f) => f.baseMm === base).map((f) => f.safeLockMm)) }
  ));
  const isDivision = (top: number) => bases.some(({ base, safe }) => {
    const steps = (top - base) / LOCK_STEP_MM;
    return steps > 0.5 && top - base <= safe + HEIGHT_MM && Math.abs(steps - Math.round(steps)) * LOCK_STEP_MM <= HEIGHT_MM;
  });
  const parts = (from: number, rest: readonly number[]): boolean => rest.length === 0 || rest.some((top, i) => (
    (i === rest.length - 1 || isDivision(top)) && sameTops(rest.slice(0, i + 1), equalTops(from, top, formula)) && parts(top, rest.slice(i + 1))
  ));
  if (!parts(layer.fromMm, tops)) report(`layer ${layer.index} is poured to ${tops.join(', ')} mm: not equal pours between locking heights`);
}

/** `locks` names each loose floater in the pour that first covers its base, and nobody else. */
export function checkLocks(facts: SceneFacts, plan: PlanJson, report: Report): void {
  const floaters = floatersOf(facts, plan);
  for (const pour of plan.pours) {
    for (const id of pour.locks) {
      const floater = floaters.find((f) => f.id === id);
      if (!floater) report(`pour ${pour.index} is said to lock ${id}, which does not lie loose and float`);
      else if (!firstCovers(plan, floater.baseMm).includes(pour.index)) report(`pour ${pour.index} is said to lock ${id}, whose base pour ${firstCovers(plan, floater.baseMm)[0]} covers first`);
    }
  }
  for (const floater of floaters) {
    const covers = firstCovers(plan, floater.baseMm);
    if (covers.length === 0 || isCannot(plan, floater.id)) continue;
    if (!plan.pours.some((p) => covers.includes(p.index) && p.locks.includes(floater.id))) report(`pour ${covers[0]} covers the base of ${floater.id} first and does not name it`);
  }
}

/** The pour whose top is the first above a base; a second one where the first is but a film over it. */
function firstCovers(plan: PlanJson, baseMm: number): number[] {
  const covers = [HEIGHT_MM, MERGE_MM + HEIGHT_MM].map((slack) => plan.pours.find((p) => p.toMm > baseMm + slack)?.index);
  return [...new Set(covers)].filter((index) => index !== undefined);
}

/** Σ net ÷ (1 − shrinkage) × mixed density + the placements' masses; null where one is unknown. */
export function checkFinishedMass(facts: SceneFacts, plan: PlanJson, report: Report): void {
  const masses = plan.placements.map((p) => p.massG);
  const found = plan.mold.finishedG;
  if (masses.includes(null)) {
    if (found !== null) report(`the finished piece weighs ${found} g though a placement's mass is unknown`);
    return;
  }
  let expected = (masses as number[]).reduce((sum, g) => sum + g, 0);
  for (const pour of plan.pours) {
    const formula = facts.formulas.get(pour.formula)!;
    expected += (pour.netMl / (1 - formula.shrinkageFraction)) * formula.mixedGPerMl;
  }
  if (found === null || !near(found, expected, ARITHMETIC_REL)) report(`the finished piece weighs ${found} g where ${expected} is expected`);
}
