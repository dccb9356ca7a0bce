/** Placements whose shape is a mesh: a file beside the scene, or a figure of our own library. */
import type { Placement, Shape, SolidPlacement } from './scene.ts';

export type MeshShape = Extract<Shape, { type: 'mesh' | 'library' }>;

/** Neither a plane nor a shape in closed form. */
export function hasMesh(placement: Placement): placement is SolidPlacement & { readonly shape: MeshShape } {
  return placement.kind !== 'plane' && isMesh(placement.shape);
}

export function isMesh(shape: Shape): shape is MeshShape {
  return shape.type === 'mesh' || shape.type === 'library';
}
