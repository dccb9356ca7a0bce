/**
 * The scene's document as the person's file holds it, and what an edit of it gives back.
 *
 * Optional fields are left out until someone sets them, so a default can be told from a choice. Objects may hold
 * fields that are not listed here: edits copy them along untouched. Every edit ends in `done`, which reads the new
 * document as opening it would; so none can give a document that could not be opened again.
 */
import type { TestCup } from '../../cure/test-cup.ts';
import { capital } from '../../units/format.ts';
import { migrate } from '../migrate.ts';
import { problemLine, readScene, type Problem } from '../read.ts';
import type { FaceFinish, Family, Finishing, Hold, MoldMaterial, PlanGoal, Shape, StrokePoint, WarmRest } from '../scene.ts';
import { withoutGoneInClass } from './class-things.ts';

interface MoldFileCommon {
  readonly heightMm: number;
  readonly draftDeg?: number;
  readonly material?: MoldMaterial;
  readonly wallMm?: number;
  readonly keep?: boolean;
}
export type BoxMoldFile = MoldFileCommon & { readonly shape: 'box'; readonly lengthMm: number; readonly widthMm: number; readonly cornerRadiusMm?: number };
export type RoundMoldFile = MoldFileCommon & { readonly shape: 'round'; readonly diameterMm: number };
export type MoldFile = BoxMoldFile | RoundMoldFile;

export interface TintFile {
  readonly color?: string;
  readonly percent?: number;
  /** What a chip of the dye lets through, and a clarity that the dye is worked out from; in any form the file has (clarity.ts reads ours). */
  readonly swatch?: unknown;
  readonly target?: unknown;
}
export interface FillFile {
  readonly toMm: number;
  readonly formula: string;
  readonly tint?: TintFile;
}

interface StandingFile {
  readonly id: string;
  readonly name?: string;
  readonly shape: Shape;
  readonly xMm?: number;
  readonly yMm?: number;
  readonly baseMm?: number;
  readonly turnDeg?: readonly [number, number, number];
  readonly scale?: number;
}

interface SolidFile extends StandingFile {
  readonly massG?: number;
  readonly densityGPerMl?: number;
  readonly material?: string;
  readonly hold?: Hold;
  readonly limitC?: number;
  readonly porous?: boolean;
  readonly sealed?: boolean;
  readonly locked?: boolean;
}
export interface FigureFile extends SolidFile {
  readonly kind: 'figure';
}
export interface BedFile extends SolidFile {
  readonly kind: 'bed';
  readonly voidFraction?: number;
}
export interface ArtFile {
  readonly file: string;
  readonly widthMm: number;
  readonly xMm?: number;
  readonly yMm?: number;
  readonly turnDeg?: number;
  readonly mirror?: boolean;
}
export interface PlaneFile {
  readonly kind: 'plane';
  readonly id: string;
  readonly name?: string;
  readonly atMm: number;
  readonly paintH?: number;
  readonly dryH?: number;
  readonly art?: ArtFile;
  /** Ids of the creatures painted on it. */
  readonly slices?: readonly string[];
  /** What its paint is to look like, `#rrggbb`. */
  readonly colors?: readonly string[];
  /** It was there before any creature was painted on it, and stays when they go. */
  readonly stays?: boolean;
  readonly locked?: boolean;
}
export type PlacementFile = FigureFile | BedFile | PlaneFile;

export interface EyePointFile {
  readonly eyeMm?: number;
  readonly eyeXMm?: number;
  readonly eyeYMm?: number;
  readonly stretch?: boolean;
}
export interface LampFile {
  readonly fromDeg?: number;
  readonly aboveDeg?: number;
}

/** Painted on planes instead of set in. */
export interface CreatureFile extends StandingFile {
  readonly featherMm?: number;
  readonly viewDeg?: number;
  readonly colors?: readonly string[];
  /** The eye that its planes are to line up for. */
  readonly read?: EyePointFile;
  /** What the figure it was made from had beyond its pose. */
  readonly wasFigure?: { readonly [field: string]: unknown };
}

/** A stroke of a sketch on a plane, in the order they were drawn. */
export interface StrokeFile {
  readonly plane: string;
  readonly ink: string;
  readonly widthMm?: number;
  readonly softMm?: number;
  readonly points: readonly StrokePoint[];
}

export interface PriceFile {
  readonly kitMl: number;
  readonly amount: number;
  readonly currency: string;
  /** Other sizes it is sold in. */
  readonly sizes?: readonly KitSizeFile[];
}
export interface KitSizeFile {
  readonly kitMl: number;
  readonly amount: number;
}
/** Only what the label says, or its owner typed. */
export interface FormulaFile {
  readonly id: string;
  readonly name?: string;
  readonly family?: Family;
  readonly ratioByVolume?: readonly [number, number];
  readonly ratioByMass?: readonly [number, number];
  readonly densityAGPerMl?: number;
  readonly densityBGPerMl?: number;
  readonly maxDepthMm?: number;
  readonly minDepthMm?: number;
  readonly maxBatchG?: number;
  readonly atC?: number;
  readonly potLifeMin?: number;
  readonly potLifeMassG?: number;
  readonly bondOpensH?: number;
  readonly bondClosesH?: number;
  readonly scuffableH?: number;
  readonly paintableH?: number;
  readonly demoldH?: number;
  readonly fullCureH?: number;
  readonly viscosityMPaS?: number;
  readonly refractiveIndex?: number;
  readonly shrinkageFraction?: number;
  readonly price?: PriceFile;
}

export interface RoomEntryFile {
  readonly from: string;
  readonly temperatureC: number;
  readonly humidity?: number;
}
export interface BoxFile {
  readonly temperatureC: number;
  readonly hours?: readonly HoursFile[];
}
export interface RoomFile {
  readonly temperatureC?: number;
  readonly profile?: readonly RoomEntryFile[];
  readonly sleep?: readonly HoursFile[];
  readonly humidity?: number;
  readonly box?: BoxFile;
}
export interface HoursFile {
  readonly days: string;
  readonly from: string;
  readonly to: string;
}
/** Days with other hours than the week’s; without hours the bench is shut. */
export interface ExceptionFile {
  readonly on: string;
  readonly until?: string;
  readonly hours?: readonly Pick<HoursFile, 'from' | 'to'>[];
}
export interface BenchFile {
  readonly start?: string;
  readonly bottlesC?: number;
  readonly hours?: readonly HoursFile[];
  readonly exceptions?: readonly ExceptionFile[];
  readonly readyBy?: string;
  readonly scaleG?: number;
  readonly dyeScaleG?: number;
  readonly holdUpMl?: number;
  readonly allowanceFraction?: number;
  readonly pourH?: number;
  readonly scuffH?: number;
  readonly watchH?: number;
  readonly printBars?: { readonly xMm?: number; readonly yMm?: number };
}

export type AvoidFile = number | { readonly fromMm: number; readonly toMm: number };
export interface PlanFile {
  readonly goal?: PlanGoal;
  readonly pins?: readonly number[];
  readonly avoid?: readonly AvoidFile[];
  /** To choose from for any layer. */
  readonly formulas?: readonly string[];
  readonly cupMin?: number;
  readonly pourCost?: number;
  readonly scuffCost?: number;
}

/** A kit on hand: both parts together, or each by itself. */
export interface StockFile {
  readonly formula: string;
  readonly ml?: number;
  readonly partAMl?: number;
  readonly partBMl?: number;
  readonly opened?: string;
  readonly keepsDays?: number;
  readonly bestBefore?: string;
  readonly price?: KitSizeFile;
}

export interface OtherCostFile {
  readonly name: string;
  readonly amount: number;
}
export interface LaborFile {
  readonly currency?: string;
  readonly perHour?: number;
  readonly hours?: number;
  readonly finishH?: number;
  readonly consumables?: number;
  readonly other?: readonly OtherCostFile[];
  readonly lossFraction?: number;
  readonly marginFraction?: number;
  readonly taxFraction?: number;
}

export interface FinishingFile {
  readonly top?: FaceFinish;
  readonly sides?: FaceFinish;
  readonly bottom?: FaceFinish;
  readonly edgeMm?: number;
  readonly base?: Finishing['base'];
  readonly coat?: { readonly formula?: string; readonly mm?: number };
  readonly postCure?: WarmRest;
  readonly hours?: Finishing['hours'];
  readonly cost?: number;
}

export interface SceneFile {
  readonly format: 'stillpool.scene';
  readonly version: 1;
  readonly name?: string;
  readonly mold: MoldFile;
  readonly cast?: 'face-up' | 'face-down';
  readonly fillMm: number;
  readonly fills: readonly FillFile[];
  readonly placements?: readonly PlacementFile[];
  readonly creatures?: readonly CreatureFile[];
  /** In any form the file has; strokes.ts reads ours. */
  readonly strokes?: readonly StrokeFile[];
  readonly formulas?: readonly FormulaFile[];
  readonly heat?: { readonly model?: 'label' | 'simulated' };
  readonly testCups?: readonly TestCup[];
  readonly room?: RoomFile;
  readonly bench?: BenchFile;
  readonly plan?: PlanFile;
  readonly stock?: readonly StockFile[];
  readonly labor?: LaborFile;
  readonly finishing?: FinishingFile;
  readonly copies?: number;
  readonly lamp?: LampFile;
  readonly class?: { readonly students: number; readonly at: string; readonly hours: number; readonly youngest?: number; readonly perStudent?: { readonly paint?: readonly string[]; readonly set?: readonly string[]; readonly pour?: boolean } };
}

export interface Refused {
  readonly ok: false;
  /** One sentence or two for the person: what is in the way, what to do. */
  readonly reason: string;
}
/** `label` names the edit for undo, in the artist's words. */
export type EditResult = { readonly ok: true; readonly file: SceneFile; readonly label: string } | Refused;
/** An edit that added things, by id. */
export type AddResult = { readonly ok: true; readonly file: SceneFile; readonly label: string; readonly ids: readonly string[] } | Refused;

/** A document as a file to edit, at the current version; or the problems that opening it would show. */
export function sceneFile(document: unknown): { readonly ok: true; readonly file: SceneFile } | { readonly ok: false; readonly problems: readonly Problem[] } {
  const reading = readScene(document);
  if (!reading.ok) return reading;
  const current = migrate(document);
  if (!current.ok) return { ok: false, problems: [current.problem] };
  return { ok: true, file: current.document as SceneFile };
}

/**
 * The end of every edit: the file if it can be opened again, else why not.
 * `subject` says in words which field was set; it stands for the path in the reason. Linear in the document's size.
 */
export function done(edited: SceneFile, label: string, subject?: string): EditResult {
  const file = withoutGoneInClass(edited);
  const reading = readScene(file);
  if (reading.ok) return { ok: true, file, label };
  const [problem] = reading.problems;
  return refused(subject ? `${capital(subject)}: ${problem.message}` : problemLine(problem));
}

/** The same for an edit that added things. */
export function added(file: SceneFile, label: string, ids: readonly string[], subject?: string): AddResult {
  const result = done(file, label, subject);
  return result.ok ? { ...result, ids } : result;
}

export function refused(reason: string): Refused {
  return { ok: false, reason };
}
