/** A creature's guides with the colors that its file brings, or why they stay without. */
import type { Creature } from '../../scene/scene.ts';
import { SolidError } from '../../solid/solid.ts';
import type { PlaneGuide } from '../guide.ts';
import type { SlicedScene } from '../slices.ts';
import { strataOf } from '../water.ts';
import { bendOf } from './bend.ts';
import { withColors } from './colored-guides.ts';
import { posedColors, type ColoredMesh } from './colored-mesh.ts';

/** By the creature's id: its colors as its file places them, or why they can't be read. A creature without is left out. */
export type CreatureColors = ReadonlyMap<string, ColoredMesh | string>;

export interface Colored {
  readonly guides: readonly PlaneGuide[];
  /** A sentence; null: nothing is amiss. */
  readonly why: string | null;
}

export function coloredBy(colors: CreatureColors, scene: SlicedScene, creature: Creature, plain: readonly PlaneGuide[]): Colored {
  const own = colors.get(creature.id);
  if (own === undefined) return { guides: plain, why: null };
  if (typeof own === 'string') return { guides: plain, why: `The colors of ${creature.name} can’t be read: ${own}` };
  try {
    return { guides: withColors(plain, posedColors(own, creature), { cast: scene.cast, bend: bendOf(scene, creature, strataOf(scene)) }), why: null };
  } catch (error) {
    if (!(error instanceof SolidError)) throw error;
    return { guides: plain, why: `The colors of ${creature.name} are not drawn: ${error.message}` };
  }
}
