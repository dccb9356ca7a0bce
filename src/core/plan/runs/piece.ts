/**
 * A piece as it is fitted in among others at one bench: what is done to it in turn, how long each takes, and the clocks
 * of its pours. Its lines and formulas are those of its own plan; only the times are open.
 */
import type { Formula, Plane, Scene } from '../../scene/scene.ts';
import { parseLocalTime } from '../../units/time.ts';
import { doNotPour } from '../halts.ts';
import { movedBy } from '../heat-of-pour.ts';
import { fillAt } from '../layers.ts';
import type { Moves, Plan, Pour } from '../plan.ts';
import { paceOf, timesAt, type Pace, type PourTimes } from '../schedule.ts';
import { floorPlanes } from '../stops.ts';
import { atPace } from './run.ts';

export interface Job {
  readonly formula: Formula;
  /** One piece's share to the line, shrinkage and allowance within, times its copies, mL. */
  readonly neededMl: number;
  readonly molds: number;
  readonly tintPercent: number;
  /** Jobs with the same key may share cups: one formula with one tint, and nothing that says not to pour. */
  readonly cupKey: string;
  /** Cups where it is poured by itself. */
  readonly cupsAlone: number;
  /** Painted on its top before what follows. */
  readonly planesAbove: readonly Plane[];
  /** What its heat moves, as far as it is known. */
  readonly moves: Moves;
}

/** A turn at the bench that a piece needs, in this order. */
export type Task = { readonly kind: 'floor' } | { readonly kind: 'pour'; readonly pour: number } | { readonly kind: 'surface'; readonly pour: number };

export interface Piece {
  readonly name: string;
  readonly scene: Scene;
  readonly pace: Pace;
  readonly startMin: number;
  readonly floor: readonly Plane[];
  readonly jobs: readonly Job[];
  readonly tasks: readonly Task[];
  /** Not to be finished later; Infinity where nobody asks. */
  readonly mustBeByMin: number;
  /** Moments of its pours by pour, start and length: found once. Grows. */
  readonly known: Map<string, PourTimes>;
}

const NOT_MOVED: Moves = { opens: 0, closes: 0, scuffable: 0, paintable: 0, demold: 0 };

/** A piece from its scene and its own plan. `startMin`: nothing before. */
export function pieceOf(scene: Scene, plan: Plan, { startMin, mustBeByMin }: Pick<Piece, 'startMin' | 'mustBeByMin'>): Piece {
  const pourMin = parseLocalTime(plan.pours[0].ends)! - parseLocalTime(plan.pours[0].starts)!;
  const paced = atPace(scene, pourMin / 60);
  const planesAbove = ({ layer, toMm }: Pour): Plane[] => {
    const { stops, toMm: top } = plan.layers[layer - 1];
    if (toMm !== top) return [];
    return paced.placements.filter((placement): placement is Plane => placement.kind === 'plane' && stops.some(({ kind, id }) => kind === 'plane' && id === placement.id));
  };
  const jobs = plan.pours.map((pour): Job => {
    const formula = scene.formulas.get(pour.formula)!;
    const tint = pour.tint && fillAt(scene, (pour.fromMm + pour.toMm) / 2).tint;
    const { price: _price, name: _name, ...label } = formula;
    return {
      formula,
      neededMl: scene.run.copies * (pour.netMl / (1 - formula.shrinkageFraction)) * (1 + scene.bench.allowanceFraction),
      molds: scene.run.copies,
      tintPercent: pour.tint?.percent ?? 0,
      cupKey: JSON.stringify([label, pour.tint?.percent ?? 0, tint?.color ?? null, ...(doNotPour(plan.findings, pour.index) === null ? [] : [scene.name, pour.index])]),
      cupsAlone: pour.batches.length,
      planesAbove: planesAbove(pour),
      moves: pour.heat?.movedMin ?? NOT_MOVED,
    };
  });
  const floor = floorPlanes(paced, plan.layers[0].fromMm);
  const tasks: Task[] = floor.length > 0 ? [{ kind: 'floor' }] : [];
  jobs.forEach((job, pour) => {
    tasks.push({ kind: 'pour', pour });
    if (job.planesAbove.length > 0) tasks.push({ kind: 'surface', pour });
  });
  return { name: scene.name, scene, pace: paceOf(paced), startMin, floor, jobs, tasks, mustBeByMin, known: new Map() };
}

/** The moments of a pour that starts then and takes that long. */
export function pourTimes({ pace, jobs, known }: Piece, pour: number, startsMin: number, pourMin: number): PourTimes {
  const key = `${pour} ${startsMin} ${pourMin}`;
  const { formula, moves } = jobs[pour];
  const times = known.get(key) ?? movedBy(timesAt({ ...pace, pourMin }, formula, startsMin), moves);
  known.set(key, times);
  return times;
}

/** The piece where a pour’s heat was found to move more than was known. */
export function withMoves(piece: Piece, found: readonly Moves[]): Piece {
  const jobs = piece.jobs.map((job, i): Job => {
    const { moves } = job;
    const more = found[i] ?? moves;
    return {
      ...job,
      moves: {
        opens: Math.max(moves.opens, more.opens),
        closes: Math.min(moves.closes, more.closes),
        scuffable: Math.max(moves.scuffable, more.scuffable),
        paintable: Math.max(moves.paintable, more.paintable),
        demold: Math.max(moves.demold, more.demold),
      },
    };
  });
  return { ...piece, jobs, known: new Map() };
}
