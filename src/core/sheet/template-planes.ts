/** Which templates a piece has, in which order, and what their files are called. */
import type { Plane, Scene } from '../scene/scene.ts';

/** Planes in the order they are painted: as they are reached by pouring. */
export function planesUpward({ placements }: Pick<Scene, 'placements'>): Plane[] {
  return placements.filter((placement): placement is Plane => placement.kind === 'plane').sort((a, b) => a.atMm - b.atMm);
}

export const STENCILS_STEM = 'stencils';
const LONGEST_STEM = 60;

/** File names without ending, in the planes' order: safe for files, and no two alike. */
export function templateStems(planes: readonly Plane[]): string[] {
  const digits = Math.max(2, String(planes.length).length);
  return planes.map(({ name }, i) => `${String(i + 1).padStart(digits, '0')}-${slug(name)}`);
}

/** Letters and digits of a name, lower case, the rest as dashes. */
function slug(name: string): string {
  const plain = name.normalize('NFKD').replace(/\p{M}+/gu, '').toLowerCase().replace(/[^\p{L}\p{N}]+/gu, '-').replace(/^-+|-+$/g, '');
  return [...plain].slice(0, LONGEST_STEM).join('').replace(/-+$/, '') || 'plane';
}
