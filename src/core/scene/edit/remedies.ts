/** What one press can mend: for a finding with a mechanical remedy, its words and the edit. */
import { completeFormula, type LabelValues } from '../../resin/formula.ts';
import { plain } from '../../units/format.ts';
import type { Finding, Layer, Plan } from '../../plan/plan.ts';
import type { Bounds } from '../../solid/solid.ts';
import { STOP_TOLERANCE_MM } from '../tolerance.ts';
import { fillRange, fillTo, moveBoundary, setFormula } from './fills.ts';
import { done, refused, type EditResult, type SceneFile } from './file.ts';
import { formulaIn, formulasOf, setLabelValue } from './formulas.ts';
import { coolRoom } from './heat-model.ts';
import { setHold } from './hold.ts';
import { likelyUnit, setMeshUnit, unitOf } from './mesh-unit.ts';
import { raise, setHeight, shift } from './move.ts';
import { patched, replacedAt } from './replace.ts';
import { wayInside } from './room-in-mold.ts';
import { heightOf, holdOf, isLocked, labelMm, nameOf, spoken, thing, tidy } from './things.ts';

export interface Remedy {
  /** What the press does: `Fill to 56 mm`. */
  readonly words: string;
  /** To be given the file it was found for, or a later one; refuses where it no longer fits. */
  apply(file: SceneFile): EditResult;
}

/** Free height a mold should keep, mm (design). */
const FREEBOARD_MM = 3;
/** Heights are set to this, mm: what a fill mark is read to. */
const FILL_STEP_MM = 0.5;
const ROUNDING_MM = 1e-9;

/**
 * The mechanical remedy of a finding, or null where the person has to decide (a weight, a label, a first day).
 * `bounds` are those of the posed solids, for things that stick out of the mold.
 */
export function remedyFor(finding: Finding, file: SceneFile, plan: Plan, bounds?: ReadonlyMap<string, Bounds>): Remedy | null {
  switch (finding.code) {
    case 'layer-too-thin': return thicker(finding, file, plan);
    case 'cannot-lock': case 'floats': return held(finding, file);
    case 'above-fill': return covered(finding, file, plan);
    case 'overfull': case 'freeboard': return lowerFill(finding, file, plan);
    case 'outside-mold': return inside(finding, file, bounds);
    case 'plane-cuts-figure': return clearPlane(finding, file, plan);
    case 'ratio-unconfirmed': return byVolume(finding, file);
    case 'cup-hot': return lessInACup(finding, plan);
    case 'hot': case 'near-runaway': return cooler(finding, plan);
    default: return null;
  }
}

function thicker(finding: Finding, file: SceneFile, plan: Plan): Remedy | null {
  const at = Number(/^layer (\d+)$/.exec(finding.subject)?.[1]) - 1;
  const layer = plan.layers[at];
  if (!layer) return null;
  const needed = leastDepth(file, layer) - (layer.toMm - layer.fromMm);
  if (needed <= ROUNDING_MM) return null; // thin by the split of a deep layer: no stop mends that
  const above = plan.layers[at + 1];
  const below = plan.layers[at - 1];
  const roomAbove = above ? above.toMm - above.fromMm - leastDepth(file, above) : 0;
  const roomBelow = below && Math.abs(below.toMm - layer.fromMm) <= STOP_TOLERANCE_MM ? below.toMm - below.fromMm - leastDepth(file, below) : -1;
  const up = above ? (roomAbove >= needed - ROUNDING_MM ? moveStop(file, layer, tidy(layer.fromMm + leastDepth(file, layer))) : null) : higher(file, layer.fromMm + leastDepth(file, layer));
  return up ?? (below && roomBelow >= needed - ROUNDING_MM ? moveStop(file, below, tidy(below.toMm - needed)) : null);
}

function higher(file: SceneFile, toMm: number): Remedy | null {
  const to = tidy(toMm);
  return to + FREEBOARD_MM <= file.mold.heightMm + ROUNDING_MM ? { words: `Fill to ${labelMm(to)}`, apply: (now) => fillTo(now, to) } : null;
}

/** Moves everything that makes the stop at the top of a layer. */
function moveStop(file: SceneFile, layer: Layer, toMm: number): Remedy | null {
  const ids = layer.stops.flatMap((stop) => (stop.id === undefined ? [] : [stop.id]));
  const things = ids.map((id) => thing(file, id));
  if (things.some((placement) => !placement || isLocked(placement))) return null;
  if (layer.stops.some((stop) => stop.kind === 'top')) return null;
  const changesFill = layer.stops.some((stop) => stop.kind === 'fill');
  const name = things[0] ? nameOf(things[0]) : 'the change of fill';
  const more = ids.length - 1 + (changesFill && things[0] ? 1 : 0);
  return {
    words: `Set ${name}${more > 0 ? ' and what is level with it' : ''} to ${labelMm(toMm)}`,
    apply(now) {
      let next = now;
      for (const id of ids) {
        const step = setHeight(next, id, toMm);
        if (!step.ok) return step;
        next = step.file;
      }
      if (changesFill) {
        const at = next.fills.findIndex((fill, i) => i < next.fills.length - 1 && Math.abs(fill.toMm - layer.toMm) <= STOP_TOLERANCE_MM + ROUNDING_MM);
        if (at < 0) return refused('The change of fill is no longer there.');
        const step = moveBoundary(next, at, toMm);
        if (!step.ok) return step;
        next = step.file;
      }
      return done(next, `${spoken(name)} to ${labelMm(toMm)}`);
    },
  };
}

function held({ subject }: Finding, file: SceneFile): Remedy | null {
  const placement = thing(file, subject);
  if (!placement || placement.kind === 'plane') return null;
  const standing = holdOf(placement) === 'stands';
  return standing
    ? { words: `Fasten ${nameOf(placement)} to what it stands on`, apply: (now) => setHold(now, [subject], 'fixed') }
    : { words: `Set ${nameOf(placement)} on a rod`, apply: (now) => setHold(now, [subject], 'rod') };
}

function covered({ subject }: Finding, file: SceneFile, plan: Plan): Remedy | null {
  const placement = thing(file, subject);
  const result = plan.placements.find((each) => each.id === subject);
  if (!placement || !result) return null;
  const over = tidy(result.topMm - file.fillMm);
  const lower: Remedy | null =
    over > 0 && heightOf(placement) - over >= -ROUNDING_MM && !isLocked(placement) ? { words: `Lower ${nameOf(placement)} by ${labelMm(over)}`, apply: (now) => raise(now, [subject], -over) } : null;
  const fill = over > 0 ? higher(file, Math.ceil(result.topMm / FILL_STEP_MM - ROUNDING_MM) * FILL_STEP_MM) : null;
  // What rests on a surface keeps its stop when the fill rises; lowered, it would ask for a stop of its own.
  return holdOf(placement) === 'rests' ? (fill ?? lower) : (lower ?? fill);
}

function lowerFill(finding: Finding, file: SceneFile, plan: Plan): Remedy | null {
  const pour = plan.pours.find((each) => `pour ${each.index}` === finding.subject);
  if (!pour || pour.index !== plan.pours.length) return null;
  const to = Math.floor((file.fillMm - (FREEBOARD_MM - pour.fillMarkFromRimMm)) / FILL_STEP_MM + ROUNDING_MM) * FILL_STEP_MM;
  if (to < fillRange(file).minMm || to >= file.fillMm) return null;
  return { words: `Fill to ${labelMm(to)}`, apply: (now) => fillTo(now, to) };
}

function inside({ subject }: Finding, file: SceneFile, bounds?: ReadonlyMap<string, Bounds>): Remedy | null {
  const placement = thing(file, subject);
  const box = bounds?.get(subject);
  if (!placement || placement.kind === 'plane' || !box || isLocked(placement)) return null;
  const unit = placement.shape.type === 'mesh' ? unitOf(placement.shape) : null;
  const likely = unit && likelyUnit(file.mold, box, unit);
  if (likely) return { words: `Read ${nameOf(placement)} in ${likely}`, apply: (now) => setMeshUnit(now, subject, likely) };
  const way = wayInside(file.mold, box);
  if (!way || (way.dxMm === 0 && way.dyMm === 0 && way.dzMm === 0)) return null;
  return {
    words: `Move ${nameOf(placement)} inside`,
    apply(now) {
      const moved = shift(now, [subject], way.dxMm, way.dyMm);
      if (!moved.ok || way.dzMm === 0) return moved;
      const raised = raise(moved.file, [subject], way.dzMm);
      return raised.ok ? { ...raised, label: moved.label } : raised;
    },
  };
}

function clearPlane({ subject }: Finding, file: SceneFile, plan: Plan): Remedy | null {
  const [planeId, figureId] = idsIn(subject, file);
  const plane = thing(file, planeId);
  const figure = plan.placements.find((each) => each.id === figureId);
  if (plane?.kind !== 'plane' || !figure || isLocked(plane)) return null;
  const ways = [figure.baseMm, figure.topMm].filter((mm) => mm >= 0 && mm <= file.fillMm).sort((a, b) => Math.abs(a - plane.atMm) - Math.abs(b - plane.atMm));
  if (ways.length === 0) return null;
  const to = tidy(ways[0]);
  return { words: `Set ${nameOf(plane)} to ${labelMm(to)}`, apply: (now) => setHeight(now, planeId, to) };
}

function byVolume({ subject }: Finding, file: SceneFile): Remedy | null {
  const id = subject.replace(/^formula /, '');
  const formula = formulasOf(file).find((each) => each.id === id);
  if (!formula?.ratioByMass || formula.ratioByVolume) return null;
  const [a, b] = formula.ratioByMass;
  return {
    words: `It is ${a}:${b} by volume`,
    apply(now) {
      const at = formulasOf(now).findIndex((each) => each.id === id);
      if (at < 0) return refused('That formula is no longer in the scene.');
      const changed = patched(formulasOf(now)[at], { ratioByVolume: [a, b], ratioByMass: undefined });
      return done(patched(now, { formulas: replacedAt(formulasOf(now), at, changed) }), `${spoken(formula.name ?? id)} ${a}:${b} by volume`);
    },
  };
}

/** Smaller cups of that formula, or a cooler room: either was judged to do. */
function lessInACup({ subject, cooler: ways }: Finding, plan: Plan): Remedy | null {
  const pour = plan.pours.find(({ index }) => `pour ${index}` === subject);
  const { mostG, roomC } = ways ?? {};
  if (pour && mostG !== undefined) return { words: `Set the most in one cup to ${plain(mostG, 0)}\u00a0g`, apply: (now) => setLabelValue(now, pour.formula, 'maxBatchG', mostG) };
  return roomC === undefined ? null : { words: `Set the room to ${plain(roomC)}\u00a0°C`, apply: (now) => coolRoom(now, roomC) };
}

/** The room, or another formula in its fill: what the plan has judged to help. Splitting it has done itself, waiting is the bench's. */
function cooler({ subject }: Finding, plan: Plan): Remedy | null {
  const pour = plan.pours.find(({ index }) => `pour ${index}` === subject);
  const room = pour?.heat?.fixes.find(({ kind }) => kind === 'cool')?.amount;
  if (typeof room === 'number') return { words: `Set the room to ${plain(room)}\u00a0°C`, apply: (now) => coolRoom(now, room) };
  const formula = pour?.heat?.fixes.find(({ kind }) => kind === 'formula')?.amount;
  if (!pour || typeof formula !== 'string') return null;
  const middleMm = (pour.fromMm + pour.toMm) / 2;
  return { words: 'Pour a deep-pour resin in this fill', apply: (now) => setFormula(now, now.fills.findIndex(({ toMm }) => middleMm < toMm), formula) };
}

/** Two ids joined by a comma; either may hold one itself. */
function idsIn(subject: string, file: SceneFile): [string, string] {
  for (let i = subject.indexOf(', '); i >= 0; i = subject.indexOf(', ', i + 1)) {
    const pair: [string, string] = [subject.slice(0, i), subject.slice(i + 2)];
    if (pair.every((id) => thing(file, id))) return pair;
  }
  return ['', ''];
}

function leastDepth(file: SceneFile, layer: Layer): number {
  const formula = formulaIn(file, layer.formula);
  return formula ? completeFormula(formula as LabelValues).minDepthMm : 0;
}
