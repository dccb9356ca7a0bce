/**
 * What the page holds of the piece being made, and what can be done to it. The document is the one truth; what
 * the worker derives from it follows. Everything the person does goes through these actions.
 */
import type { EditResult, SceneFile } from '../core/scene/edit/file.ts';
import type { Plan } from '../core/plan/plan.ts';
import type { Problem } from '../core/scene/read.ts';
import type { Scene } from '../core/scene/scene.ts';
import type { Polygon } from '../core/sheet/polygon.ts';
import type { Section } from '../core/sheet/section.ts';
import type { Bounds } from '../core/solid/solid.ts';

/** A solid to draw: a lighter copy where its mesh is large. Positions are posed; a move keeps the arrays and changes the placement only. */
export interface DrawnSolid {
  readonly id: string;
  readonly kind: 'figure' | 'bed';
  readonly name: string;
  readonly positions: Float32Array;
  readonly indices: Uint32Array;
  readonly turnZDeg: number;
  readonly bounds: Bounds;
}

/** What the worker made of one document. */
export interface Derived {
  readonly document: SceneFile;
  readonly scene: Scene;
  readonly plan: Plan;
  readonly silhouettes: ReadonlyMap<string, readonly Polygon[]>;
  readonly section: Section;
  readonly solids: readonly DrawnSolid[];
  /** Solids overlap and have not been united yet: the numbers are `about` right until the drag rests. */
  readonly about: boolean;
}

export type SwitchUnits = { readonly length: 'mm' | 'in'; readonly volume: 'mL' | 'floz' };

export interface UndoStep {
  readonly label: string;
}

export interface PieceState {
  /** null until the first piece is open. While a drag lasts it is the dragged document, not yet an undo step. */
  readonly document: SceneFile | null;
  /** Of the latest document that could be planned; its own `document` says which. */
  readonly derived: Derived | null;
  /** Why the latest document could not be planned; empty when it could. */
  readonly unplanned: readonly Problem[];
  readonly deriving: boolean;
  readonly dragging: boolean;
  /** Names of the files the piece holds beside its document. */
  readonly files: ReadonlyMap<string, Blob>;
  readonly selected: readonly string[];
  readonly chosenPour: number | null;
  readonly findingAt: number;
  readonly undoStep: UndoStep | null;
  readonly redoStep: UndoStep | null;
  readonly units: SwitchUnits;
  /** Opened from a newer version, or another tab edits it: nothing can be changed here. */
  readonly readOnly: null | 'newer' | 'another-tab';
  /** Why the last edit was refused, in words; cleared by the next one that works. */
  readonly refusal: string | null;

  /** One undo step. `edit` gets the current document. Returns whether it was made. */
  edit(edit: (file: SceneFile) => EditResult): boolean;
  /** While a drag lasts: always from the document before it; `end` makes one undo step, `cancel` puts it back. */
  drag(edit: (before: SceneFile) => EditResult, phase: 'move' | 'end' | 'cancel'): void;
  undo(): void;
  redo(): void;
  select(ids: readonly string[], how?: 'replace' | 'toggle'): void;
  choosePour(pour: number | null): void;
  showFinding(at: number): void;
  setUnits(units: Partial<SwitchUnits>): void;
  /** Adds a mesh or picture; gives the path to link to (assets/…). */
  addFile(name: string, bytes: Blob): Promise<string>;
}
