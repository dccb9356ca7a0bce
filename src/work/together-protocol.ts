/** What the page asks of the thread that plans pieces together, and what comes back. All of it can be cloned between threads. */
import type { Plan } from '../core/plan/plan.ts';
import type { Together } from '../core/plan/runs/together-plan.ts';
import type { Problem } from '../core/scene/read.ts';
import type { Scene } from '../core/scene/scene.ts';
import type { Paper } from '../core/sheet/document.ts';
import type { ChosenUnits } from '../core/units/in-units.ts';
import type { PieceFile } from './protocol.ts';

export interface PieceToPlan {
  /** Parsed JSON; not checked yet. */
  readonly document: unknown;
  /** What the document may link to; the same `id` always means the same bytes, in whatever piece. */
  readonly files: readonly PieceFile[];
}

/** Scenes and plans in the order the pieces were given; scenes of one name are told apart by their number. */
export interface PlannedTogether {
  readonly together: Together;
  readonly scenes: readonly Scene[];
  readonly plans: readonly Plan[];
}

/** `piece`: whose problems they are, from 0; null: nobody's. `canceled`: something newer was asked, or the thread broke. */
export type TogetherAnswer<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly piece: number | null; readonly problems: readonly Problem[]; readonly canceled?: boolean };

export type ToTogetherWorker =
  | { readonly id: number; readonly kind: 'plan'; readonly pieces: readonly PieceToPlan[] }
  /** The sheets of what was planned last. */
  | { readonly id: number; readonly kind: 'pdf'; readonly paper: Paper; readonly units: ChosenUnits };

/** `doing`: what is being done now, in words. */
export type FromTogetherWorker = { readonly id: number; readonly doing: string } | { readonly id: number; readonly answer: TogetherAnswer<PlannedTogether | Uint8Array> };
