/** What the later stages of planning (findings, reasons, steps) look at: the scene and all that was derived from it so far. */
import type { LongerDay, LongerEvenings, QuickDrying } from './best/changes.ts';
import type { Formula, PlanGoal, Scene, SolidPlacement } from '../scene/scene.ts';
import type { Displacement } from '../solid/displacement.ts';
import type { MeshReading, PosedSolid } from '../solid/solid.ts';
import type { Floating } from './floating.ts';
import type { HeatJudge } from './heat-judge.ts';
import type { Stuck } from './heat-rounds.ts';
import type { LayerAt } from './layers.ts';
import type { ClassPlan, Pour } from './plan.ts';
import type { Schedule } from './schedule.ts';

export interface SolidAt extends Floating {
  readonly placement: SolidPlacement;
  readonly reading: MeshReading | null;
  /** null: the mesh is too broken to be measured. */
  readonly solid: PosedSolid | null;
}

/** A pour with what it was made from. */
export interface PlannedPour extends Pour {
  readonly layerAt: LayerAt;
  /** The part of its layer that is split equally: the whole layer, or what lies between lines drawn for floaters. */
  readonly part: { readonly depthMm: number; readonly pours: number; readonly place: number };
  /** The greatest depth its layer was split by, mm. */
  readonly limitMm: number;
  /** A line drawn for a floater, not for the label. */
  readonly locking: boolean;
  readonly formulaUsed: Formula;
  /** Why it stays deeper than is safe there; null where it does not. */
  readonly stuck: Stuck | null;
}

export interface Planned {
  readonly scene: Scene;
  readonly solids: readonly SolidAt[];
  readonly displacement: Displacement;
  readonly layers: readonly LayerAt[];
  readonly pours: readonly PlannedPour[];
  readonly schedule: Schedule;
  readonly goal: PlanGoal;
  /** Nothing is begun before. */
  readonly startMin: number;
  /** Who judged the heat; null under the label model. */
  readonly heat: HeatJudge | null;
  /** Floaters that no pour can lock. */
  readonly unlockable: readonly string[];
  /** Those of them that a line of their own could lock, but for the others. */
  readonly crowded: readonly string[];
  /** Left out: no class. */
  readonly meeting?: ClassPlan;
  /** `said` by the scene or the command; the `latest` that has it done when it is wanted; `assumed`, where nothing is known. */
  readonly startIs: 'said' | 'latest' | 'assumed';
  /** What shorter drying would save, 0: the watching within bench hours eats it up; null where there is nothing to gain. */
  readonly quickDrying: QuickDrying | null;
  /** What one longer day at the bench would save; null: nothing worth it, or not asked. */
  readonly longerDay: LongerDay | null;
  /** What every evening longer would save; null: hardly more than one day does, or not asked. */
  readonly longerEvenings: LongerEvenings | null;
  /** When it is wanted, when it is done, and how late one may start; null: no wish. */
  readonly wanted: { readonly readyByMin: number; readonly finishMin: number; readonly latestStartMin: number | null } | null;
}

/** A placement's name, or its id. */
export function nameOf(scene: Scene, id: string): string {
  return scene.placements.find((placement) => placement.id === id)?.name ?? id;
}

/** Indices of the pours that a span of height takes part in. */
export function poursWithin(planned: Planned, fromMm: number, toMm: number): number[] {
  return planned.pours.filter((pour) => pour.toMm > fromMm && pour.fromMm < toMm).map((pour) => pour.index);
}
