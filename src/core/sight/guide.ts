/**
 * What to paint of a creature on one plane. All regions are in mold coordinates, looking down into the mold: that is
 * how the brush meets them, face-up and face-down alike. Looked at through the floor of a face-down casting they
 * appear mirrored left to right.
 */
import type { PlaneColors } from './colors/colored-guides.ts';
import type { Region } from './region.ts';

/** Something in the section worth a mark, against the plane painted before it, which lies below: an eye, a fin, a tail begins or ends. */
export interface Hint {
  /** `between`: it lies wholly between the two planes, or beyond the outer ones. `thin`: thinner than a fin. `outside`: it reaches beyond the mold's wall, `over`: beyond the resin's top. `bare`: from the side nothing covers it there, and it is not painted. The others say what has become of a part or of a gap in it. */
  readonly kind: 'appears' | 'ends' | 'splits' | 'joins' | 'opens' | 'closes' | 'narrows' | 'widens' | 'between' | 'thin' | 'outside' | 'over' | 'bare';
  readonly atXMm: number;
  readonly atYMm: number;
  readonly words: string;
}

/** What of a plane shows bare from the side: unpainted there, and behind nothing nearer. */
export interface BarePatch {
  /** The look, off the straight one, in air, degrees. */
  readonly viewDeg: number;
  /** Of the four sides the one it shows most from: where the eye is, degrees counterclockwise from the mold's right, looking down into it. */
  readonly towardDeg: number;
  /** The next plane nearer the viewer. */
  readonly nearId: string;
  readonly areaMm2: number;
  /** Middle of the largest patch, mm. */
  readonly atXMm: number;
  readonly atYMm: number;
  /** How far in from its edge what is hidden is to be painted, so that no side shows any; null: all of it. */
  readonly rimMm: number | null;
}

export interface PlaneGuide {
  readonly planeId: string;
  readonly name: string;
  /** Up from the floor, and down from the show face. */
  readonly atMm: number;
  readonly depthMm: number;
  readonly creatureId: string;
  /** The whole section of the creature at this height. */
  readonly outline: Region;
  /** What is newly visible here, seen straight from the show face: not under a plane of the creature nearer the viewer. Paint this. */
  readonly fresh: Region;
  /** What planes nearer the viewer cover. */
  readonly hidden: Region;
  /** The band of `hidden` next to `fresh`: let the paint fade out in it, so that no bare edge shows from the side. */
  readonly feather: Region;
  readonly hints: readonly Hint[];
  /** At the look the creature is made for; none: nothing shows, or nobody asked. */
  readonly bare?: BarePatch;
  /** How light or how dark to paint at this depth, in words. */
  readonly shading: string;
  /** Painting order among all painted planes of the scene, 1 first: the order they are poured in, from the floor up. Planes at one height share it. */
  readonly order: number;
  /** What to paint first, next and last within this plane. */
  readonly within: readonly string[];
  /** Where the creature's mesh brings colors: those of `fresh`. */
  readonly colors?: PlaneColors;
}
