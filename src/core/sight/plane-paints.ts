/**
 * What to paint on a plane for each color that is to show there. Apart from all else that is told of how a piece reads, as the
 * page's cards ask for it alone.
 * Light goes in and comes out again, so the water colors it twice: in along the lamp's rays, or straight down under light from
 * all round (which the face bends to within 42° of straight), and out straight to the eye. The face's own reflection is left
 * out: it takes the same from every color.
 */
import type { Plane, Scene } from '../scene/scene.ts';
import { colorDifference } from './color-difference.ts';
import { labOf, lightOf, type Light } from './color.ts';
import { lightLeft } from './dye.ts';
import type { PlaneGuide } from './guide.ts';
import { paintToRead, type PaintToRead } from './paint.ts';
import { faceMm, lampSine, stepsBetween, tanInside, type Stratum } from './water.ts';

/** CIEDE2000, about what is just seen side by side. */
const SEEN = 1;

export interface PlanePaint extends PaintToRead {
  /** Name of what is to show the color: the plane, or a creature on it. */
  readonly of: string;
}

/** Share of each light that comes back from white paint at a height. */
export function lightBack(scene: Pick<Scene, 'cast' | 'fillMm' | 'lamp'>, strata: readonly Stratum[], atMm: number): Light {
  const { lamp } = scene;
  return lightLeft(stepsBetween(strata, faceMm(scene), atMm), ({ stratum: { index } }) => 1 + (lamp ? Math.hypot(1, tanInside(lampSine(lamp), index)) : 1));
}

/**
 * What to paint there for each color that the plane and the creatures on it are to show. A creature that was given none shows
 * those it brings, as its guide has them: of these only what the water changes is told.
 */
export function planePaints({ creatures }: Pick<Scene, 'creatures'>, { id: planeId, name, slices = [], colors = [] }: Plane, { leaves, guides }: { readonly leaves: Light; readonly guides: readonly PlaneGuide[] }): PlanePaint[] {
  // Creatures of one kind share their colors, and the nearest paint takes its time.
  const known = new Map<string, PaintToRead>();
  const paintOf = (color: string): PaintToRead => {
    const paint = known.get(color) ?? paintToRead(color, leaves);
    known.set(color, paint);
    return paint;
  };
  const own = colors.map((color) => ({ of: name, ...paintOf(color) }));
  const painted = creatures.filter(({ id }) => slices.includes(id)).flatMap((creature) => {
    if (creature.colors) return creature.colors.map((color) => ({ of: creature.name, ...paintOf(color) }));
    const brought = guides.find((guide) => guide.planeId === planeId && guide.creatureId === creature.id)?.colors?.main ?? [];
    return brought.map(({ hex }) => ({ of: creature.name, ...paintOf(hex) })).filter(({ wanted, paint }) => colorDifference(labOf(lightOf(wanted)), labOf(lightOf(paint))) >= SEEN);
  });
  return [...own, ...painted];
}

/** `Carp, to look #c87137: …` */
export function paintWords(plane: string, { of, wanted, words }: PlanePaint): string {
  return `${of === plane ? 'To' : `${of}, to`} look ${wanted}: ${words}`;
}
