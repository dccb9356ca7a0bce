/**
 * What the page holds of the piece being made, and what can be done to it. The document is the one truth; what
 * the worker derives from it follows. Everything the person does goes through these actions.
 */
import type { HeatSeries } from '../core/cure/verdict-series.ts';
import type { EditResult, SceneFile } from '../core/scene/edit/file.ts';
import type { Plan } from '../core/plan/plan.ts';
import type { Problem } from '../core/scene/read.ts';
import type { Scene } from '../core/scene/scene.ts';
import type { Paper, SheetDocument } from '../core/sheet/document.ts';
import type { Polygon } from '../core/sheet/polygon.ts';
import type { Section } from '../core/sheet/section.ts';
import type { Bounds } from '../core/solid/solid.ts';
import type { Answer, Comparison, Gives } from '../work/protocol.ts';
import type { KeepingTrouble } from './keeping/words.ts';
import type { KeptPiece } from './other-pieces.ts';
import type { Painted } from './piece-painting.ts';

/** A solid to draw: a lighter copy where its mesh is large. Positions are posed; a move keeps the arrays and changes the placement only. */
export interface DrawnSolid {
  readonly id: string;
  readonly kind: 'figure' | 'bed';
  readonly name: string;
  readonly positions: Float32Array;
  readonly indices: Uint32Array;
  /** The turn about z that the positions have; the placement's own may have gone on from there. */
  readonly turnZDeg: number;
  /** Where it is now. */
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
  /** Heat was judged in haste or not at all: pours and times may change in a moment. */
  readonly checkingHeat: boolean;
}

export type SwitchUnits = { readonly length: 'mm' | 'in'; readonly volume: 'mL' | 'floz' };

export interface UndoStep {
  readonly label: string;
}

export interface Trouble {
  /** What could not be done, as a heading. */
  readonly title: string;
  readonly problems: readonly Problem[];
  /** What was open before still is, unchanged. */
  readonly unchanged: boolean;
}

/** A large mesh on its way in. */
export interface ReadingMesh {
  readonly name: string;
  /** `taking it in`, `reading it`, `checking it`, `measuring it`. */
  readonly stage: string;
  /** Of this stage, 0 to 1; left out where nobody can say. */
  readonly share?: number;
}

/** A lighter copy of a large mesh, to look at until the mesh itself is measured and in the piece. */
export interface LookedAt {
  readonly name: string;
  readonly positions: Float32Array;
  readonly indices: Uint32Array;
}

export type Sheet =
  | { readonly kind: 'none' }
  | { readonly kind: 'making' }
  | { readonly kind: 'ready'; readonly document: SheetDocument }
  | { readonly kind: 'failed' };

/** How safe the piece is, for the page's words. */
export interface KeptState {
  /** `untouched`: as it was opened, nothing to keep. */
  readonly state: 'untouched' | 'kept' | 'keeping' | 'failing';
  readonly trouble: KeepingTrouble | null;
  readonly notices: readonly KeepingTrouble[];
  /** What no file holds; null: a file holds it all. ms since 1970. */
  readonly unsaved: { readonly edits: number; readonly since: number } | null;
  /** Name of the file it was last saved to or opened from. */
  readonly fileName: string | null;
}

export interface RecentPiece {
  readonly id: string;
  readonly name: string;
  readonly changedAt: number;
  readonly fileName: string | null;
  /** Open in this tab now. */
  readonly open: boolean;
}

export interface SnapshotAt {
  readonly at: number;
}

export type DemoName = 'mill-pond' | 'rock-pool';

/** Files as they were picked or dropped; `path` below the folder that was given, parts joined by `/`. */
export interface GivenBlob {
  readonly path: string;
  readonly blob: Blob;
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
  /** What to paint of the piece’s creatures, of the last scene that rested; null: it has none, or they are being cut for the first time. */
  readonly painted: Painted | null;
  /** Names of the files the piece holds beside its document. */
  readonly files: ReadonlyMap<string, Blob>;
  /** Ids of placements and of painted creatures. */
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
  /**
   * Adds a mesh or picture; gives the path to link to (assets/…). A mesh is read and measured before it answers.
   * Rejects with words for the person when it can't be read or was canceled (an AbortError); what is open stays as it was.
   */
  addFile(name: string, bytes: Blob): Promise<string>;
  /** Length, width and height of a mesh of the piece as its file has it, mm; null where it can’t be read. */
  sizeOfMesh(path: string): Promise<readonly [number, number, number] | null>;

  /** What is being opened, by name; null when nothing is. */
  readonly opening: string | null;
  readonly reading: ReadingMesh | null;
  readonly lookedAt: LookedAt | null;
  readonly trouble: Trouble | null;
  readonly kept: KeptState;
  readonly recents: readonly RecentPiece[];
  readonly paper: Paper;
  readonly sheet: Sheet;
  readonly savingPdf: boolean;

  /** What was open is kept and among the recents. */
  openDemo(name: DemoName): Promise<void>;
  openFiles(name: string, files: () => Promise<readonly GivenBlob[]>): Promise<void>;
  openRecent(id: string): Promise<void>;
  /** Starts on a new piece (new-piece.ts). False: refused, see `refusal`. */
  startPiece(piece: EditResult): boolean;
  forgetRecent(id: string): Promise<void>;
  rememberRecent(id: string): Promise<void>;
  refreshRecents(): Promise<void>;
  /** What another kept piece holds, as it was last written; null: it is not kept any more. */
  keptPiece(id: string): Promise<KeptPiece | null>;
  snapshots(): Promise<readonly SnapshotAt[]>;
  /** One undo step back to a snapshot. */
  restore(snapshot: SnapshotAt): Promise<void>;
  cancelReading(): void;
  /** Says what could not be done; `title` as a heading. */
  tellTrouble(title: string, message: string): void;
  dismissTrouble(): void;
  dismissNotices(): void;
  retryKeeping(): void;
  /** This tab becomes the editor, the other one a reader. */
  takeOver(): Promise<void>;
  /** The piece as a file: `.stillpool` with its meshes and pictures, or the scene alone. `done` says it is on the disk. */
  packed(kind: 'bundle' | 'scene'): Promise<{ readonly blob: Blob; readonly done: (fileName: string) => void }>;
  setPaper(paper: Paper): void;
  /** Lays the sheet out if it isn't yet; not of numbers that are `about` right, nor of a piece that can't be planned. */
  makeSheet(): Promise<void>;
  /** The sheet as a PDF, or null with the trouble told. */
  makePdf(): Promise<Uint8Array | null>;
  /** The files of its templates, or null with the trouble told. */
  makeTemplates(): Promise<Gives['templates'] | null>;
  /** What is derived now beside the other goals' plans; null where it moves on first. To be asked at rest only. */
  compareGoals(): Promise<Comparison | null>;
  /** The plan of the document with something changed, as it would be at rest, or why there is none; null where the piece moves on first. To be asked at rest only. */
  planWith(document: SceneFile): Promise<Answer<'what if'> | null>;
  /** Temperatures of a pour of what is derived now, for its chart; null where they can't be told. */
  heatSeries(pour: number): Promise<HeatSeries | null>;
  /** What is derived now, as a task for a look in three dimensions. */
  heatTask(): Promise<Gives['heat task'] | null>;
}
