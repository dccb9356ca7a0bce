/**
 * How a piece reads through its resin, plane by plane: how deep it looks, what to paint so that it looks as wanted, which
 * shadows a lamp throws on it; and from the side, which edges and pour lines show.
 */
import type { Plan } from '../plan/plan.ts';
import { depthAt } from '../scene/depth.ts';
import type { Creature, EyePoint, Lamp, Plane, Scene } from '../scene/scene.ts';
import { halfInside } from '../sheet/template-mold.ts';
import { SolidError } from '../solid/solid.ts';
import type { Sections } from '../solid/section.ts';
import { formulasBetween, lowestIndex } from './advice.ts';
import { castShadows, unknownShadows, type CastOptions, type CastShadow, type Receiver } from './casters.ts';
import type { Light } from './color.ts';
import { paraxialScale, stretched } from './eye.ts';
import type { PlaneGuide } from './guide.ts';
import { edgesBetween, nearestFirst, type EdgeBetween } from './parallax.ts';
import { lineSeenMm, pourLines, wallsHide, type PourLine } from './pour-lines.ts';
import { lightBack, planePaints, type PlanePaint } from './plane-paints.ts';
import { regionArea, regionBounds, type RegionBounds } from './region.ts';
import { shadowShift } from './shadow.ts';
import { backMm, faceMm, pouredStrata, seenDepthMm, stepsBetween, strataOf, type Stratum } from './water.ts';

const MM2_PER_CM2 = 100;
/** Looks that are told of, degrees off the straight one, in air. */
export const LOOKS_DEG = [0, 15, 30, 45, 60] as const;

export interface ReadingOptions extends CastOptions {
  readonly plan: Pick<Plan, 'pours'>;
  readonly sectionsOf: (creature: Creature) => Sections;
}

export interface ShadowReading extends Omit<CastShadow, 'region'> {
  readonly areaCm2: number;
  readonly bounds: RegionBounds | null;
}

export interface PlaneReading {
  readonly planeId: string;
  readonly name: string;
  readonly atMm: number;
  readonly depthMm: number;
  /** As it looks from straight above. */
  readonly seenDepthMm: number;
  /** Share of red, green and blue light that comes back from white paint there. */
  readonly leaves: Light;
  /** For each color that it or a creature on it is to show. */
  readonly paints: readonly PlanePaint[];
  /** How far its own paint's shadow runs aside down to the back; null: there is no lamp. */
  readonly backShiftMm: number | null;
  /** What falls on it. */
  readonly shadows: readonly ShadowReading[];
}

export interface CreatureReading {
  readonly id: string;
  readonly name: string;
  readonly read: EyePoint | null;
  /** As it is, and as it is built to look so; null: it can't be cut. */
  readonly tallMm: number | null;
  readonly builtMm: number | null;
  /** Where its built top ends over the resin's; 0: inside. */
  readonly overMm: number;
  /** By plane: how much smaller its outline is painted near the point under the eye. */
  readonly scales: readonly { readonly planeId: string; readonly scale: number }[];
  /** Between its planes, from the viewer in. */
  readonly edges: readonly EdgeBetween[];
  /** Of those, how many show at each look. */
  readonly looks: readonly { readonly viewDeg: number; readonly edges: number }[];
}

export interface LineReading extends PourLine {
  /** How far from the far wall's edge it is seen through the face, looked at along the mold; null: it lies too deep for that. */
  readonly seenMm: readonly { readonly viewDeg: number; readonly mm: number | null }[];
}

export interface Reading {
  readonly lamp: Lamp | null;
  /** From the floor up. */
  readonly planes: readonly PlaneReading[];
  readonly creatures: readonly CreatureReading[];
  /** What falls on the back of the piece, where no plane is; null: no lamp, or a plane. */
  readonly back: { readonly atMm: number; readonly shadows: readonly ShadowReading[] } | null;
  /** Names of what throws a shadow too, of no known outline. */
  readonly unknownShadows: readonly string[];
  /** Empty where the mold stays and hides them. */
  readonly lines: readonly LineReading[];
  /** Fills whose dye nobody has poured a chip of, from the floor up: their colors are a guess. */
  readonly guessedFillsToMm: readonly number[];
}

/** Shadows as outlines; without a lamp none. */
export function shadowsIn(scene: Scene, { plan, ...options }: CastOptions & Pick<ReadingOptions, 'plan'>): Receiver[] {
  const { lamp } = scene;
  return lamp ? castShadows({ ...scene, lamp, strata: pouredStrata(scene, plan) }, options) : [];
}

export function readingOf(scene: Scene, options: ReadingOptions): Reading {
  const strata = pouredStrata(scene, options.plan);
  const receivers = shadowsIn(scene, options);
  const planes = scene.placements.filter((placement): placement is Plane => placement.kind === 'plane').sort((a, b) => a.atMm - b.atMm);
  const back = receivers.find(({ planeId }) => planeId === null);
  return {
    lamp: scene.lamp ?? null,
    planes: planes.map((plane) => planeReading(scene, plane, { strata, receivers, guides: options.guides })),
    creatures: scene.creatures.map((creature) => creatureReading(scene, creature, options)),
    back: back ? { atMm: back.atMm, shadows: back.shadows.map(shadowReading) } : null,
    unknownShadows: scene.lamp ? unknownShadows(scene, options) : [],
    lines: wallsHide(scene) ? [] : pourLines(scene, options.plan).map((line) => lineReading(scene, line)),
    guessedFillsToMm: scene.fills.filter(({ tint, toMm }, i) => tint && !tint.swatch && stepsBetween(strata, i === 0 ? 0 : scene.fills[i - 1].toMm, toMm).some(({ stratum }) => stratum.tint !== null)).map(({ toMm }) => toMm),
  };
}

function planeReading(scene: Scene, plane: Plane, { strata, receivers, guides }: { readonly strata: readonly Stratum[]; readonly receivers: readonly Receiver[]; readonly guides: readonly PlaneGuide[] }): PlaneReading {
  const { id, name, atMm } = plane;
  const leaves = lightBack(scene, strata, atMm);
  return {
    planeId: id, name, atMm,
    depthMm: depthAt(scene, atMm),
    seenDepthMm: seenDepthMm(stepsBetween(strata, faceMm(scene), atMm)),
    leaves,
    paints: planePaints(scene, plane, { leaves, guides }),
    backShiftMm: scene.lamp ? Math.hypot(...shadowShift({ lamp: scene.lamp, strata }, atMm, backMm(scene))) : null,
    shadows: (receivers.find(({ planeId }) => planeId === id)?.shadows ?? []).map(shadowReading),
  };
}

function shadowReading({ region, ...shadow }: CastShadow): ShadowReading {
  return { ...shadow, areaCm2: regionArea(region) / MM2_PER_CM2, bounds: regionBounds(region) };
}

function creatureReading(scene: Scene, creature: Creature, { guides, sectionsOf }: ReadingOptions): CreatureReading {
  // As its guides are drawn: by the fills, whatever formula a plan may choose.
  const strata = strataOf(scene);
  const { id, name, read = null, featherMm } = creature;
  const stack = nearestFirst(guides, id);
  const heights = stack.map(({ atMm }) => atMm);
  const edges = edgesBetween(stack, featherMm, lowestIndex(scene, Math.min(...heights), Math.max(...heights)));
  const tall = heightsOf(creature, sectionsOf, strata);
  return {
    id, name, read,
    tallMm: tall?.tallMm ?? null,
    builtMm: tall?.builtMm ?? null,
    overMm: tall ? Math.max(0, creature.baseMm + tall.builtMm - scene.fillMm) : 0,
    scales: read ? stack.map(({ planeId, atMm }) => ({ planeId, scale: paraxialScale(scene, read, { strata, atMm }) })) : [],
    edges,
    looks: LOOKS_DEG.map((viewDeg) => ({ viewDeg, edges: edges.filter(({ showsFromDeg }) => showsFromDeg !== null && showsFromDeg <= viewDeg).length })),
  };
}

function heightsOf(creature: Creature, sectionsOf: ReadingOptions['sectionsOf'], strata: readonly Stratum[]): { tallMm: number; builtMm: number } | null {
  try {
    const sections = sectionsOf(creature);
    const tall = ({ bounds: { min, max } }: Sections): number => max[2] - min[2];
    return { tallMm: tall(sections), builtMm: tall(creature.read?.stretch ? stretched(sections, strata) : sections) };
  } catch (error) {
    if (error instanceof SolidError) return null;
    throw error;
  }
}

function lineReading(scene: Scene, line: PourLine): LineReading {
  const [{ refractiveIndex }] = formulasBetween(scene, Math.min(line.heightMm, faceMm(scene)), Math.max(line.heightMm, faceMm(scene)));
  const acrossMm = 2 * Math.max(...halfInside(scene.mold, faceMm(scene)));
  return { ...line, seenMm: LOOKS_DEG.map((viewDeg) => ({ viewDeg, mm: lineSeenMm(line.depthMm, viewDeg, { acrossMm, index: refractiveIndex }) })) };
}
