/** Molds and posed shapes that several rows need, with everything unsaid at its default. */
import type { BoxMold, RoundMold, Shape } from '../../src/core/scene/scene.ts';
import { displacementOf, type Displacement, type SubmergedSolid } from '../../src/core/solid/displacement.ts';
import { poseSolid } from '../../src/core/solid/pose.ts';
import type { PosedSolid, Profile, TriangleMesh } from '../../src/core/solid/solid.ts';
import { openBooleans } from '../../src/files/booleans.ts';

type Turn = readonly [number, number, number];

export const boxMold = (lengthMm: number, widthMm: number, heightMm: number, rest: Partial<BoxMold> = {}): BoxMold => ({
  shape: 'box', lengthMm, widthMm, heightMm, draftDeg: 0, cornerRadiusMm: 0, material: 'silicone', wallMm: 8, keep: false, ...rest,
});

export const roundMold = (diameterMm: number, heightMm: number, rest: Partial<RoundMold> = {}): RoundMold => ({
  shape: 'round', diameterMm, heightMm, draftDeg: 0, material: 'silicone', wallMm: 8, keep: false, ...rest,
});

export const degrees = (radians: number): number => (radians * 180) / Math.PI;

export const box = (lengthMm: number, widthMm: number, heightMm: number): Shape => ({ type: 'box', lengthMm, widthMm, heightMm });
export const wedge = (lengthMm: number, widthMm: number, heightMm: number): Shape => ({ type: 'wedge', lengthMm, widthMm, heightMm });
export const sphere = (radiusMm: number): Shape => ({ type: 'sphere', radiusMm });
export const cylinder = (radiusMm: number, heightMm: number): Shape => ({ type: 'cylinder', radiusMm, heightMm });
export const cone = (radiusMm: number, heightMm: number): Shape => ({ type: 'cone', radiusMm, heightMm });

/** The shape turned, standing on height 0. */
export function turned(shape: Shape, turnDeg: Turn = [0, 0, 0]): PosedSolid {
  return poseSolid(shape, { xMm: 0, yMm: 0, baseMm: 0, turnDeg, scale: 1 });
}

export const profileOf = (shape: Shape, turnDeg?: Turn): Profile => turned(shape, turnDeg).profile;

export interface Place {
  readonly x?: number;
  readonly y?: number;
  readonly base?: number;
  readonly turn?: Turn;
  readonly kind?: 'figure' | 'bed';
  readonly mesh?: TriangleMesh;
}

export function submerged(shape: Shape, place: Place = {}): Omit<SubmergedSolid, 'id'> {
  const { x = 0, y = 0, base = 0, turn = [0, 0, 0], kind = 'figure', mesh } = place;
  return { kind, voidFraction: 0, solid: poseSolid(shape, { xMm: x, yMm: y, baseMm: base, turnDeg: turn, scale: 1 }, mesh) };
}

/** Solids in a mold filled to its rim. */
export async function waterOf(mold: BoxMold | RoundMold, ...solids: Omit<SubmergedSolid, 'id'>[]): Promise<Displacement> {
  const named = solids.map((solid, i) => ({ ...solid, id: `s${i}` }));
  return displacementOf({ mold, fillMm: mold.heightMm, solids: named, booleans: await openBooleans() });
}
