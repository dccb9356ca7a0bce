/** The plan: what comes out of a scene. Field names are those of `plan --json`. Times are local, `YYYY-MM-DDTHH:MM`. */
import type { Bubbles } from '../cure/bubbles.ts';
import type { Softening } from '../cure/softening.ts';
import type { Fix, HeatCause, HeatWords } from '../cure/verdict-types.ts';
import type { Premix } from '../resin/premix.ts';
import type { FaceFinish, PlanGoal } from '../scene/scene.ts';

export type Severity = 'halt' | 'caution' | 'note';

export interface Finding {
  readonly code: string;
  readonly severity: Severity;
  /** What it is about, for people and for matching: `layer 3`, `pour 2`, a placement's id, `formula low`, `mold`, a field's path. */
  readonly subject: string;
  readonly message: string;
  readonly remedy: string;
  /** Indices of the pours it concerns; left out when it concerns the whole plan. */
  readonly pours?: readonly number[];
  /** A small change that would buy days, as `--what-if` takes it; it can be taken up by one press. */
  readonly whatIf?: string;
  /** Of `cup-hot`: the most in one cup, g, and the room, °C, either of which would do by itself. */
  readonly cooler?: { readonly mostG?: number; readonly roomC?: number };
}

export interface PartAmount {
  readonly ml: number;
  readonly g: number;
}

export interface PlacementResult {
  readonly id: string;
  readonly kind: 'figure' | 'bed';
  readonly name: string;
  /** The whole solid's, also what is outside the water; null: the mesh is too broken to tell. */
  readonly volumeMl: number | null;
  readonly watertight: boolean;
  /** null: unknown. */
  readonly massG: number | null;
  readonly liftG: number | null;
  readonly floats: boolean;
  /** null: it does not float, or is held. */
  readonly safeLockMm: number | null;
  /** Steel that would hold it down, g; null where it does not float. */
  readonly steelG: number | null;
  readonly baseMm: number;
  readonly topMm: number;
}

export type StopKind = 'plane' | 'figure' | 'fill' | 'top';

export interface Stop {
  readonly kind: StopKind;
  /** The plane's or figure's id. */
  readonly id?: string;
}

export interface Layer {
  readonly index: number;
  readonly fromMm: number;
  readonly toMm: number;
  /** The causes at its top. */
  readonly stops: readonly Stop[];
  readonly formula: string;
  readonly grossMl: number;
  readonly displacedMl: number;
  readonly netMl: number;
}

/** How warm a cup gets while it is poured. */
export interface CupHeat {
  /** 5–95 % of its middle when the label's usable minutes end, °C. */
  readonly endC: readonly [number, number];
  /** Over 50 °C before they end, or a smaller cup is: at the cautious end. */
  readonly hot: boolean;
  /** When it passes 50 °C at the cautious end; null: not before its pour is done. */
  readonly passesMin: number | null;
  /** Usable minutes by the label alone; `usableMin` is never over them. */
  readonly byLabelMin: number;
  readonly words: string;
}

export interface Batch {
  readonly mixMl: number;
  readonly mixG: number;
  readonly partA: PartAmount;
  readonly partB: PartAmount;
  /** Cumulative scale readings: after part A, after part B (one alone for a one-part formula). */
  readonly scaleStopsG: readonly number[];
  /** Dye, weighed apart; 0 without a tint. */
  readonly tintG: number;
  /** How to weigh it where it is too little for the scale; null: as it is, or on a finer one. */
  readonly premix: Premix | null;
  readonly usableMin: number;
  /** Molds it fills; under 1 where a mold takes several cups. */
  readonly molds: number;
  /** Minutes to mix it and pour it out; null: one piece alone, which is not timed. */
  readonly workMin: number | null;
  /** Null under the label model. */
  readonly heat: CupHeat | null;
}

/** Minutes by which warmth moved a pour's moments away from the label's: `closes` never later, the others never sooner. */
export interface Moves {
  readonly opens: number;
  readonly closes: number;
  readonly scuffable: number;
  readonly paintable: number;
  readonly demold: number;
}

/** How warm a pour gets. A range, never one number: a label tells no more. */
export interface PourHeat {
  /** 5–95 % of its hottest point, °C. */
  readonly rangeC: readonly [number, number];
  readonly words: HeatWords;
  /** When it is warmest, hours from its start. */
  readonly afterH: number;
  /** The greatest depth that is safe for it where and when it is poured, mm; never over the label's. */
  readonly safeDepthMm: number;
  /** The same range if it were left in the room; left out where it does not go into a curing box. */
  readonly inRoomC?: readonly [number, number];
  readonly cause: HeatCause;
  /** How it was judged. */
  readonly model: string;
  /** It is poured into a harsher place than the label speaks of. */
  readonly harsher: boolean;
  /** The room, held from the pour on, that would be too much for its depth, °C. */
  readonly tooWarmRoomC: number;
  /** The room when it is poured, °C. */
  readonly roomC: number;
  readonly movedMin: Moves;
  readonly bubbles: Bubbles;
  readonly softens: Softening;
  /** What would help, where it is too deep or near to it. */
  readonly fixes: readonly Fix[];
}

export interface PourTint {
  /** Dye in percent of the mix, by weight. */
  readonly percent: number;
  /** Share of light that passes the pour; null: there is no swatch. */
  readonly passes: number | null;
  /** Worked out from a target, not typed. */
  readonly aimed: boolean;
}

/** What a class does, and what the teacher does before and after it. Pours from 1, planes and figures by id. */
export interface ClassPlan {
  readonly at: string;
  readonly to: string;
  readonly students: number;
  readonly paints: readonly string[];
  readonly sets: readonly string[];
  /** Each student mixes and pours it for one piece; null: the teacher pours everything. */
  readonly pours: number | null;
  readonly pouredBefore: readonly number[];
  readonly pouredAfter: readonly number[];
  /** Why the rest is not done in the class. */
  readonly why: readonly string[];
  /** Where nothing is ready for the class: when the first surface is. */
  readonly firstReady: string | null;
}

/** Cups that several pieces are poured from: mixed once. A pour’s own amounts are its part of them, its `batches` the cups themselves. */
export interface SharedCups {
  /** Of `together.poured`, from 1. */
  readonly pouring: number;
  /** Names of the other pieces. */
  readonly with: readonly string[];
  /** Molds that they fill, this piece’s among them. */
  readonly molds: number;
  readonly mixMl: number;
  readonly mixG: number;
}

export type Route = 'wet-on-tacky' | 'cure-scuff-wipe';

export interface Pour {
  readonly index: number;
  readonly layer: number;
  readonly fromMm: number;
  readonly toMm: number;
  readonly depthMm: number;
  readonly formula: string;
  readonly grossMl: number;
  readonly displacedMl: number;
  readonly netMl: number;
  readonly mixMl: number;
  readonly mixG: number;
  readonly partA: PartAmount;
  readonly partB: PartAmount;
  readonly batches: readonly Batch[];
  /** Left out: its cups are its own. */
  readonly shared?: SharedCups;
  /** Straight down from the rim to the liquid's level, before it shrinks. */
  readonly fillMarkFromRimMm: number;
  readonly starts: string;
  readonly ends: string;
  readonly opens: string;
  readonly closes: string;
  readonly scuffable: string;
  readonly paintable: string;
  readonly demold: string;
  readonly route: Route | null;
  readonly locks: readonly string[];
  /** Null: clear. */
  readonly tint: PourTint | null;
  /** Null under the label model. */
  readonly heat: PourHeat | null;
  readonly why: string;
  /** Onto a tacky surface: the last moment it may start; later the one below has to cure and be scuffed. Else null. */
  readonly latestStart: string | null;
  /** In the curing box; left out where there is none or it stays in the room. */
  readonly box?: { readonly from: string; readonly to: string };
  /** Of the mix, °C, where the bottles are warmer than the room; else left out. */
  readonly mixC?: number;
}

export type StepKind = 'prepare' | 'place' | 'pour' | 'wait' | 'move' | 'scuff' | 'paint' | 'dry' | 'demold' | 'finish';

export interface Step {
  readonly kind: StepKind;
  /** The pour it makes, or whose surface it waits for or works on; null before the first. */
  readonly pour: number | null;
  readonly placements: readonly string[];
  readonly from: string;
  readonly to: string;
  readonly text: string;
  /** To the class, where the scene has one. */
  readonly class?: 'before' | 'in' | 'after';
  /** Of a scene that plans its finish: which work it is, on which face. */
  readonly finishing?: { readonly work: FinishWork; readonly face: string | null };
}

export type FinishWork = 'begins' | 'warm' | 'demold' | 'trim' | 'rest' | 'edges' | 'sand' | 'coat' | 'harden' | 'polish' | 'base' | 'done';

/** A flood coat, mixed and weighed as a pour is, for all copies. */
export interface FloodCoat {
  readonly index: number;
  readonly face: string;
  readonly formula: string;
  readonly thicknessMm: number;
  /** Of one piece, as `netMl` is. */
  readonly areaCm2: number;
  readonly netMl: number;
  readonly mixMl: number;
  readonly mixG: number;
  readonly partA: PartAmount;
  readonly partB: PartAmount;
  readonly batches: readonly Batch[];
  readonly starts: string;
  readonly ends: string;
  readonly opens: string;
  readonly closes: string;
  readonly scuffable: string;
  /** When the piece can be turned onto another face, and when the coat is fully hard. */
  readonly firm: string;
  readonly hard: string;
}

/** How the piece is finished once it is out of its mold. */
export interface FinishingPlan {
  /** When it is done. */
  readonly ready: string;
  /** Those that are worked on, in that order; the sides of a box together. */
  readonly faces: readonly { readonly face: string; readonly name: string; readonly finish: FaceFinish; readonly areaCm2: number; readonly grits: readonly number[]; readonly polish: boolean }[];
  readonly coats: readonly FloodCoat[];
  /** What stands in place of the coats’ amounts; null where they may be poured. */
  readonly coatHalt: string | null;
  readonly warmRest: { readonly temperatureC: number; readonly from: string; readonly to: string } | null;
  /** At the bench, for all copies. */
  readonly handsH: number;
}

export interface ShoppingRow {
  readonly formula: string;
  readonly mixMl: number;
  readonly partA: PartAmount;
  readonly partB: PartAmount;
  /** Fit to use when it is wanted, mL of both parts in their ratio. */
  readonly onHandMl: number;
  /** Places in the scene's `stock` of what is too old by then; not counted. */
  readonly tooOld: readonly number[];
  /** What is taken from where in the scene's `stock`, in the order it is used up. */
  readonly fromStock: readonly { readonly stock: number; readonly ml: number }[];
  readonly toBuyMl: number;
  /** Whole kits; none where nothing is needed or no price is known. */
  readonly kits: readonly { readonly kitMl: number; readonly amount: number; readonly count: number }[];
  /** Price of those kits; null: no price is known. */
  readonly bought: number | null;
  /** Price of what is used up; null: a price is missing. */
  readonly consumed: number | null;
  readonly currency: string | null;
  /** Unmixed, once all is poured. */
  readonly leftoverMl: number;
  /** Small rounds that it would fill; null: not one. */
  readonly leftoverFills: { readonly diameterMm: number; readonly depthMm: number; readonly count: number } | null;
}

/** In the person's currency. Sums that need a price that is missing are null. */
export interface Cost {
  readonly currency: string | null;
  /** As used up, and as it must be bought in whole kits. */
  readonly resin: { readonly consumed: number; readonly bought: number } | null;
  readonly consumables: number;
  readonly other: readonly { readonly name: string; readonly amount: number }[];
  readonly labor: { readonly hours: number; readonly perHour: number; readonly amount: number };
  /** For pieces that are lost. */
  readonly reserve: number | null;
  /** Resin used up, consumables, the rest, labor and reserve. */
  readonly total: number | null;
  /** The margin is a share of it. */
  readonly quote: number | null;
  readonly tax: number | null;
  readonly quoteWithTax: number | null;
  /** What is paid out for it: kits bought, consumables and the rest. */
  readonly toSpend: number | null;
  /** For one of the copies. */
  readonly perPiece: { readonly total: number | null; readonly quoteWithTax: number | null };
  /** Formulas without a price in that currency. */
  readonly missing: readonly string[];
}

/** Given a scene that can't be planned: what is in the way, by the scene's own paths. */
export type PlanResult = { readonly ok: true; readonly plan: Plan } | { readonly ok: false; readonly problems: readonly { readonly path: string; readonly message: string }[] };

export interface Plan {
  readonly scene: string;
  readonly mold: { readonly capacityMl: number; readonly fillVolumeMl: number; readonly finishedG: number | null };
  readonly placements: readonly PlacementResult[];
  readonly layers: readonly Layer[];
  readonly pours: readonly Pour[];
  readonly steps: readonly Step[];
  readonly finish: string;
  readonly shopping: readonly ShoppingRow[];
  /** Null: the scene gives neither a price nor anything of labor. */
  readonly cost: Cost | null;
  readonly cautions: readonly string[];
  readonly findings: readonly Finding[];
  /** When the finished piece is done, and how; left out where the scene plans no finish: then `finish` is the end of it. */
  readonly ready?: string;
  readonly finishing?: FinishingPlan;
  /** How many are made at once. Heights, gross, displaced and net are one piece's; mixes, shopping and cost are for all. */
  readonly copies: number;
  /** Left out: no class. */
  readonly class?: ClassPlan;
  /** What the plan is best at. */
  readonly goal: PlanGoal;
  /** What each goal's plan would come to; null: not asked for. */
  readonly goals: readonly GoalRow[] | null;
}

/** A goal's plan in figures, to be set beside another's. */
export interface GoalRow {
  readonly goal: PlanGoal;
  readonly pours: number;
  readonly finish: string;
  /** Resin and consumables, in the prices' currency; null: a price is missing. */
  readonly cost: number | null;
  readonly currency: string | null;
  /** Mixed in all. */
  readonly mixG: number;
  /** Largest depth over its label's. */
  readonly fullest: number;
  /** The warmest a pour of it may get; null: not simulated, the label's limits alone. */
  readonly warmestC: number | null;
  /** Only where it does not keep to what was asked of lines, formulas or cups: the even plan may not. */
  readonly keeps?: false;
}
