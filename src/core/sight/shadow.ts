/**
 * Shadows inside the resin: where a lamp's light, bent at the show face, leaves what lies behind paint and figures dark. Rays
 * are parallel, as of a lamp far off; light that comes in through the sides is left out.
 */
import type { Lamp, Scene } from '../scene/scene.ts';
import { silhouetteOf } from '../sheet/silhouette.ts';
import { moldRing } from '../sheet/template-mold.ts';
import type { TriangleMesh } from '../solid/solid.ts';
import { loopArea, type Loop, type Region, type Regions } from './region.ts';
import { asideMm, faceMm, lampSine, stepsBetween, type Stratum } from './water.ts';

const RADIAN = Math.PI / 180;

export interface LitScene extends Pick<Scene, 'cast' | 'fillMm' | 'mold'> {
  readonly lamp: Lamp;
  readonly strata: readonly Stratum[];
}

export type Shift = readonly [xMm: number, yMm: number];

/** How far the light between two heights runs aside: away from the lamp on its way in. */
export function shadowShift({ lamp, strata }: Pick<LitScene, 'lamp' | 'strata'>, aMm: number, bMm: number): Shift {
  const by = asideMm(stepsBetween(strata, aMm, bMm), lampSine(lamp));
  return [-by * Math.cos(lamp.fromDeg * RADIAN), -by * Math.sin(lamp.fromDeg * RADIAN)];
}

/** Whether light meets the first height before the second. */
export function isBefore({ cast }: Pick<Scene, 'cast'>, aMm: number, bMm: number): boolean {
  return cast === 'face-down' ? aMm < bMm : aMm > bMm;
}

/** What lies flat at one height, where its shadow falls on another behind it. */
export function flatShadow(scene: LitScene, region: Region, { atMm, onMm }: { readonly atMm: number; readonly onMm: number }): Region {
  return shifted(region, shadowShift(scene, atMm, onMm));
}

/** Of a solid, what of it the light meets before that height. Right to 0.1 mm (`silhouetteOf`). */
export function solidShadow(scene: LitScene, mesh: TriangleMesh, onMm: number): Region {
  const before = cutBefore(mesh, onMm, scene.cast === 'face-down' ? -1 : 1);
  const { positions } = before;
  const at = new Float64Array(positions.length);
  for (let i = 0; i < positions.length; i += 3) {
    const [dx, dy] = shadowShift(scene, positions[i + 2], onMm);
    at[i] = positions[i] + dx;
    at[i + 2] = positions[i + 1] + dy;
  }
  return silhouetteOf({ positions: at, indices: before.indices }).flatMap(({ outer, holes }) => [turned(outer, 1), ...holes.map((hole) => turned(hole, -1))]);
}

/** Where the lamp's light reaches a height through the show face, inside the walls. */
export function litRegion(scene: LitScene, onMm: number, regions: Regions): Region {
  const face = faceMm(scene);
  const through = flatShadow(scene, [turned(moldRing(scene.mold, face), 1)], { atMm: face, onMm });
  return regions.meet(through, [turned(moldRing(scene.mold, onMm), 1)]);
}

function shifted(region: Region, [dx, dy]: Shift): Region {
  return region.map((loop) => loop.map((at, i) => at + (i % 2 === 0 ? dx : dy)));
}

/** As a loop that runs counterclockwise (1) or clockwise (−1). */
function turned(ring: readonly (readonly [number, number])[], way: 1 | -1): Loop {
  const loop = Float64Array.from(ring.flat());
  return loopArea(loop) * way >= 0 ? loop : Float64Array.from([...ring].reverse().flat());
}

/** What of a mesh lies above a height, or below it; open where it is cut: the light goes through there. */
function cutBefore({ positions, indices }: TriangleMesh, atMm: number, side: 1 | -1): TriangleMesh {
  const out: number[] = [];
  const over = (v: number): number => side * (positions[3 * v + 2] - atMm);
  for (let t = 0; t < indices.length; t += 3) {
    const corners = [indices[t], indices[t + 1], indices[t + 2]];
    const heights = corners.map(over);
    if (heights.every((h) => h <= 0)) continue;
    const kept: number[][] = [];
    corners.forEach((v, i) => {
      const w = corners[(i + 1) % 3];
      const [h, k] = [heights[i], heights[(i + 1) % 3]];
      const point = (u: number): number[] => [positions[3 * u], positions[3 * u + 1], positions[3 * u + 2]];
      if (h >= 0) kept.push(point(v));
      if (h * k < 0) kept.push(point(v).map((from, axis) => from + (h / (h - k)) * (point(w)[axis] - from)));
    });
    for (let i = 1; i + 1 < kept.length; i++) out.push(...kept[0], ...kept[i], ...kept[i + 1]);
  }
  return { positions: Float64Array.from(out), indices: Uint32Array.from({ length: out.length / 3 }, (_, i) => i) };
}
