/** The painted creatures of a scene in figures and words: plane by plane, what to paint; pair by pair, whether the step shows. */
import type { Creature, Scene } from '../scene/scene.ts';
import { STOP_TOLERANCE_MM } from '../scene/tolerance.ts';
import { SolidError } from '../solid/solid.ts';
import { planeCycleH, spacingAdvice, type SpacingAdvice } from './advice.ts';
import { coloredBy, type CreatureColors } from './colors/brought.ts';
import type { MainColor } from './colors/main-colors.ts';
import type { BarePatch, Hint, PlaneGuide } from './guide.ts';
import { nearestFirst } from './parallax.ts';
import { regionArea, regionBounds, type Region, type RegionBounds } from './region.ts';
import { guidesOf, planesOf, type GuidesOptions } from './slices.ts';

const MM2_PER_CM2 = 100;
/** mm. The resin a plane is painted on is the one that ends there. */
const JUST_UNDER_MM = 0.01;

export interface PlaneReport {
  readonly planeId: string;
  readonly name: string;
  readonly atMm: number;
  readonly depthMm: number;
  readonly order: number;
  readonly outlineCm2: number;
  readonly freshCm2: number;
  readonly hiddenCm2: number;
  readonly featherCm2: number;
  /** Separate parts of the outline and gaps in it: loops of either direction. */
  readonly loops: number;
  readonly bounds: RegionBounds | null;
  readonly hints: readonly Hint[];
  /** At the creature's own look from the side; null: nothing shows bare. */
  readonly bare: (Omit<BarePatch, 'areaMm2' | 'atXMm' | 'atYMm'> & { readonly areaCm2: number }) | null;
  readonly shading: string;
  readonly within: readonly string[];
  /** Of a creature that brings colors: the main ones of what newly shows, the largest share first. */
  readonly colors?: readonly MainColor[];
}

export interface StepReport extends SpacingAdvice {
  readonly nearId: string;
  readonly farId: string;
}

export interface CreatureReport {
  readonly id: string;
  readonly name: string;
  /** In painting order. */
  readonly planes: readonly PlaneReport[];
  /** Between neighbors, from the viewer in. */
  readonly steps: readonly StepReport[];
  /** From pouring under one plane to pouring over it, at the least: hours of the slowest; null: no plane. */
  readonly cycleH: number | null;
  /** Why it can't be cut; null: it can. */
  readonly why: string | null;
  /** Why its colors can't be told, where it may bring some. */
  readonly colorsWhy?: string;
}

export interface ReportOptions extends GuidesOptions {
  readonly colors?: CreatureColors;
}

export function creatureReports(scene: Scene, { colors = new Map(), ...options }: ReportOptions): CreatureReport[] {
  return scene.creatures.map((creature): CreatureReport => {
    const { id, name } = creature;
    try {
      const { guides, why } = coloredBy(colors, scene, creature, guidesOf({ ...scene, creatures: [creature] }, options));
      return { id, name, planes: guides.map(planeReport), steps: stepsOf(scene, creature, guides), cycleH: cycleOf(scene, id), why: null, ...(why !== null && { colorsWhy: why }) };
    } catch (error) {
      if (!(error instanceof SolidError)) throw error;
      return { id, name, planes: [], steps: [], cycleH: null, why: error.message };
    }
  });
}

function planeReport({ planeId, name, atMm, depthMm, order, outline, fresh, hidden, feather, hints, shading, within, colors, bare }: PlaneGuide): PlaneReport {
  return {
    planeId, name, atMm, depthMm, order,
    outlineCm2: cm2(outline), freshCm2: cm2(fresh), hiddenCm2: cm2(hidden), featherCm2: cm2(feather),
    loops: outline.length, bounds: regionBounds(outline), hints, bare: bare ? { viewDeg: bare.viewDeg, towardDeg: bare.towardDeg, nearId: bare.nearId, rimMm: bare.rimMm, areaCm2: bare.areaMm2 / MM2_PER_CM2 } : null, shading, within, ...(colors && { colors: colors.main }),
  };
}

function cycleOf(scene: Scene, creatureId: string): number | null {
  const cycles = planesOf(scene, creatureId).map((plane) => planeCycleH(scene, plane, { fromMm: plane.atMm - JUST_UNDER_MM, toMm: plane.atMm }));
  return cycles.length > 0 ? Math.max(...cycles) : null;
}

function stepsOf(scene: Scene, creature: Creature, guides: readonly PlaneGuide[]): StepReport[] {
  const stack = nearestFirst(guides, creature.id);
  return stack.slice(1).flatMap((far, n): StepReport[] => {
    const near = stack[n];
    const gapMm = Math.abs(far.atMm - near.atMm);
    // Planes of one stop are one surface.
    if (gapMm <= STOP_TOLERANCE_MM) return [];
    return [{ nearId: near.planeId, farId: far.planeId, ...spacingAdvice(scene, creature, { gapMm, fromMm: Math.min(near.atMm, far.atMm), toMm: Math.max(near.atMm, far.atMm) }) }];
  });
}

function cm2(region: Region): number {
  return regionArea(region) / MM2_PER_CM2;
}
