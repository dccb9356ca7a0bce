/**
 * What shows between the planes of a creature when the piece is looked at from the side: paint that lies nearer slides over
 * what is behind it (spacing.ts), and where it slides off, what was left unpainted behind it shows as an edge.
 */
import type { PlaneGuide } from './guide.ts';
import { regionArea, type Region, type Regions } from './region.ts';
import { insideTan, showsFromDeg } from './spacing.ts';

export interface Look {
  /** Off the straight look at the show face, in air, degrees. */
  readonly viewDeg: number;
  /** Where the eye has moved to, degrees counterclockwise from x, looking down into the mold. */
  readonly towardDeg: number;
  /** Refractive index of the resin over the planes. */
  readonly index: number;
}

/** Two neighboring planes of a creature and the look from which an edge shows between them. */
export interface EdgeBetween {
  readonly nearId: string;
  readonly farId: string;
  readonly gapMm: number;
  /** Degrees in air; null: the feather hides it from everywhere. */
  readonly showsFromDeg: number | null;
}

/** One creature's guides, the plane nearest the viewer first. */
export function nearestFirst(guides: readonly PlaneGuide[], creatureId: string): PlaneGuide[] {
  return guides.filter((guide) => guide.creatureId === creatureId).sort((a, b) => a.depthMm - b.depthMm);
}

/** By gap and feather alone, for all pairs of neighbors from the viewer in. */
export function edgesBetween(stack: readonly PlaneGuide[], featherMm: number, index: number): EdgeBetween[] {
  return stack.slice(1).map((far, n): EdgeBetween => {
    const gapMm = far.depthMm - stack[n].depthMm;
    return { nearId: stack[n].planeId, farId: far.planeId, gapMm, showsFromDeg: showsFromDeg(gapMm, featherMm, index) };
  });
}

/**
 * Where the plane at `place` of a stack (`nearestFirst`) shows bare: inside the creature, left unpainted, and not under the
 * paint of any plane nearer the viewer as this look shifts it. In the plane's own coordinates. Empty looking straight down.
 */
export function bareAt(stack: readonly PlaneGuide[], place: number, look: Look, regions: Regions): Region {
  const here = stack[place];
  const bare = regions.minus(here.hidden, here.feather);
  if (bare.length === 0) return bare;
  const covers = stack.slice(0, place).map((near) => slid(paintedOn(near, regions), here.depthMm - near.depthMm, look));
  return regions.minus(bare, regions.unite(covers));
}

/** The largest bare patch of each plane at one look from any of eight sides, mm². */
export function worstBareMm2(stack: readonly PlaneGuide[], { viewDeg, index }: Pick<Look, 'viewDeg' | 'index'>, regions: Regions): number[] {
  return stack.map((_, place) => Math.max(...SIDES_DEG.map((towardDeg) => regionArea(bareAt(stack, place, { viewDeg, towardDeg, index }, regions)))));
}

const SIDES_DEG = [0, 45, 90, 135, 180, 225, 270, 315] as const;

function paintedOn({ fresh, feather }: PlaneGuide, regions: Regions): Region {
  return regions.unite([fresh, feather]);
}

/** Nearer things move away from the side the eye goes to. */
function slid(region: Region, gapMm: number, { viewDeg, towardDeg, index }: Look): Region {
  const by = -gapMm * insideTan(viewDeg, index);
  const angle = (towardDeg * Math.PI) / 180;
  const dx = by * Math.cos(angle);
  const dy = by * Math.sin(angle);
  return region.map((loop) => loop.map((at, i) => at + (i % 2 === 0 ? dx : dy)));
}
