/**
 * The scene: the one document everything else is derived from (version 1).
 *
 * These are the types of a scene that has been read: every default is filled in. What the file said
 * beyond them is kept in `Reading.document` (read.ts), never here.
 * Lengths mm, volumes mL, masses g, temperatures °C, angles degrees, durations hours or minutes as named.
 */
import type { TestCup } from '../cure/test-cup.ts';

export type MoldMaterial = 'silicone' | 'hdpe' | 'acrylic' | 'glass' | 'wood' | 'foam';

interface MoldCommon {
  /** Inside height, floor to rim, mm. */
  readonly heightMm: number;
  /** Outward lean of the walls, degrees from vertical, 0 ≤ draft ≤ 45. */
  readonly draftDeg: number;
  readonly material: MoldMaterial;
  readonly wallMm: number;
  /** The piece stays in the mold. */
  readonly keep: boolean;
}

/** Inside sizes at the floor. The corner radius is the same at every height. */
export interface BoxMold extends MoldCommon {
  readonly shape: 'box';
  readonly lengthMm: number;
  readonly widthMm: number;
  readonly cornerRadiusMm: number;
}

export interface RoundMold extends MoldCommon {
  readonly shape: 'round';
  readonly diameterMm: number;
}

export type Mold = BoxMold | RoundMold;

export interface Tint {
  /** `#rrggbb`. */
  readonly color: string;
  /** Mass of dye as percent of the mixed resin's mass. */
  readonly percent: number;
  /** What the person's own swatch of this dye lets through. */
  readonly swatch?: Swatch;
  /** How clear the fill is to be; then `percent` is worked out for each pour. */
  readonly target?: TintTarget;
}

/** A poured chip of known thickness and dye, held to the light. */
export interface Swatch {
  readonly percent: number;
  readonly mm: number;
  /** Share of light that passes it, between 0 and 1. */
  readonly passes: number;
}

export interface TintTarget {
  /** Share of light that passes the whole fill, straight through, between 0 and 1. */
  readonly passes: number;
  /** The same in every pour, or more in each pour farther from the show face. */
  readonly how: 'even' | 'deepening';
  /** A pour's dye over that of the one nearer the show face, where it deepens. */
  readonly ratio: number;
}

export interface Fill {
  readonly toMm: number;
  /** A formula's id. */
  readonly formula: string;
  readonly tint?: Tint;
}

export type MeshUnit = 'mm' | 'cm' | 'm' | 'in';

export type Shape =
  | { readonly type: 'mesh'; readonly file: string; readonly unit?: MeshUnit }
  | { readonly type: 'library'; readonly name: string }
  | { readonly type: 'sphere'; readonly radiusMm: number }
  | { readonly type: 'ellipsoid'; readonly lengthMm: number; readonly widthMm: number; readonly heightMm: number }
  | { readonly type: 'box'; readonly lengthMm: number; readonly widthMm: number; readonly heightMm: number }
  | { readonly type: 'cylinder'; readonly radiusMm: number; readonly heightMm: number }
  /** Base down, apex up. */
  | { readonly type: 'cone'; readonly radiusMm: number; readonly heightMm: number }
  /** Height 0 at −x, full at +x. */
  | { readonly type: 'wedge'; readonly lengthMm: number; readonly widthMm: number; readonly heightMm: number }
  /** The smaller cap of a sphere, solid, rim down. */
  | { readonly type: 'cap'; readonly sphereRadiusMm: number; readonly rimRadiusMm: number }
  /** A real object measured in water, its volume spread evenly over its height. */
  | { readonly type: 'measured'; readonly volumeMl: number; readonly lengthMm: number; readonly widthMm: number; readonly heightMm: number };

export type Hold = 'rests' | 'stands' | 'fixed' | 'rod' | 'thread';

/** A shape as it stands in the mold. */
interface Standing {
  readonly id: string;
  readonly name: string;
  readonly shape: Shape;
  /** Where the center of the posed shape's bounds is, in mold coordinates. */
  readonly xMm: number;
  readonly yMm: number;
  /** Height of the posed shape's lowest point. */
  readonly baseMm: number;
  /** Turns about the fixed x, then y, then z axis. */
  readonly turnDeg: readonly [number, number, number];
  readonly scale: number;
}

interface SolidCommon extends Standing {
  /** The real object's mass; does not follow `scale`. */
  readonly massG?: number;
  readonly densityGPerMl?: number;
  /** A key of MATERIALS (core/resin). */
  readonly material?: string;
  readonly hold: Hold;
  /** The hottest the object may get. */
  readonly limitC?: number;
  readonly porous: boolean;
  readonly sealed: boolean;
}

export interface Figure extends SolidCommon {
  readonly kind: 'figure';
}

export interface Bed extends SolidCommon {
  readonly kind: 'bed';
  /** Share of the bed's volume that drinks resin, 0 ≤ void < 1. */
  readonly voidFraction: number;
}

export interface Art {
  readonly file: string;
  readonly widthMm: number;
  readonly xMm: number;
  readonly yMm: number;
  readonly turnDeg: number;
  readonly mirror: boolean;
}

export interface Plane {
  readonly kind: 'plane';
  readonly id: string;
  readonly name: string;
  readonly atMm: number;
  /** Clock hours. */
  readonly paintH: number;
  readonly dryH: number;
  readonly art?: Art;
  /** Ids of the creatures that are painted on it, each as its section at this height; left out: none. */
  readonly slices?: readonly string[];
  /** What its paint is to look like through the water over it, `#rrggbb`; left out: nobody said. */
  readonly colors?: readonly string[];
}

/** A creature painted on planes instead of set in: it displaces nothing, its sections are what is painted. Posed as a figure is. */
export interface Creature extends Standing {
  /** Width over which paint fades out under the plane nearer the viewer. */
  readonly featherMm: number;
  /** Off the straight look at the show face, in air: up to here no step between planes is to show. */
  readonly viewDeg: number;
  /** What its paint is to look like through the water over it, `#rrggbb`; left out: nobody said. */
  readonly colors?: readonly string[];
  /** An eye that its planes are to line up for; left out: they are painted as it is cut. */
  readonly read?: EyePoint;
}

/** x, y and pressure from 0 to 1. */
export type StrokePoint = readonly [number, number, number];

/** A stroke of a sketch on a plane. */
export interface Stroke {
  /** A plane's id. */
  readonly plane: string;
  /** `#rrggbb`. */
  readonly ink: string;
  /** At full pressure. */
  readonly widthMm: number;
  /** Inside its width, the band over which paint fades out to its edge. */
  readonly softMm: number;
  /** In mold coordinates, looking down into the mold, face-up and face-down alike; one point is a dot. */
  readonly points: readonly StrokePoint[];
}

/** Where the piece is looked at from. */
export interface EyePoint {
  /** Out from the show face, and over which place of it in mold coordinates. */
  readonly eyeMm: number;
  readonly eyeXMm: number;
  readonly eyeYMm: number;
  /** The creature is built so much deeper that it looks as deep as it is. */
  readonly stretch: boolean;
}

/** The light that the finished piece stands under, through the show face. */
export interface Lamp {
  /** Where it stands: degrees counterclockwise from the mold's right, looking down into the mold. */
  readonly fromDeg: number;
  /** How high over the show face; 90 shines straight in. */
  readonly aboveDeg: number;
}

export type Placement = Figure | Bed | Plane;
export type SolidPlacement = Figure | Bed;

export type Family = 'general' | 'low-viscosity' | 'coating' | 'deep-pour' | 'uv';

export interface KitPrice {
  readonly kitMl: number;
  readonly amount: number;
}

/** A resin with its hardener. Every value is there; `typical` lists those that came from the family. */
export interface Formula {
  readonly id: string;
  readonly name: string;
  readonly family: Family;
  /** Part A : part B, as on the label. A one-part `uv` formula has neither. */
  readonly ratioByVolume?: readonly [number, number];
  readonly ratioByMass?: readonly [number, number];
  readonly densityAGPerMl: number;
  readonly densityBGPerMl: number;
  readonly maxDepthMm: number;
  readonly minDepthMm: number;
  readonly maxBatchG: number;
  /** Temperature at which every time below holds. */
  readonly atC: number;
  readonly potLifeMin: number;
  readonly potLifeMassG: number;
  readonly bondOpensH: number;
  /** Counted from the start of the pour; every other time from its end. */
  readonly bondClosesH: number;
  readonly scuffableH: number;
  readonly paintableH: number;
  readonly demoldH: number;
  readonly fullCureH: number;
  readonly viscosityMPaS: number;
  readonly refractiveIndex: number;
  readonly shrinkageFraction: number;
  /** Of a kit, both parts together; `sizes` are others it is sold in. */
  readonly price?: KitPrice & { readonly currency: string; readonly sizes?: readonly KitPrice[] };
  /** Names of the fields that no label gave. */
  readonly typical: readonly string[];
}

export interface RoomEntry {
  /** Local wall-clock time, minutes since 2000-01-01T00:00 (core/units/time). */
  readonly fromMin: number;
  readonly temperatureC: number;
  /** Of the air; left out: as before. */
  readonly humidity?: number;
}

/** A heated, covered box that a piece cures in once it is tacky. */
export interface CuringBox {
  readonly temperatureC: number;
  /** When it is warm; empty: always. */
  readonly hours: readonly BenchHours[];
}

export interface Room {
  readonly temperatureC: number;
  /** In ascending order; each entry is in force from its moment, before the first `temperatureC`. */
  readonly profile: readonly RoomEntry[];
  /** When someone sleeps in it: no pour may cure from liquid to tacky then. Left out: nobody does. */
  readonly sleep?: readonly BenchHours[];
  /** Relative humidity of the air, percent. Left out: nobody measured it. */
  readonly humidity?: number;
  readonly box?: CuringBox;
}

export interface BenchHours {
  /** Weekdays, 0 = Monday … 6 = Sunday. */
  readonly days: readonly number[];
  /** Minutes after midnight. `toMin` at or before `fromMin` means the next morning. */
  readonly fromMin: number;
  readonly toMin: number;
}

/** Days with other hours than the week’s, or none. Days are counted from 2000-01-01. */
export interface BenchException {
  readonly fromDay: number;
  readonly toDay: number;
  /** Empty: the bench is shut. */
  readonly hours: readonly { readonly fromMin: number; readonly toMin: number }[];
}

export interface Bench {
  /** Minutes since 2000-01-01T00:00, local; undefined when the scene names no start. */
  readonly startMin?: number;
  /** Of resin and hardener when they are mixed, °C; left out: the room's. */
  readonly bottlesC?: number;
  readonly hours: readonly BenchHours[];
  /** Days with other hours. */
  readonly exceptions: readonly BenchException[];
  /** When the piece is wanted; undefined: whenever it is done. */
  readonly readyByMin?: number;
  readonly scaleG: number;
  /** The scale dye is weighed on. */
  readonly dyeScaleG: number;
  readonly holdUpMl: number;
  readonly allowanceFraction: number;
  readonly pourH: number;
  readonly scuffH: number;
  readonly watchH: number;
  /** What the 100 mm bars of a printed page measured, across and up; left out: nobody measured. */
  readonly printBars?: PrintBars;
}

export interface PrintBars {
  readonly xMm: number;
  readonly yMm: number;
}

/** What the plan is best at; `even` is the design’s planner. */
export type PlanGoal = 'even' | 'fewest' | 'soonest' | 'coolest' | 'cheapest';

/** What the person asks of the plan. */
export interface PlanWishes {
  readonly goal: PlanGoal;
  /** Heights where a pour line must be, and spans where none may be that is no stop. */
  readonly pinsMm: readonly number[];
  readonly avoid: readonly { readonly fromMm: number; readonly toMm: number }[];
  /** Formulas to choose from for any layer; null: each fill keeps its own. */
  readonly formulas: readonly string[] | null;
  /** Minutes from mixing one cup to having it poured; null: not asked. */
  readonly cupMin: number | null;
  /** Consumables of a pour and of a scuff, in the prices’ currency. */
  readonly pourCost: number;
  readonly scuffCost: number;
}

/** A kit on hand, or what is left of one. */
export interface StockKit {
  readonly formula: string;
  /** Both parts in their ratio, or each by itself. */
  readonly ml: number | { readonly partA: number; readonly partB: number };
  /** The last day it is good, counted from 2000-01-01: what its label says, or days from opening, whichever is sooner. */
  readonly useByDay?: number;
  /** What the whole kit cost; undefined: as the formula's. */
  readonly price?: KitPrice;
}

/** What the person's work and the rest cost for all copies together, in the person's currency. */
export interface Labor {
  /** The prices' own where it is not said. */
  readonly currency?: string;
  readonly perHour: number;
  /** All of them; undefined: those of the plan, and `finishH`. */
  readonly hours?: number;
  /** Undefined: as the plan has the finish. */
  readonly finishH?: number;
  /** Cups, gloves, wipes, paper for all of it; beside `plan.pourCost` and `plan.scuffCost`. */
  readonly consumables: number;
  readonly other: readonly { readonly name: string; readonly amount: number }[];
  /** Share of pieces that are lost. */
  readonly lossFraction: number;
  /** Share of the price that is kept. */
  readonly marginFraction: number;
  /** On top of the price. */
  readonly taxFraction: number;
}

export type FaceFinish = 'as-cast' | 'sanded' | 'polished' | 'flood-coat' | 'hidden';

/** How the piece is finished once it is cured. Faces as they lie in the mold. */
export interface Finishing {
  readonly top: FaceFinish;
  readonly sides: FaceFinish;
  readonly bottom: FaceFinish;
  /** Bevel of every edge; 0: none. */
  readonly edgeMm: number;
  readonly base: 'none' | 'felt' | 'wood' | 'light';
  /** What flood coats are of, and how thick. */
  readonly coat: { readonly formula: string; readonly mm: number };
  readonly postCure?: WarmRest;
  /** Hands on one piece, all its faces together, of a coat one face; left out: by rule. */
  readonly hours: { readonly trim?: number; readonly edges?: number; readonly sand?: number; readonly coat?: number; readonly polish?: number; readonly base?: number };
  /** Abrasives, polish, felt and the rest for all copies, in the prices’ currency. */
  readonly cost: number;
}

/** A rest in gentle warmth after the piece has cured. */
export interface WarmRest {
  readonly temperatureC: number;
  readonly hours: number;
  /** The most the resin’s label allows; undefined: it says nothing. */
  readonly labelC?: number;
}

/** How many of the piece are made at once, and how long sharing out a cup takes. */
export interface Run {
  readonly copies: number;
  /** Minutes to weigh and mix a cup. */
  readonly mixMin: number;
  /** Minutes to pour one mold. */
  readonly moldMin: number;
}

/** A class: every student makes one piece, in one meeting for what students do; the teacher does the rest before and after. */
export interface ClassMeeting {
  readonly students: number;
  readonly fromMin: number;
  readonly hours: number;
  /** Age of the youngest, years. */
  readonly youngest: number;
  /** Planes and figures that students paint and set down themselves; null: all of them. */
  readonly paint: readonly string[] | null;
  readonly set: readonly string[] | null;
  /** Students mix and pour. */
  readonly pour: boolean;
  /** One student’s pour. */
  readonly pourH: number;
}

export interface Scene {
  /** Tells two pieces of one name apart where they meet, as in a calendar; undefined: its name does. */
  readonly id?: string;
  readonly name: string;
  readonly mold: Mold;
  readonly cast: 'face-up' | 'face-down';
  readonly fillMm: number;
  readonly fills: readonly Fill[];
  readonly placements: readonly Placement[];
  readonly creatures: readonly Creature[];
  /** In the order they were drawn: later ones lie over earlier ones. Left out: none. */
  readonly strokes?: readonly Stroke[];
  /** Every formula that a fill names, by id, and every other the file carries. */
  readonly formulas: ReadonlyMap<string, Formula>;
  readonly heatModel: 'label' | 'simulated';
  /** What cups of the formulas did; they narrow what is known of a formula's heat. */
  readonly testCups: readonly TestCup[];
  readonly room: Room;
  readonly bench: Bench;
  readonly plan: PlanWishes;
  readonly stock: readonly StockKit[];
  readonly labor: Labor | null;
  /** Left out: the finish is told, not planned. */
  readonly finishing?: Finishing;
  readonly run: Run;
  /** Left out: no class. */
  readonly class?: ClassMeeting;
  /** Left out: light from all round, which casts no shadow to speak of. */
  readonly lamp?: Lamp;
}
