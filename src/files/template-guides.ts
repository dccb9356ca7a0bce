/** What of the creatures of a scene to paint on each plane; a creature that can't be cut is told on its planes and stops nothing. */
import type { Creature, Scene } from '../core/scene/scene.ts';
import type { PlaneGuide } from '../core/sight/guide.ts';
import type { Regions } from '../core/sight/region.ts';
import { guidesOf, sectionsFrom } from '../core/sight/slices.ts';
import type { Sections } from '../core/solid/section.ts';
import { SolidError, type MeshReading } from '../core/solid/solid.ts';

export interface Guided {
  readonly guides: readonly PlaneGuide[];
  /** By the plane's id: sentences on what is not drawn. */
  readonly unseen: ReadonlyMap<string, readonly string[]>;
}

/** `failed`: why a creature's mesh could not be read, by the creature's id. `sectionsOf`: of whoever keeps them. */
export function guidesFor(scene: Scene, meshes: ReadonlyMap<string, MeshReading>, { regions, failed = new Map(), sectionsOf = sectionsFrom(meshes) }: { regions: Regions; failed?: ReadonlyMap<string, string>; sectionsOf?: (creature: Creature) => Sections }): Guided {
  const guides: PlaneGuide[] = [];
  const unseen = new Map<string, string[]>();
  for (const creature of scene.creatures) {
    try {
      const trouble = failed.get(creature.id);
      if (trouble !== undefined) throw new SolidError(`${creature.name} is not drawn: ${trouble}`);
      guides.push(...guidesOf({ ...scene, creatures: [creature] }, { regions, sectionsOf }));
    } catch (error) {
      if (!(error instanceof SolidError)) throw error;
      for (const plane of scene.placements) {
        if (plane.kind === 'plane' && plane.slices?.includes(creature.id)) unseen.set(plane.id, [...(unseen.get(plane.id) ?? []), error.message]);
      }
    }
  }
  return { guides, unseen };
}
