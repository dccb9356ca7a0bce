/**
 * A scene file read by the checker's own rules: defaults, class values, densities, the plain facts that the checks compare with.
 * Class values are the one thing the contract leaves to the tool's data; they are written down here a second time,
 * and faults.test.ts holds them inside the ranges of the trade's table.
 */

import { solidOf, type Solid } from './check-solids.ts';
import { minutesOf, roomPieces, type RoomPiece } from './check-time.ts';
import type { FillJson, FormulaJson, HoursJson, LabelNumber, MoldJson, PlacementJson, SceneJson } from './check-types.ts';

export type FormulaFacts = { readonly [K in LabelNumber]: number } & {
  readonly id: string;
  readonly onePart: boolean;
  /** Part B for one of part A, by volume and by mass; 0 for a one-part formula. */
  readonly byVolume: number;
  readonly byMass: number;
  readonly mixedGPerMl: number;
  /** Hardener by mass over hardener by the volume ratio, less 1; null unless both are given. */
  readonly conflict: number | null;
  readonly unconfirmed: boolean;
  readonly hasTypical: boolean;
};

export interface PlaneFacts {
  readonly id: string;
  readonly atMm: number;
  readonly paintMin: number;
  readonly dryMin: number;
}

export interface SceneFacts {
  readonly mold: MoldJson;
  readonly fillMm: number;
  readonly fills: readonly FillJson[];
  readonly planes: readonly PlaneFacts[];
  readonly solids: readonly Solid[];
  /** Mass of each solid, g; null where nothing tells. */
  readonly masses: ReadonlyMap<string, number | null>;
  readonly formulas: ReadonlyMap<string, FormulaFacts>;
  /** Heat is simulated, not the label's alone. */
  readonly simulated: boolean;
  readonly room: readonly RoomPiece[];
  /** When someone sleeps in it. */
  readonly sleep: readonly HoursJson[];
  readonly startMin: number;
  readonly startGiven: boolean;
  readonly hours: readonly HoursJson[];
  readonly scaleG: number;
  readonly holdUpMl: number;
  readonly allowance: number;
  readonly pourMin: number;
  readonly scuffMin: number;
  readonly watchMin: number;
  /** `even`, or what the plan is best at; then lines and starts are free within every limit. */
  readonly goal: string;
  readonly pinsMm: readonly number[];
  readonly avoid: readonly { readonly fromMm: number; readonly toMm: number }[];
  /** Top fields of the file that the contract does not name. */
  readonly unknownFields: readonly string[];
}

/** Top fields of the contract, those for later among them. */
const TOP_FIELDS = [
  'format', 'version', 'name', 'mold', 'cast', 'fillMm', 'fills', 'placements', 'formulas', 'heat', 'room', 'bench',
  'copies', 'plan', 'poured', 'testCups', 'stock', 'labor', 'locked', 'strokes', 'pressMm', 'finishing',
];

type ClassValues = { readonly [K in LabelNumber]: number } & { readonly byVolume: readonly [number, number] | null };

/** Typical values per class. Trade table §2, mostly common practice or memory, no source. */
export const CLASS_VALUES: Readonly<Record<string, ClassValues>> = {
  general: {
    byVolume: [1, 1], densityAGPerMl: 1.16, densityBGPerMl: 1, maxDepthMm: 10, minDepthMm: 3, maxBatchG: 400, atC: 23, potLifeMin: 40,
    potLifeMassG: 100, bondOpensH: 5, bondClosesH: 15, scuffableH: 21, paintableH: 22, demoldH: 36, shrinkageFraction: 0.03,
  },
  'low-viscosity': {
    byVolume: [2, 1], densityAGPerMl: 1.14, densityBGPerMl: 0.97, maxDepthMm: 25, minDepthMm: 5, maxBatchG: 1500, atC: 23, potLifeMin: 120,
    potLifeMassG: 100, bondOpensH: 11, bondClosesH: 25, scuffableH: 39, paintableH: 39, demoldH: 54, shrinkageFraction: 0.0225,
  },
  coating: {
    byVolume: [1, 1], densityAGPerMl: 1.165, densityBGPerMl: 1.015, maxDepthMm: 4.5, minDepthMm: 2, maxBatchG: 300, atC: 23, potLifeMin: 30,
    potLifeMassG: 100, bondOpensH: 4, bondClosesH: 12, scuffableH: 21, paintableH: 21, demoldH: 24, shrinkageFraction: 0.03,
  },
  'deep-pour': {
    byVolume: [2, 1], densityAGPerMl: 1.125, densityBGPerMl: 0.965, maxDepthMm: 60, minDepthMm: 13, maxBatchG: 10000, atC: 23, potLifeMin: 390,
    potLifeMassG: 350, bondOpensH: 24, bondClosesH: 54, scuffableH: 78, paintableH: 78, demoldH: 120, shrinkageFraction: 0.02,
  },
  uv: {
    byVolume: null, densityAGPerMl: 1.1, densityBGPerMl: 1.1, maxDepthMm: 1.5, minDepthMm: 0.2, maxBatchG: 20, atC: 23, potLifeMin: 480,
    potLifeMassG: 20, bondOpensH: 0.1, bondClosesH: 2, scuffableH: 0.25, paintableH: 0.25, demoldH: 0.25, shrinkageFraction: 0.065,
  },
};

/** Values that no check needs; that they are missing is said all the same. */
const OTHER_NUMBERS = ['fullCureH', 'viscosityMPaS', 'refractiveIndex'] as const;
const LABEL_NUMBERS = Object.keys(CLASS_VALUES.general).filter((key) => key !== 'byVolume') as LabelNumber[];

/** Middles of the ranges in trade §5.1, g/mL; from memory except PLA and PETG. */
const MATERIAL_G_PER_ML: Readonly<Record<string, number>> = {
  pla: 1.24, petg: 1.27, 'print-resin': 1.175, polyurethane: 1.065, 'polymer-clay': 1.75, 'epoxy-putty': 1.8, 'air-dry-clay': 0.45,
  plaster: 1.2, ceramic: 2, wax: 0.925, silicone: 1.1, acrylic: 1.18, glass: 2.5, stone: 2.65, shell: 2.8, steel: 7.85, brass: 8.5,
  copper: 8.9, wood: 0.575, driftwood: 0.45, cork: 0.2, foam: 0.03, plant: 0.5,
};

export function readFacts(scene: SceneJson): SceneFacts {
  const { bench, mold, placements = [] } = scene;
  const solids = placements.filter((p) => p.kind !== 'plane').map((p) => solidOf(p, mold));
  return {
    mold,
    fillMm: scene.fillMm,
    fills: scene.fills,
    planes: placements.filter((p) => p.kind === 'plane').map((p) => (
      { id: p.id, atMm: p.atMm!, paintMin: (p.paintH ?? 3) * 60, dryMin: (p.dryH ?? 12) * 60 }
    )),
    solids,
    masses: new Map(solids.map((solid) => [solid.id, massOf(placements.find((p) => p.id === solid.id)!, solid)])),
    formulas: formulasOf(scene),
    simulated: (scene.heat?.model ?? 'simulated') === 'simulated',
    room: roomPieces(scene.room),
    sleep: scene.room?.sleep ?? [],
    startMin: minutesOf(bench?.start ?? '2000-01-03T08:00'),
    startGiven: bench?.start !== undefined,
    hours: bench?.hours ?? [{ days: 'Mon-Sun', from: '08:00', to: '20:00' }],
    scaleG: bench?.scaleG ?? 0.1,
    holdUpMl: bench?.holdUpMl ?? 8,
    allowance: bench?.allowanceFraction ?? 0.05,
    pourMin: (bench?.pourH ?? 0.5) * 60,
    scuffMin: (bench?.scuffH ?? 0.5) * 60,
    watchMin: (bench?.watchH ?? 0.5) * 60,
    goal: scene.plan?.goal ?? 'even',
    pinsMm: scene.plan?.pins ?? [],
    avoid: (scene.plan?.avoid ?? []).map((span) => (typeof span === 'number' ? { fromMm: span, toMm: span } : span)),
    unknownFields: Object.keys(scene).filter((key) => !TOP_FIELDS.includes(key)),
  };
}

function formulasOf(scene: SceneJson): Map<string, FormulaFacts> {
  const facts = new Map<string, FormulaFacts>();
  for (const id of ['general', 'low-viscosity', 'coating', 'deep-pour']) facts.set(id, formulaFacts({ id, family: id }));
  for (const formula of scene.formulas ?? []) facts.set(formula.id, formulaFacts(formula));
  return facts;
}

function formulaFacts(formula: FormulaJson): FormulaFacts {
  const family = formula.family ?? (formula.id in CLASS_VALUES && formula.id !== 'uv' ? formula.id : 'general');
  const typical = CLASS_VALUES[family];
  const values = {} as { [K in LabelNumber]: number };
  let hasTypical = OTHER_NUMBERS.some((key) => formula[key] === undefined);
  for (const key of LABEL_NUMBERS) {
    if (formula[key] === undefined && !(family === 'uv' && key === 'densityBGPerMl')) hasTypical = true;
    values[key] = formula[key] ?? typical[key];
  }
  const { ratioByMass: mass, ratioByVolume: volume } = formula;
  if (!mass && !volume && family !== 'uv') hasTypical = true;
  const rhoA = values.densityAGPerMl;
  const rhoB = values.densityBGPerMl;
  const label = volume ?? (mass ? null : typical.byVolume);
  const byVolumeLabel = label ? label[1] / label[0] : null;
  const byMass = mass ? mass[1] / mass[0] : byVolumeLabel === null ? 0 : (byVolumeLabel * rhoB) / rhoA;
  const byVolume = mass ? (byMass * rhoA) / rhoB : (byVolumeLabel ?? 0);
  return {
    ...values,
    id: formula.id,
    onePart: byVolume === 0,
    byVolume,
    byMass,
    mixedGPerMl: (rhoA + byVolume * rhoB) / (1 + byVolume),
    conflict: mass && volume ? byMass / ((volume[1] * rhoB) / (volume[0] * rhoA)) - 1 : null,
    unconfirmed: mass !== undefined && !volume && mass.every((part) => Number.isInteger(part) && part <= 10),
    hasTypical,
  };
}

/** `massG` is the object's own; else density × the scaled shape (of a gravel bed, its grains). */
function massOf(placement: PlacementJson, solid: Solid): number | null {
  if (placement.massG !== undefined) return placement.massG;
  const density = placement.densityGPerMl ?? (placement.material === undefined ? undefined : MATERIAL_G_PER_ML[placement.material]);
  return density === undefined ? null : (density * solid.volumeMm3 * solid.grains) / 1000;
}

/** The fill a height inside it belongs to. */
export function fillAt(facts: SceneFacts, zMm: number): FillJson {
  return facts.fills.find((fill) => zMm < fill.toMm) ?? facts.fills[facts.fills.length - 1];
}
