/** A planned piece as a task of heat: its pours at their times under the room's profile, each with one resin of its label's family. */
import type { BodyRoom } from '../core/cure/body/body.ts';
import type { BuildOptions } from '../core/cure/body/build.ts';
import type { Member } from '../core/cure/family-types.ts';
import { roomOfPlan } from '../core/plan/box/as-planned.ts';
import type { Plan, PlacementResult } from '../core/plan/plan.ts';
import { hasMesh } from '../core/scene/mesh-shape.ts';
import type { Formula, Room, Scene, SolidPlacement } from '../core/scene/scene.ts';
import type { TriangleMesh } from '../core/solid/solid.ts';
import { MINUTES_PER_HOUR, parseLocalTime } from '../core/units/time.ts';
import type { HeatCastIn, HeatTask } from './heat-protocol.ts';

export interface HeatTaskOptions {
  /** The resin to follow for a formula: a member of its family. */
  readonly memberOf: (formula: Formula) => Member;
  /** Meshes of `mesh` and `library` shapes, by placement id, in their own frames. */
  readonly meshes: ReadonlyMap<string, TriangleMesh>;
  readonly build?: BuildOptions;
}

const S_PER_MIN = 60;
/** After the last pour: by then its heat is through, or its own label has it out of the mold. */
const LEAST_H = 48;
/** g/mL. Of a thing of which nothing is said, a plastic's; it only stores heat. */
const UNKNOWN_G_PER_ML = 1.2;

/** Seconds count from the first pour. Null: the plan has no pour, or a figure's mesh is missing. */
export function heatTaskOf(scene: Scene, plan: Plan, { memberOf, meshes, build }: HeatTaskOptions): HeatTask | null {
  const { mold, room, formulas } = scene;
  const starts = plan.pours.map((pour) => parseLocalTime(pour.starts)!);
  const solids = scene.placements.filter((placement): placement is SolidPlacement => placement.kind !== 'plane');
  const lacks = (solid: SolidPlacement) => hasMesh(solid) && !meshes.has(solid.id);
  if (starts.length === 0 || solids.some(lacks)) return null;
  const atS = (minutes: number): number => (minutes - starts[0]) * S_PER_MIN;
  const last = plan.pours[plan.pours.length - 1];
  const endMin = Math.max(starts[starts.length - 1] + LEAST_H * MINUTES_PER_HOUR, parseLocalTime(last.demold)!);
  return {
    mold, build,
    pours: plan.pours.map(({ fromMm, toMm, formula, mixC }, p) => {
      const { kinetics, material } = memberOf(formulas.get(formula)!);
      // A bed that closes the mold's floor is below the first pour, and is part of the body.
      return { fromMm: p === 0 ? 0 : fromMm, toMm, atS: atS(starts[p]), kinetics, material, mixC };
    }),
    castIn: solids.map((placement): HeatCastIn => ({
      placement,
      densityGPerMl: densityOf(placement, plan.placements.find(({ id }) => id === placement.id)),
      mesh: meshes.get(placement.id),
    })),
    room: roomOf(roomOfPlan(room, plan.pours), atS),
    endS: atS(endMin),
  };
}

/** Of what is solid in it: a bed's voids don't count. */
function densityOf(placement: SolidPlacement, planned: PlacementResult | undefined): number {
  if (placement.densityGPerMl !== undefined) return placement.densityGPerMl;
  const solidShare = placement.kind === 'bed' ? 1 - placement.voidFraction : 1;
  if (!planned || planned.massG === null || !planned.volumeMl) return UNKNOWN_G_PER_ML;
  return planned.massG / (planned.volumeMl * solidShare);
}

function roomOf({ temperatureC, profile }: Room, atS: (minutes: number) => number): BodyRoom {
  const later = profile.map((entry) => ({ fromS: atS(entry.fromMin), temperatureC: entry.temperatureC }));
  // In force before the first entry, however early that is.
  return [{ fromS: Math.min(0, later[0]?.fromS ?? 0) - 1, temperatureC }, ...later];
}
