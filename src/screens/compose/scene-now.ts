/** The document as it stands this moment, drawn before the worker has answered: what moved is where it was put. */
import type { PlacementFile, SceneFile } from '../../core/scene/edit/file.ts';
import { heightOf, thingsOf } from '../../core/scene/edit/things.ts';
import { readScene } from '../../core/scene/read.ts';
import type { Scene } from '../../core/scene/scene.ts';
import { shiftedPolygon } from '../../core/sheet/polygon.ts';
import type { Section } from '../../core/sheet/section.ts';
import { meshBounds } from '../../core/solid/shape-volume.ts';
import type { StandingSurface } from '../../core/solid/support.ts';
import { haltedPours } from '../../store/findings.ts';
import type { Derived, DrawnSolid } from '../../store/piece-state.ts';
import type { ViewGuide, ViewPlane, ViewPour, ViewSolid } from '../../view/props.ts';

/** What the document says now; the last that could be read where it can't. */
export function sceneNow(document: SceneFile, derived: Derived): Scene {
  if (derived.document === document) return derived.scene;
  const reading = readScene(document);
  return reading.ok ? reading.scene : derived.scene;
}

/** The derived section with every thing at the height and place that the document gives it now. Pours follow when they are planned. */
export function sectionNow({ section: planned, scene }: Pick<Derived, 'section' | 'scene'>, document: SceneFile): Section {
  const section = withRim(planned, document);
  const now = new Map(thingsOf(document).map((placement) => [placement.id, placement]));
  const then = new Map(scene.placements.map((placement) => [placement.id, placement]));
  let moved = section.planes.length + section.shapes.length !== now.size;
  const planes = section.planes.flatMap((plane) => {
    const placement = now.get(plane.id);
    if (!placement) return [];
    const atMm = heightOf(placement);
    if (atMm === plane.atMm) return [plane];
    moved = true;
    return [{ ...plane, atMm }];
  });
  const shapes = section.shapes.flatMap((shape) => {
    const placement = now.get(shape.id);
    const before = then.get(shape.id);
    if (!placement || placement.kind === 'plane' || !before || before.kind === 'plane') return [];
    const up = (placement.baseMm ?? 0) - before.baseMm;
    const along = (placement.xMm ?? 0) - before.xMm;
    if (up === 0 && along === 0) return [shape];
    moved = true;
    return [{ ...shape, baseMm: shape.baseMm + up, topMm: shape.topMm + up, outline: shape.outline.map((polygon) => shiftedPolygon(polygon, along, up)) }];
  });
  return moved ? { ...section, planes, shapes } : section;
}

/** The rim where the document has it now; walls keep their lean. */
function withRim(section: Section, { mold: { heightMm } }: SceneFile): Section {
  if (heightMm === section.heightMm || !(heightMm > 0)) return section;
  const leanMm = ((section.halfRimMm - section.halfFloorMm) * heightMm) / section.heightMm;
  return { ...section, heightMm, halfRimMm: section.halfFloorMm + leanMm };
}

/** Pours for the mold view, tinted as their fill is. */
export function viewPours({ scene, plan }: Pick<Derived, 'scene' | 'plan'>): readonly ViewPour[] {
  const halted = haltedPours(plan);
  return plan.pours.map(({ index, fromMm, toMm }) => {
    const tint = scene.fills.find((fill) => (fromMm + toMm) / 2 < fill.toMm)?.tint;
    return { index, fromMm, toMm, ...(tint && tint.percent > 0 && { tint: tint.color }), ...(halted.has(index) && { halted: true }) };
  });
}

/** Only what the document still holds. */
export function viewSolids(solids: readonly DrawnSolid[], document: SceneFile): readonly ViewSolid[] {
  const ids = new Set(thingsOf(document).map(({ id }) => id));
  return solids.filter(({ id }) => ids.has(id)).map(({ id, kind, name, positions, indices, turnZDeg }) => ({ id, kind, name, positions, indices, turnZDeg }));
}

/** A picture that is ready to be shown: its address, and how high it is against its width. */
export interface ReadyArt {
  readonly url: string;
  readonly highPerWide: number;
}

/** `guides`: of planes that creatures are painted on, shown where there is no picture. */
export function viewPlanes(scene: Scene, art: ReadonlyMap<string, ReadyArt>, guides: ReadonlyMap<string, readonly ViewGuide[]> = new Map()): readonly ViewPlane[] {
  return scene.placements.flatMap((placement) => {
    if (placement.kind !== 'plane') return [];
    const { id, name, atMm } = placement;
    const ready = placement.art && art.get(placement.art.file);
    const painted = guides.get(id);
    if (!placement.art || !ready) return [{ id, name, atMm, ...(painted && { guides: painted }) }];
    const { widthMm, xMm, yMm, turnDeg, mirror } = placement.art;
    return [{ id, name, atMm, art: { url: ready.url, widthMm, heightMm: widthMm * ready.highPerWide, xMm, yMm, turnDeg, mirror } }];
  });
}

/** The drawn solids but one, each where the document has it now. */
export function surfacesBut(id: string, solids: readonly DrawnSolid[], document: SceneFile): readonly StandingSurface[] {
  const now = new Map<string, PlacementFile>(thingsOf(document).map((placement) => [placement.id, placement]));
  return solids.flatMap((solid) => {
    const placement = now.get(solid.id);
    if (solid.id === id || !placement || placement.kind === 'plane') return [];
    const box = meshBounds(solid);
    const about = [(box.min[0] + box.max[0]) / 2, (box.min[1] + box.max[1]) / 2] as const;
    return [{
      kind: solid.kind,
      positions: solid.positions,
      indices: solid.indices,
      turnDeg: (placement.turnDeg?.[2] ?? 0) - solid.turnZDeg,
      aboutMm: about,
      byMm: [(placement.xMm ?? 0) - about[0], (placement.yMm ?? 0) - about[1], (placement.baseMm ?? 0) - box.min[2]] as const,
    }];
  });
}
