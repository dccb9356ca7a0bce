/** Depth: mm down from the finished show face, which is the last pour face-up and the mold's floor face-down. */
import type { Scene } from './scene.ts';

export function depthAt({ cast, fillMm }: Pick<Scene, 'cast' | 'fillMm'>, heightMm: number): number {
  return cast === 'face-down' ? heightMm : fillMm - heightMm;
}
