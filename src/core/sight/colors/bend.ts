/** Where the points of a creature that is drawn for an eye point are painted: its colors go the ways of its outlines (eye.ts). */
import type { Creature, Scene } from '../../scene/scene.ts';
import { builtTop, onFaceScale, paintedAt } from '../eye.ts';
import { faceMm, stepsBetween, type Stratum } from '../water.ts';
import type { Slab } from './slab.ts';

export interface Bend {
  /** Of a height of the creature as it is, the height it is built at. */
  builtMm(zMm: number): number;
  /** On a plane: where a point at its built height is painted, and its scale on the show face. */
  painted(atMm: number): NonNullable<Slab['move']>;
}

/** Null of a creature that is looked at straight. */
export function bendOf(scene: Pick<Scene, 'cast' | 'fillMm'>, { read, baseMm }: Pick<Creature, 'read' | 'baseMm'>, strata: readonly Stratum[]): Bend | null {
  if (!read) return null;
  const face = faceMm(scene);
  return {
    builtMm: (zMm) => (read.stretch && zMm > baseMm ? builtTop(strata, baseMm, zMm - baseMm) : zMm),
    painted: (atMm) => {
      const over = stepsBetween(strata, face, atMm);
      return (xMm, yMm, builtMm) => {
        const scale = onFaceScale(read, stepsBetween(strata, face, builtMm));
        return [...paintedAt(read.eyeXMm + scale * (xMm - read.eyeXMm), read.eyeYMm + scale * (yMm - read.eyeYMm), read, over), scale];
      };
    },
  };
}
