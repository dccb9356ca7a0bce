/** manifold-3d as the outside judge: the same solid in its hands and in ours, to the last bit. */
import openManifold, { type Manifold, type ManifoldToplevel } from 'manifold-3d';
import type { TriangleMesh } from '../../src/core/solid/solid.ts';

export type Solid = Manifold;

let started: Promise<ManifoldToplevel> | undefined;

export function judge(): Promise<ManifoldToplevel> {
  started ??= openManifold().then((library) => {
    library.setup();
    return library;
  });
  return started;
}

/** A solid of the library as a mesh of ours; its corners are 32-bit numbers, which doubles hold exactly. */
export function meshFrom(solid: Solid): TriangleMesh {
  const { vertProperties, triVerts, numProp } = solid.getMesh();
  const positions = new Float64Array((vertProperties.length / numProp) * 3);
  for (let v = 0; 3 * v < positions.length; v++) for (let d = 0; d < 3; d++) positions[3 * v + d] = vertProperties[numProp * v + d];
  return { positions, indices: triVerts.slice() };
}

/** Every coordinate to the nearest 32-bit number, which is what the library takes in. */
export function in32Bits({ positions, indices }: TriangleMesh): TriangleMesh {
  return { positions: positions.map(Math.fround), indices };
}

/** A mesh of 32-bit coordinates and shared corners as a solid of the library. */
export async function solidFrom({ positions, indices }: TriangleMesh): Promise<Solid> {
  const { Manifold, Mesh } = await judge();
  return Manifold.ofMesh(new Mesh({ numProp: 3, vertProperties: Float32Array.from(positions), triVerts: indices.slice() })).setTolerance(0);
}

/** Volume below a height, by trimming. */
export function trimmedBelow(solid: Solid, z: number): number {
  return solid.trimByPlane([0, 0, -1], -z).volume();
}
