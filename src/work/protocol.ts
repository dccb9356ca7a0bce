/** What the page asks of its worker, and what comes back. Everything in it can be cloned between threads. */
import type { HeatSeries } from '../core/cure/verdict-series.ts';
import type { Finding, Plan } from '../core/plan/plan.ts';
import type { Problem } from '../core/scene/read.ts';
import type { Scene } from '../core/scene/scene.ts';
import type { Paper, SheetDocument } from '../core/sheet/document.ts';
import type { Polygon } from '../core/sheet/polygon.ts';
import type { Receiver } from '../core/sight/casters.ts';
import type { PlaneGuide } from '../core/sight/guide.ts';
import type { Region } from '../core/sight/region.ts';
import type { ChosenUnits } from '../core/units/in-units.ts';
import type { Bounds } from '../core/solid/solid.ts';
import type { HeatTask } from './heat-protocol.ts';

/** A file as the person gave it. */
export interface GivenFile {
  /** Its name, or its path below a folder that was chosen, parts joined by `/`. */
  readonly path: string;
  readonly blob: Blob;
}

/** A file of the piece. The same `id` always means the same bytes. */
export interface PieceFile {
  readonly id: string;
  readonly path: string;
  readonly blob: Blob;
}

export type DemoName = 'mill-pond' | 'rock-pool';

/** A scene's document with the files it links to, not planned yet. */
export interface OpenedScene {
  /** Parsed JSON, nothing lost; not checked yet. */
  readonly document: unknown;
  readonly files: ReadonlyMap<string, Blob>;
  /** Links of pictures that were not among what was given. */
  readonly missing: readonly string[];
}

/** What a drawing of a solid is made of: its form, turned about x and y only, in a frame of its own. */
export interface SolidForm {
  /** x, y, z per point, mm. */
  readonly positions: Float32Array;
  readonly indices: Uint32Array;
}

export interface DerivedSolid {
  readonly id: string;
  readonly kind: 'figure' | 'bed';
  readonly name: string;
  readonly bounds: Bounds;
  /** Which form it has. */
  readonly form: string;
}

/** A scene with all that was derived from it. */
export interface DerivedScene {
  readonly scene: Scene;
  readonly plan: Plan;
  /** Outlines from the front, mm in x–z, by placement id. */
  readonly silhouettes: ReadonlyMap<string, readonly Polygon[]>;
  readonly solids: readonly DerivedSolid[];
  /** Those forms that have not been sent yet; one is sent once as long as it is in use. */
  readonly forms: ReadonlyMap<string, SolidForm>;
  /** Solids that overlap, or cross a wall, were not united: that takes longer than a drag allows. */
  readonly about: boolean;
  /** The heat was judged in haste or not at all: pours and times may yet change. */
  readonly checkingHeat: boolean;
}

/** What heat is asked of. */
export type PlannedScene = Pick<DerivedScene, 'scene' | 'plan'>;

/** A plan beside those of the other goals. */
export interface Comparison {
  readonly goals: NonNullable<Plan['goals']>;
  /** What longer hours would save: on one day, every evening. */
  readonly longer: readonly Finding[];
}

/** What a sheet is laid out from. */
export type SheetScene = Pick<DerivedScene, 'scene' | 'plan' | 'silhouettes'>;

/** A painted creature as it would stand in the piece, to draw in thin lines. */
export interface DrawnCreature {
  readonly id: string;
  readonly topMm: number;
  /** From the front, mm in x–z. */
  readonly outline: readonly Polygon[];
  /** Lines round it at some heights, looking down. */
  readonly contours: readonly { readonly atMm: number; readonly loops: Region }[];
  /** Why it can't be drawn or cut; null: it can. */
  readonly why: string | null;
}

/** What to paint on the planes of a piece with painted creatures, and what a lamp throws on them. */
export interface PaintedPlanes {
  /** In painting order. */
  readonly guides: readonly PlaneGuide[];
  /** By the plane's id: sentences on what is not drawn. */
  readonly unseen: ReadonlyMap<string, readonly string[]>;
  readonly creatures: readonly DrawnCreature[];
  /** For every plane and the back; none without a lamp. Through the fills' own formulas: which others a plan may choose is not waited for. */
  readonly shadows: readonly Receiver[];
  /** Names of what throws a shadow that is not drawn. */
  readonly unknownShadows: readonly string[];
}

export interface AddedMesh {
  readonly triangles: number;
  /** Along x, y and z as its file has it, mm. */
  readonly sizeMm: readonly [number, number, number];
}

export type Request =
  /** What the next requests find by path, all of it. */
  | { readonly kind: 'use'; readonly files: readonly PieceFile[] }
  | { readonly kind: 'demo'; readonly name: DemoName }
  | { readonly kind: 'open'; readonly files: readonly GivenFile[] }
  /** Reads and measures a mesh of the piece. */
  | { readonly kind: 'measure'; readonly path: string }
  /**
   * `live`: within a drag's time, where need be without uniting. `heat`: at once by the middle of what the label allows,
   * or all of it; left out: in haste while live. All of it may be left for a request that comes in meanwhile.
   */
  | { readonly kind: 'derive'; readonly document: unknown; readonly live: boolean; readonly heat?: 'quick' | 'whole' }
  /** Something will follow: whatever can be left for later is. */
  | { readonly kind: 'hurry' }
  /** What the other goals' plans would come to. Takes a search for each; left for any request that comes in meanwhile. */
  | { readonly kind: 'compare'; readonly scene: Scene }
  /** The plan of another document that has the piece's own files, as it would be at rest; left for any request that comes in meanwhile. */
  | { readonly kind: 'what if'; readonly document: unknown }
  /** What to paint of the scene's creatures. */
  | { readonly kind: 'painted'; readonly scene: Scene }
  /** Temperatures of a pour, counted from 1. */
  | { readonly kind: 'heat series'; readonly planned: PlannedScene; readonly pour: number }
  | { readonly kind: 'heat task'; readonly planned: PlannedScene }
  | { readonly kind: 'pack'; readonly sceneText: string; readonly paths: readonly string[] }
  | { readonly kind: 'sheet'; readonly planned: SheetScene; readonly paper: Paper; readonly units: ChosenUnits }
  | { readonly kind: 'pdf'; readonly planned: SheetScene; readonly paper: Paper; readonly units: ChosenUnits }
  | { readonly kind: 'templates'; readonly planned: PlannedScene; readonly paper: Paper; readonly units: ChosenUnits };

/** What each kind of request gives. */
export interface Gives {
  readonly use: null;
  readonly demo: OpenedScene;
  readonly open: OpenedScene;
  readonly measure: AddedMesh;
  readonly derive: DerivedScene;
  readonly hurry: null;
  readonly compare: Comparison;
  readonly 'what if': PlannedScene;
  readonly painted: PaintedPlanes;
  readonly 'heat series': HeatSeries;
  /** For a look in three dimensions, null where there is nothing to look at; and how warm one dimension has each pour with the same resin, °C. */
  readonly 'heat task': { readonly task: HeatTask | null; readonly hottestC: readonly number[] };
  readonly pack: Blob;
  readonly sheet: SheetDocument;
  readonly pdf: Uint8Array;
  /** A PDF and an SVG of every plane, and stencils of all. */
  readonly templates: readonly { readonly name: string; readonly bytes: Uint8Array }[];
}

export type Kind = Request['kind'];
export type RequestOf<K extends Kind> = Extract<Request, { kind: K }>;

/** `canceled`: the person stopped it, or the worker broke; its problems say which. `overtaken`: left for another request. */
export type Answer<K extends Kind> =
  | { readonly ok: true; readonly value: Gives[K] }
  | { readonly ok: false; readonly problems: readonly Problem[]; readonly canceled?: boolean; readonly overtaken?: boolean };

/** A large mesh on its way: what is being done with which file, and how far that has come. */
export interface Progress {
  readonly name: string;
  readonly stage: string;
  /** 0 to 1; left out where nobody can say. */
  readonly share?: number;
  /** Told once, as soon as it has been read: a lighter copy to look at, from its lowest corner at the file's own place. */
  readonly lighter?: SolidForm;
}

/** The worker as the store knows it: its client, or the same answers in one process. */
export interface Editor {
  ask<K extends Kind>(request: RequestOf<K>): Promise<Answer<K>>;
  /** Stops what is being done; it ends as canceled. The files are to be given again with `use`. */
  cancel(): void;
  onProgress(listener: (progress: Progress | null) => void): void;
}

export interface Numbered {
  readonly id: number;
  readonly request: Request;
}

export type FromWorker = { readonly id: number; readonly answer: Answer<Kind> } | { readonly progress: Progress | null };
