/**
 * The shapes of a scene file and of a plan as the checker reads them: its own, from the contract alone.
 * Nothing here is shared with the planner, so that a slip in its types cannot hide in ours.
 */

export interface MoldJson {
  readonly shape: 'box' | 'round';
  readonly lengthMm?: number;
  readonly widthMm?: number;
  readonly diameterMm?: number;
  readonly heightMm: number;
  readonly draftDeg?: number;
  readonly cornerRadiusMm?: number;
  readonly material?: string;
  readonly wallMm?: number;
  readonly keep?: boolean;
}

export interface FillJson {
  readonly toMm: number;
  readonly formula: string;
  readonly tint?: { readonly color: string; readonly percent: number };
}

export interface ShapeJson {
  readonly type: string;
  readonly radiusMm?: number;
  readonly lengthMm?: number;
  readonly widthMm?: number;
  readonly heightMm?: number;
  readonly sphereRadiusMm?: number;
  readonly rimRadiusMm?: number;
  readonly volumeMl?: number;
}

export interface PlacementJson {
  readonly id: string;
  readonly kind: 'plane' | 'figure' | 'bed';
  readonly name?: string;
  readonly atMm?: number;
  readonly paintH?: number;
  readonly dryH?: number;
  readonly shape?: ShapeJson;
  readonly xMm?: number;
  readonly yMm?: number;
  readonly baseMm?: number;
  readonly turnDeg?: readonly number[];
  readonly scale?: number;
  readonly massG?: number;
  readonly densityGPerMl?: number;
  readonly material?: string;
  readonly limitC?: number;
  readonly hold?: string;
  readonly voidFraction?: number;
}

export type LabelNumber =
  | 'densityAGPerMl' | 'densityBGPerMl' | 'maxDepthMm' | 'minDepthMm' | 'maxBatchG' | 'atC' | 'potLifeMin' | 'potLifeMassG'
  | 'bondOpensH' | 'bondClosesH' | 'scuffableH' | 'paintableH' | 'demoldH' | 'shrinkageFraction';

export type FormulaJson = { readonly [K in LabelNumber]?: number } & {
  readonly id: string;
  readonly family?: string;
  readonly fullCureH?: number;
  readonly viscosityMPaS?: number;
  readonly refractiveIndex?: number;
  readonly ratioByVolume?: readonly number[];
  readonly ratioByMass?: readonly number[];
};

export interface SceneJson {
  readonly format: string;
  readonly version: number;
  readonly name?: string;
  readonly mold: MoldJson;
  readonly fillMm: number;
  readonly fills: readonly FillJson[];
  readonly plan?: { readonly goal?: string; readonly pins?: readonly number[]; readonly avoid?: readonly (number | { readonly fromMm: number; readonly toMm: number })[] };
  readonly placements?: readonly PlacementJson[];
  readonly formulas?: readonly FormulaJson[];
  readonly heat?: { readonly model?: string };
  readonly finishing?: FinishingJson;
  readonly room?: { readonly temperatureC?: number; readonly profile?: readonly { readonly from: string; readonly temperatureC: number }[]; readonly sleep?: readonly HoursJson[] };
  readonly bench?: {
    readonly start?: string;
    readonly hours?: readonly HoursJson[];
    readonly scaleG?: number;
    readonly holdUpMl?: number;
    readonly allowanceFraction?: number;
    readonly pourH?: number;
    readonly scuffH?: number;
    readonly watchH?: number;
  };
}

export interface HoursJson {
  readonly days: string;
  readonly from: string;
  readonly to: string;
}

export interface AmountJson {
  readonly ml: number;
  readonly g: number;
}

export interface BatchJson {
  readonly mixMl: number;
  readonly mixG: number;
  readonly partA: AmountJson;
  readonly partB: AmountJson;
  readonly scaleStopsG: readonly number[];
  readonly tintG: number;
  readonly usableMin: number;
  readonly heat: { readonly endC: readonly [number, number]; readonly hot: boolean } | null;
}

export interface LayerJson {
  readonly index: number;
  readonly fromMm: number;
  readonly toMm: number;
  readonly stops: readonly { readonly kind: string; readonly id?: string }[];
  readonly formula: string;
  readonly grossMl: number;
  readonly displacedMl: number;
  readonly netMl: number;
}

export interface HeatJson {
  readonly rangeC: readonly [number, number];
  readonly words: string;
  readonly afterH: number;
  readonly safeDepthMm: number;
  readonly cause: string;
  readonly model: string;
  readonly harsher: boolean;
}

export interface PourJson {
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
  readonly partA: AmountJson;
  readonly partB: AmountJson;
  readonly batches: readonly BatchJson[];
  readonly fillMarkFromRimMm: number;
  readonly starts: string;
  readonly ends: string;
  readonly opens: string;
  readonly closes: string;
  readonly scuffable: string;
  readonly paintable: string;
  readonly demold: string;
  readonly route: string | null;
  readonly locks: readonly string[];
  readonly heat: HeatJson | null;
  readonly why: string;
}

export interface StepJson {
  readonly kind: string;
  readonly pour: number | null;
  readonly placements: readonly string[];
  readonly from: string;
  readonly to: string;
  readonly text: string;
  readonly finishing?: { readonly work: string; readonly face: string | null };
}

export interface FinishingJson {
  readonly top?: string;
  readonly sides?: string;
  readonly bottom?: string;
  readonly edgeMm?: number;
  readonly base?: string;
  readonly coat?: { readonly formula?: string; readonly mm?: number };
  readonly postCure?: { readonly temperatureC: number; readonly hours: number; readonly labelC?: number };
  readonly hours?: { readonly [work: string]: number | undefined };
}

export interface CoatJson {
  readonly face: string;
  readonly formula: string;
  readonly thicknessMm: number;
  readonly netMl: number;
  readonly mixMl: number;
  readonly mixG: number;
  readonly partA: AmountJson;
  readonly partB: AmountJson;
  readonly batches: readonly BatchJson[];
  readonly starts: string;
  readonly ends: string;
  readonly opens: string;
  readonly closes: string;
  readonly scuffable: string;
  readonly firm: string;
  readonly hard: string;
}

export interface PlacementOutJson {
  readonly id: string;
  readonly volumeMl: number;
  readonly massG: number | null;
  readonly liftG: number | null;
  readonly floats: boolean;
  readonly safeLockMm: number | null;
}

export interface FindingJson {
  readonly code: string;
  readonly severity: string;
  readonly subject: string;
  readonly message: string;
  readonly remedy: string;
  readonly pours?: readonly number[];
}

export interface PlanJson {
  readonly mold: { readonly capacityMl: number; readonly fillVolumeMl: number; readonly finishedG: number | null };
  readonly placements: readonly PlacementOutJson[];
  readonly layers: readonly LayerJson[];
  readonly pours: readonly PourJson[];
  readonly steps: readonly StepJson[];
  readonly finish: string;
  readonly ready?: string;
  readonly finishing?: { readonly ready: string; readonly coats: readonly CoatJson[]; readonly warmRest: { readonly temperatureC: number; readonly from: string; readonly to: string } | null; readonly handsH: number };
  readonly shopping: readonly { readonly formula: string; readonly mixMl: number; readonly partA: AmountJson; readonly partB: AmountJson }[];
  readonly cautions: readonly string[];
  readonly findings: readonly FindingJson[];
}

/** Takes one broken rule in plain words. */
export type Report = (problem: string) => void;

/** Sums and quotients of doubles leave about 1e-15 a step; a plan takes some hundred. Relative. */
export const ARITHMETIC_REL = 1e-9;
/** Volumes come from closed forms on both sides, through different formulas and unit changes. Relative to the gross volume. */
export const VOLUME_REL = 1e-7;
/** A bed cut by curved walls may go through 32-bit meshes of many sides. Relative to the gross volume. */
export const CLIPPED_REL = 1e-5;
/** Heights, mm: far below anything a bench can see, far above the noise of sums of doubles. */
export const HEIGHT_MM = 1e-7;
/** Heights closer than this are one stop, mm (contract). */
export const MERGE_MM = 0.05;

export function near(found: number, expected: number, relative: number, scale = Math.abs(expected)): boolean {
  return Math.abs(found - expected) <= relative * Math.max(scale, Math.abs(expected), 1e-6);
}
