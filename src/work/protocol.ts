/** What the page asks of its planning worker, and what comes back. Everything in it can be cloned between threads. */
import type { Plan } from '../core/plan/plan.ts';
import type { Problem } from '../core/scene/read.ts';
import type { Scene } from '../core/scene/scene.ts';
import type { Paper, SheetDocument } from '../core/sheet/document.ts';
import type { Polygon } from '../core/sheet/polygon.ts';

/** A file as the person gave it. */
export interface GivenFile {
  /** Its name, or its path below a folder that was chosen, parts joined by `/`. */
  readonly path: string;
  readonly bytes: Uint8Array;
}

/** A scene with all that was derived from it. */
export interface PlannedScene {
  readonly scene: Scene;
  /** The scene's parsed JSON, nothing lost. */
  readonly document: unknown;
  readonly plan: Plan;
  /** Outlines from the front, mm in x–z, by placement id. */
  readonly silhouettes: ReadonlyMap<string, readonly Polygon[]>;
}

export type Request =
  /** `files` null: the demo scene. */
  | { readonly kind: 'load'; readonly files: readonly GivenFile[] | null }
  | { readonly kind: 'sheet'; readonly planned: PlannedScene; readonly paper: Paper }
  | { readonly kind: 'pdf'; readonly planned: PlannedScene; readonly paper: Paper };

/** What each kind of request gives. */
export interface Gives {
  readonly load: PlannedScene;
  readonly sheet: SheetDocument;
  readonly pdf: Uint8Array;
}

export type Kind = Request['kind'];

export type Answer<K extends Kind> = { readonly ok: true; readonly value: Gives[K] } | { readonly ok: false; readonly problems: readonly Problem[] };

/** The planner as the store knows it: the worker's client, or the same answers in one process. */
export interface Planner {
  load(files: readonly GivenFile[] | null): Promise<Answer<'load'>>;
  sheet(planned: PlannedScene, paper: Paper): Promise<Answer<'sheet'>>;
  pdf(planned: PlannedScene, paper: Paper): Promise<Answer<'pdf'>>;
}

export interface Numbered {
  readonly id: number;
  readonly request: Request;
}

export interface NumberedAnswer {
  readonly id: number;
  readonly answer: Answer<Kind>;
}
