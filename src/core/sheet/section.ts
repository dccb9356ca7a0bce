/**
 * The true-scale vertical section through a mold, as data: what the printed sheet and the gauge on screen both draw.
 * mm, x along the length from the mold's middle, z up from its floor. Figures are seen from the front in their true place.
 */
import { depthAt } from '../scene/depth.ts';
import type { Plan } from '../plan/plan.ts';
import type { Scene } from '../scene/scene.ts';
import { STOP_TOLERANCE_MM } from '../scene/tolerance.ts';
import type { Polygon } from './polygon.ts';

/** How many hatches there are; after the last they repeat. */
const HATCH_COUNT = 8;

export interface SectionBand {
  /** The pour's number. */
  readonly pour: number;
  readonly fromMm: number;
  readonly toMm: number;
  /** 1 … 8. */
  readonly hatch: number;
}

export interface SectionPlane {
  readonly id: string;
  readonly name: string;
  readonly atMm: number;
}

export interface SectionShape {
  readonly id: string;
  readonly name: string;
  /** `creature`: painted on planes, so nothing is there but its outline. */
  readonly kind: 'figure' | 'bed' | 'creature';
  readonly outline: readonly Polygon[];
  readonly baseMm: number;
  readonly topMm: number;
}

export interface SectionTick {
  /** Height of the tick. */
  readonly atMm: number;
  /** What is written beside it: a height inside the wall, a depth outside it. */
  readonly value: number;
  readonly rank: 'minor' | 'five' | 'ten';
}

export interface SectionStop {
  readonly atMm: number;
  readonly depthMm: number;
  /** What is there: `show face`, a plane's or figure's name. Empty for a plain pour line. */
  readonly names: readonly string[];
}

export interface Section {
  /** Half the inside length at the floor and at the rim; walls are straight between. */
  readonly halfFloorMm: number;
  readonly halfRimMm: number;
  readonly heightMm: number;
  readonly wallMm: number;
  readonly fillMm: number;
  readonly cast: Scene['cast'];
  readonly bands: readonly SectionBand[];
  readonly planes: readonly SectionPlane[];
  readonly shapes: readonly SectionShape[];
  readonly heightTicks: readonly SectionTick[];
  readonly depthTicks: readonly SectionTick[];
  readonly stops: readonly SectionStop[];
}

export interface SectionInput {
  readonly scene: Pick<Scene, 'mold' | 'fillMm' | 'cast' | 'placements' | 'creatures'>;
  readonly pours: Plan['pours'];
  /** Outlines of figures and beds by placement id (silhouette.ts), of creatures by theirs: one without is left out, and the page's gauge adds it. */
  readonly silhouettes: ReadonlyMap<string, readonly Polygon[]>;
}

export function sectionOf({ scene, pours, silhouettes }: SectionInput): Section {
  const { mold, fillMm, cast } = scene;
  const halfFloorMm = mold.shape === 'box' ? mold.lengthMm / 2 : mold.diameterMm / 2;
  const planes = scene.placements.filter((p) => p.kind === 'plane').map(({ id, name, atMm }) => ({ id, name, atMm }));
  return {
    halfFloorMm,
    halfRimMm: halfFloorMm + mold.heightMm * Math.tan((mold.draftDeg * Math.PI) / 180),
    heightMm: mold.heightMm,
    wallMm: mold.wallMm,
    fillMm,
    cast,
    bands: pours.map((pour) => ({ pour: pour.index, fromMm: pour.fromMm, toMm: pour.toMm, hatch: hatchOf(pour.index) })),
    planes,
    shapes: [
      ...scene.placements.flatMap((placement) => (placement.kind === 'plane' ? [] : [shapeOf(placement, placement.kind, silhouettes)])),
      ...scene.creatures.filter(({ id }) => silhouettes.has(id)).map((creature) => shapeOf(creature, 'creature', silhouettes)),
    ],
    heightTicks: ticks(mold.heightMm, (height) => height),
    depthTicks: ticks(fillMm, (depth) => heightAtDepth(scene, depth)),
    stops: stopsOf(scene, pours),
  };
}

/** Pours are numbered from 1; the ninth has the first hatch again. */
export const hatchOf = (pour: number): number => ((pour - 1) % HATCH_COUNT) + 1;

/** Half the inside width of the section at a height. */
export function halfWidthAt(section: Section, heightMm: number): number {
  return section.halfFloorMm + ((section.halfRimMm - section.halfFloorMm) * heightMm) / section.heightMm;
}

const heightAtDepth = ({ cast, fillMm }: Pick<Scene, 'cast' | 'fillMm'>, depthMm: number): number =>
  cast === 'face-down' ? depthMm : fillMm - depthMm;

function shapeOf({ id, name, baseMm }: Pick<SectionShape, 'id' | 'name' | 'baseMm'>, kind: SectionShape['kind'], silhouettes: SectionInput['silhouettes']): SectionShape {
  const outline = silhouettes.get(id) ?? [];
  const heights = outline.flatMap((polygon) => polygon.outer.map(([, z]) => z));
  return { id, name, kind, outline, baseMm, topMm: heights.reduce((top, z) => Math.max(top, z), baseMm) };
}

/** A tick a millimeter, or every fifth where the mold is over 400 mm tall and single ones would run together. */
function ticks(to: number, at: (value: number) => number): SectionTick[] {
  const step = to > 400 ? 5 : 1;
  const list: SectionTick[] = [];
  for (let value = 0; value <= to + STOP_TOLERANCE_MM; value += step) {
    list.push({ atMm: at(value), value, rank: value % 10 === 0 ? 'ten' : value % 5 === 0 ? 'five' : 'minor' });
  }
  return list;
}

function stopsOf(scene: SectionInput['scene'], pours: Plan['pours']): SectionStop[] {
  const named: { atMm: number; name: string }[] = [];
  for (const placement of scene.placements) {
    if (placement.kind === 'plane') named.push({ atMm: placement.atMm, name: placement.name });
    else if (placement.kind === 'figure' && placement.hold === 'rests') named.push({ atMm: placement.baseMm, name: placement.name });
  }
  const faceMm = scene.cast === 'face-down' ? 0 : scene.fillMm;
  named.push({ atMm: faceMm, name: 'show face' });
  const heights = [0, ...pours.map((pour) => pour.toMm), ...named.map(({ atMm }) => atMm), scene.fillMm].sort((a, b) => a - b);
  const merged = heights.filter((height, i) => i === 0 || height - heights[i - 1] > STOP_TOLERANCE_MM);
  return merged.map((atMm) => ({
    atMm,
    depthMm: depthAt(scene, atMm),
    names: named.filter((one) => Math.abs(one.atMm - atMm) <= STOP_TOLERANCE_MM).map(({ name }) => name),
  }));
}
