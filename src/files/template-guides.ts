/** What of the creatures of a scene to paint on each plane; a creature that can't be cut is told on its planes and stops nothing. */
import type { Creature, Scene } from '../core/scene/scene.ts';
import { coloredBy, type CreatureColors } from '../core/sight/colors/brought.ts';
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

export interface GuidingOptions {
  readonly regions: Regions;
  /** Why a creature's mesh could not be read, by the creature's id. */
  readonly failed?: ReadonlyMap<string, string>;
  /** Of whoever keeps them. */
  readonly sectionsOf?: (creature: Creature) => Sections;
  /** What creatures bring; none: guides are outlines only. */
  readonly colors?: CreatureColors;
  /** As `GuidesOptions`. */
  readonly straightOnly?: boolean;
}

export function guidesFor(scene: Scene, meshes: ReadonlyMap<string, MeshReading>, { regions, failed = new Map(), sectionsOf = sectionsFrom(meshes), colors = new Map(), straightOnly }: GuidingOptions): Guided {
  const guides: PlaneGuide[] = [];
  const unseen = new Map<string, string[]>();
  const tell = (creature: Creature, words: string): void => {
    for (const plane of scene.placements) {
      if (plane.kind === 'plane' && plane.slices?.includes(creature.id)) unseen.set(plane.id, [...(unseen.get(plane.id) ?? []), words]);
    }
  };
  for (const creature of scene.creatures) {
    try {
      const trouble = failed.get(creature.id);
      if (trouble !== undefined) throw new SolidError(`${creature.name} is not drawn: ${trouble}`);
      const colored = coloredBy(colors, scene, creature, guidesOf({ ...scene, creatures: [creature] }, { regions, sectionsOf, straightOnly }));
      guides.push(...colored.guides);
      if (colored.why !== null) tell(creature, colored.why);
    } catch (error) {
      if (!(error instanceof SolidError)) throw error;
      tell(creature, error.message);
    }
  }
  return { guides, unseen };
}
