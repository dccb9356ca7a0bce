/** What the page asks of the worker that follows the heat of a whole casting, and what comes back. All of it can be cloned between threads. */
import type { BodyHeat, BodyOptions, BodyPour, BodyProgress, BodyRoom } from '../core/cure/body/body.ts';
import type { BuildOptions } from '../core/cure/body/build.ts';
import type { Kinetics } from '../core/cure/kinetics.ts';
import type { Mold, SolidPlacement } from '../core/scene/scene.ts';
import type { TriangleMesh } from '../core/solid/solid.ts';

export interface HeatCastIn {
  readonly placement: SolidPlacement;
  readonly densityGPerMl: number;
  /** Of a `mesh` or `library` shape: in its own frame, as its file gave it. */
  readonly mesh?: TriangleMesh;
}

export interface HeatTask {
  readonly mold: Mold;
  readonly pours: readonly (BodyPour & { readonly kinetics: Kinetics })[];
  /** Answers tell of them in this order. */
  readonly castIn: readonly HeatCastIn[];
  readonly room: BodyRoom;
  readonly endS: number;
  readonly build?: BuildOptions;
  readonly run?: BodyOptions;
}

export type HeatAnswer =
  | { readonly ok: true; readonly heat: BodyHeat }
  /** `canceled`: the person stopped it, or the worker broke; the message says which. */
  | { readonly ok: false; readonly message: string; readonly canceled?: boolean };

export type ToHeatWorker = { readonly id: number; readonly task: HeatTask } | { readonly cancel: number };

export type FromHeatWorker = { readonly id: number; readonly progress: BodyProgress } | { readonly id: number; readonly answer: HeatAnswer };
