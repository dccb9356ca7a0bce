/** Writes a mesh as binary little-endian PLY: float32 x, y, z (mm) and triangles of uint32 vertex numbers. */
import type { TriangleMesh } from '../../core/solid/solid.ts';

const BYTES_PER_VERTEX = 12;
const BYTES_PER_TRIANGLE = 13;

export function writePly(mesh: TriangleMesh, comment: string): Uint8Array {
  const vertices = mesh.positions.length / 3;
  const triangles = mesh.indices.length / 3;
  const header = new TextEncoder().encode(
    [
      'ply',
      'format binary_little_endian 1.0',
      `comment ${comment}`,
      `element vertex ${vertices}`,
      'property float x',
      'property float y',
      'property float z',
      `element face ${triangles}`,
      'property list uchar uint vertex_indices',
      'end_header',
      '',
    ].join('\n'),
  );
  const bytes = new Uint8Array(header.length + vertices * BYTES_PER_VERTEX + triangles * BYTES_PER_TRIANGLE);
  bytes.set(header);
  const view = new DataView(bytes.buffer);
  let at = header.length;
  for (const value of mesh.positions) {
    view.setFloat32(at, value, true);
    at += 4;
  }
  for (let i = 0; i < mesh.indices.length; i += 3) {
    view.setUint8(at, 3);
    for (let k = 0; k < 3; k++) view.setUint32(at + 1 + k * 4, mesh.indices[i + k], true);
    at += BYTES_PER_TRIANGLE;
  }
  return bytes;
}
