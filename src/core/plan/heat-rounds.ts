/**
 * Layers into pours with their times, from the floor up. Each pour is judged on what lies below it before the next is
 * timed, so nothing is guessed: a layer with a pour deeper than is safe there is split thinner and poured again.
 * A layer's limit only ever falls and its pours only grow in number, so the rounds end.
 */
import type { Formula, Scene } from '../scene/scene.ts';
import type { SolidAt } from './context.ts';
import type { HeatJudge, Judged } from './heat-judge.ts';
import { tooDeep } from './hot.ts';
import type { LayerAt } from './layers.ts';
import { emptyPile, pouredAwake, type Pile, type PiledPour } from './pile.ts';
import { finishOf, firstPour, paceOf, pourOn, type Pace, type Schedule, type ScheduledPour } from './schedule.ts';
import { planesOn, sliceLayer, type SlicedLayer, type Slice } from './slices.ts';
import { thinnestForHeatMm } from './thinnest.ts';

/** Depths that were halved and added carry noise far below this, mm. */
const ROUNDING_MM = 1e-9;
/** So often a layer is given one pour more; after that, so many times the pours, until it is as thin as it may be. */
const PATIENT_ROUNDS = 4;
const IMPATIENT = 1.25;
/** Tries of ever thinner splits where a floater loses its lock in between. */
const LOCK_TRIES = 8;

/** Why a pour stays deeper than is safe there. */
export type Stuck = 'thinner would not do' | 'a lock would be lost';

export interface LaidPour {
  readonly slice: Slice;
  readonly judged: Judged | null;
  /** Null: within its safe depth. */
  readonly stuck: Stuck | null;
}

export interface Laid {
  readonly pours: readonly LaidPour[];
  readonly schedule: Schedule;
  readonly unlockable: readonly string[];
  readonly crowded: readonly string[];
}

export interface LayRequest {
  readonly layers: readonly LayerAt[];
  readonly solids: readonly SolidAt[];
  readonly startMin: number;
  /** Null: the label alone. */
  readonly heat: HeatJudge | null;
}

interface Timed extends PiledPour {
  readonly slice: Slice;
}

/** Null when a pour with its watching fits no bench interval, or none in which it is tacky before someone sleeps there. At least one layer. */
export function layPours(scene: Scene, request: LayRequest): Laid | null {
  const pace = paceOf(scene);
  const laid: LaidPour[] = [];
  const times: ScheduledPour[] = [];
  const unlockable: string[] = [];
  const crowded: string[] = [];
  let pile = emptyPile(scene, request.heat, request.layers[0].fromMm);
  for (const layerAt of request.layers) {
    const layer = pourLayer(pace, layerAt, pile, request);
    if (!layer) return null;
    unlockable.push(...layer.sliced.unlockable);
    crowded.push(...layer.sliced.crowded);
    for (const { slice, scheduled, judged, then } of layer.pours) {
      times.push(scheduled);
      laid.push({ slice, judged, stuck: tooDeep(slice, judged) ? layer.stuck : null });
      pile = then;
    }
  }
  return { pours: laid, schedule: finishOf(pace, times, pile.planes), unlockable, crowded };
}

interface PouredLayer {
  readonly sliced: SlicedLayer;
  readonly pours: readonly Timed[];
  readonly stuck: Stuck | null;
}

/** One layer in the fewest equal pours of which none is deeper than is safe for it, or as near to that as a layer can be split. */
function pourLayer(pace: Pace, layerAt: LayerAt, pile: Pile, request: LayRequest): PouredLayer | null {
  const formula = pace.scene.formulas.get(layerAt.formula)!;
  const slicedAt = (limitMm: number) => sliceLayer(pace.scene, layerAt, { ...request, limitMm });
  let sliced = slicedAt(formula.maxDepthMm);
  for (let round = 0; ; round++) {
    const pours = pourSlices(pace, sliced.slices, pile, { ...request, untilDeep: true });
    if (!pours) return null;
    const last = pours[pours.length - 1];
    if (!tooDeep(last.slice, last.judged)) return { sliced, pours, stuck: null };
    const thinner = thinnerSplit(sliced, nextLimit(pours, round), slicedAt);
    if (typeof thinner === 'string') {
      const whole = pourSlices(pace, sliced.slices, pile, request);
      return whole && { sliced, pours: whole, stuck: thinner };
    }
    sliced = thinner;
  }
}

/** `untilDeep`: what lies on a pour that is too deep is not worth judging, it will be split otherwise. */
function pourSlices(pace: Pace, slices: readonly Slice[], under: Pile, { startMin, layers, untilDeep = false }: LayRequest & { readonly untilDeep?: boolean }): Timed[] | null {
  const poured: Timed[] = [];
  let pile = under;
  for (const slice of slices) {
    const { newest, planes } = pile;
    const startingFrom = (notBefore?: number) => {
      const next = { formula: slice.formula, planes, notBefore };
      return newest ? pourOn(pace, newest, next) : firstPour(pace, next, startMin);
    };
    const cures = planesOn(pace.scene, slice).length > 0 || (slice.layerAt === layers[layers.length - 1] && slice.toMm === slice.layerAt.toMm);
    const made = pouredAwake(pile, pace, startingFrom, { slice, cures, untilDeep });
    if (!made) return null;
    poured.push({ slice, ...made });
    if (untilDeep && tooDeep(slice, made.judged)) break;
    pile = made.then;
  }
  return poured;
}

/**
 * The next limit to try where the last of the pours is too deep. What a layer's first pour stands on does not change with
 * the split, so its safe depth holds. The others stand on pours that get cooler as they get thinner, so what is safe for one
 * now, even nothing, says little of what is safe when all are thinner: a few pours more at a time, judged by what comes out.
 */
function nextLimit(pours: readonly Timed[], round: number): number {
  const { slice: { part, formula }, judged } = pours[pours.length - 1];
  if (pours.length === 1) return judged!.verdict.safeDepthMm;
  const most = Math.floor(part.depthMm / thinnestOf(formula));
  const wanted = round < PATIENT_ROUNDS ? part.pours + 1 : Math.ceil(IMPATIENT * part.pours);
  return part.depthMm / Math.max(part.pours + 1, Math.min(wanted, most));
}

function thinnestOf(formula: Formula): number {
  return thinnestForHeatMm(formula) - ROUNDING_MM;
}

/** The layer split by a limit, or why it can't be: pours too thin to level, or a floater that was locked and would come loose. */
function thinnerSplit(now: SlicedLayer, limitMm: number, slicedAt: (limitMm: number) => SlicedLayer): SlicedLayer | Stuck {
  const thinnestMm = thinnestOf(now.slices[0].formula);
  let limit = limitMm;
  let lost = false;
  for (let tries = 0; tries < LOCK_TRIES && limit >= thinnestMm; tries++) {
    const split = slicedAt(limit);
    const depths = split.slices.map((slice) => slice.toMm - slice.fromMm);
    if (Math.min(...depths) < thinnestMm) break;
    const loose = split.unlockable.length > now.unlockable.length;
    if (split.slices.length > now.slices.length && !loose) return split;
    lost ||= loose;
    const deepest = split.slices[depths.indexOf(Math.max(...depths))].part;
    limit = deepest.depthMm / (deepest.pours + 1);
  }
  return lost ? 'a lock would be lost' : 'thinner would not do';
}
