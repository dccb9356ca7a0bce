/**
 * From the creatures of a scene to a guide for every plane that slices them: what to paint there, what planes nearer the
 * viewer hide, where to let the paint fade out. Seen straight from the show face, as most pieces are looked at.
 * A creature is hidden by its own planes only: between creatures the eye moves things too far apart to rely on it.
 */
import { depthAt } from '../scene/depth.ts';
import type { Creature, Mold, Plane, Scene } from '../scene/scene.ts';
import { STOP_TOLERANCE_MM } from '../scene/tolerance.ts';
import { moldWallOvershoot } from '../solid/mold.ts';
import { sliceable, type Sections } from '../solid/section.ts';
import { SolidError, type TriangleMesh } from '../solid/solid.ts';
import { lowestIndex } from './advice.ts';
import { bareHint, barePatches } from './bare.ts';
import { builtSections, planeSight, STRAIGHT } from './eye.ts';
import type { Hint, PlaneGuide } from './guide.ts';
import { hintsOf } from './hints.ts';
import { mm } from '../units/format.ts';
import { shadingWords, withinPlane } from './painting-words.ts';
import { NOWHERE, regionArea, type Region, type Regions } from './region.ts';
import { strataOf } from './water.ts';

/** mm². Less than this is no stroke of any brush. */
const BRUSH_DOT_MM2 = 1;

/** mm. Nearer the wall than this is at the wall. */
const WALL_MM = 0.1;

export type SlicedScene = Pick<Scene, 'mold' | 'cast' | 'fillMm' | 'fills' | 'formulas' | 'placements' | 'creatures'>;

export interface GuidesOptions {
  readonly regions: Regions;
  /** A creature's sections where it stands; `creatureSections` makes them, and a caller may keep them. */
  readonly sectionsOf: (creature: Creature) => Sections;
  /** Not to tell what shows bare from the side, which takes as long as the rest. */
  readonly straightOnly?: boolean;
}

/** A creature's sections where it stands in the mold. @throws {SolidError} without its mesh, or with a broken one */
export function creatureSections(creature: Creature, mesh?: TriangleMesh): Sections {
  const { shape, turnDeg, scale } = creature;
  return sliceable({ shape, turnDeg, scale, mesh }).placed(creature);
}

/** Planes that slice a creature, the one nearest the viewer first. */
export function planesOf({ cast, placements }: SlicedScene, creatureId: string): Plane[] {
  const nearer = cast === 'face-down' ? 1 : -1;
  return placements.filter((placement): placement is Plane => placement.kind === 'plane' && (placement.slices?.includes(creatureId) ?? false)).sort((a, b) => nearer * (a.atMm - b.atMm));
}

/** In painting order, planes at one height in the scene's order of creatures. */
export function guidesOf(scene: SlicedScene, options: GuidesOptions): PlaneGuide[] {
  const order = paintingOrder(scene);
  return scene.creatures.flatMap((creature) => {
    const stack = creatureGuides(scene, creature, order, options);
    return options.straightOnly ? stack : fromSide(scene, creature, stack, options.regions);
  }).sort((a, b) => a.order - b.order);
}

/** The plane nearest the viewer first, each with what shows bare on it. */
function fromSide(scene: SlicedScene, { viewDeg }: Creature, stack: readonly PlaneGuide[], regions: Regions): PlaneGuide[] {
  const heights = stack.map(({ atMm }) => atMm);
  const patches = barePatches(stack, { viewDeg, index: lowestIndex(scene, Math.min(...heights), Math.max(...heights)), regions });
  return stack.map((guide, place) => {
    const bare = patches[place];
    return bare ? { ...guide, bare, hints: [...guide.hints, bareHint(bare, stack[place - 1].name)] } : guide;
  });
}

/** The plane nearest the viewer first. */
function creatureGuides(scene: SlicedScene, creature: Creature, order: ReadonlyMap<string, number>, { regions, sectionsOf }: GuidesOptions): PlaneGuide[] {
  const planes = planesOf(scene, creature.id);
  if (planes.length === 0) return [];
  const { read } = creature;
  const strata = strataOf(scene);
  const sections = builtSections(sectionsOf(creature), creature, strata);
  // Surfaces of a mesh may cross themselves: one clean outline comes of uniting it with itself.
  const outlines = planes.map((plane) => regions.unite([sections.at(plane.atMm)]));
  const sights = planes.map(({ atMm }) => (read ? planeSight(scene, read, { strata, atMm }) : STRAIGHT));
  const upward = scene.cast === 'face-down' ? -1 : 1;
  const highest = upward === 1 ? 0 : planes.length - 1;
  let covered = NOWHERE;
  return planes.map((plane, place): PlaneGuide => {
    // What covers what is told where the eye meets it, on the show face.
    const { seen, painted } = sights[place];
    const section = outlines[place];
    const onFace = seen(section);
    const outline = painted(onFace);
    const fresh = painted(regions.minus(onFace, covered));
    const hidden = painted(regions.meet(onFace, covered));
    covered = regions.unite([covered, onFace]);
    const below = planes[place + upward];
    return {
      planeId: plane.id,
      name: plane.name,
      atMm: plane.atMm,
      depthMm: depthAt(scene, plane.atMm),
      creatureId: creature.id,
      outline,
      fresh,
      hidden,
      feather: regions.meet(hidden, regions.grow(fresh, creature.featherMm)),
      hints: [...outsideHint(scene.mold, outline, plane.atMm), ...(place === highest ? overHint(sections.bounds, scene.fillMm) : []), ...hintsOf({
        regions, atMm: plane.atMm, outline: section,
        before: below ? { atMm: below.atMm, outline: outlines[place + upward] } : null,
        last: planes[place - upward] === undefined,
        // Only where a plane could be set.
        bottomMm: Math.max(0, sections.bounds.min[2]),
        topMm: Math.min(scene.fillMm, sections.bounds.max[2]),
        sectionAt: (zMm) => sections.at(zMm),
      }).map((hint) => ({ ...hint, ...pointOf(painted(seen([Float64Array.of(hint.atXMm, hint.atYMm)]))) }))],
      shading: shadingWords(place, { planes: planes.length, reaches: section.length > 0, shows: regionArea(fresh) > BRUSH_DOT_MM2 }),
      order: order.get(plane.id)!,
      within: withinPlane(scene.cast),
    };
  });
}

function pointOf([[atXMm, atYMm]]: Region): Pick<Hint, 'atXMm' | 'atYMm'> {
  return { atXMm, atYMm };
}

/** Where a section reaches farthest beyond the mold's wall at its height, if it does. */
function outsideHint(mold: Mold, outline: Region, atMm: number): Hint[] {
  let farthest = WALL_MM;
  let place: readonly [number, number] | null = null;
  for (const loop of outline) {
    for (let i = 0; i < loop.length; i += 2) {
      const beyond = moldWallOvershoot(mold, loop[i], loop[i + 1], atMm);
      if (beyond <= farthest) continue;
      farthest = beyond;
      place = [loop[i], loop[i + 1]];
    }
  }
  return place ? [{ kind: 'outside', atXMm: place[0], atYMm: place[1], words: `Reaches ${mm(farthest)} beyond the wall here. Move it in, or paint only up to the wall.` }] : [];
}

/** Where a creature ends over the resin, if it does. */
function overHint({ min, max }: Sections['bounds'], fillMm: number): Hint[] {
  const overMm = max[2] - fillMm;
  return overMm > STOP_TOLERANCE_MM ? [{ kind: 'over', atXMm: (min[0] + max[0]) / 2, atYMm: (min[1] + max[1]) / 2, words: `${mm(overMm)} of it stand over the resin and can’t be painted. Lower it, or fill higher.` }] : [];
}

/** By plane id: 1 for the lowest height that is painted, planes of one stop alike. Face-up that is the deepest, face-down the nearest the viewer. */
function paintingOrder({ placements }: SlicedScene): Map<string, number> {
  const planes = placements.filter((placement): placement is Plane => placement.kind === 'plane').sort((a, b) => a.atMm - b.atMm);
  const order = new Map<string, number>();
  let at = -Infinity;
  let place = 0;
  for (const plane of planes) {
    if (plane.atMm > at + STOP_TOLERANCE_MM) {
      at = plane.atMm;
      place++;
    }
    order.set(plane.id, place);
  }
  return order;
}

/** As `creatureSections` with the meshes of a loaded scene, each creature cut once. @throws {SolidError} naming the creature */
export function sectionsFrom(meshes: ReadonlyMap<string, { readonly mesh: TriangleMesh; readonly volumeErrorFraction: number | null }>): (creature: Creature) => Sections {
  const made = new Map<string, Sections>();
  return (creature) => {
    const known = made.get(creature.id);
    if (known) return known;
    const reading = meshes.get(creature.id);
    if (reading?.volumeErrorFraction === null) throw new SolidError(`${creature.name} can’t be cut into planes: its mesh is too broken to mend. Repair it, or choose another.`);
    const sections = creatureSections(creature, reading?.mesh);
    made.set(creature.id, sections);
    return sections;
  };
}
