/** The colors that a mesh's file brings, read again beside its plain form and only where they are asked for. */
import type { MeshUnit } from '../../../core/scene/scene.ts';
import { decoded } from '../../../core/sight/color.ts';
import type { ColoredMesh } from '../../../core/sight/colors/colored-mesh.ts';
import { meshFail, type Fail } from '../../fail.ts';
import { readColoredPly, type PlyColors } from '../ply.ts';
import { UNIT_MM } from '../read.ts';
import { readGltfColors } from './gltf.ts';
import { mayHaveColors } from './may-have.ts';
import { withUsed } from './used.ts';

/**
 * Millimeters, z up, as `readMesh` gives the plain mesh; null where there are no colors. Memory: the mesh again, its
 * pictures, and while one is decoded some 14 bytes a pixel. Throws MeshFileError as `readMesh`, and for pictures
 * that are cut off, damaged, too large, outside the file, or no PNG or JPEG.
 */
export function readMeshColors(bytes: Uint8Array, fileName: string, unit?: MeshUnit): ColoredMesh | null {
  const fail = meshFail(fileName);
  const read = /\.ply$/i.test(fileName) ? readPlyColors(bytes, fail) : mayHaveColors(fileName) ? readGltfColors(bytes, fail) : null;
  if (!read) return null;
  const scale = unit === undefined ? read.unitMm : UNIT_MM[unit];
  if (scale !== 1) for (const { positions } of read.mesh) for (let i = 0; i < positions.length; i++) positions[i] *= scale;
  return read.mesh;
}

function readPlyColors(bytes: Uint8Array, fail: Fail): { readonly mesh: ColoredMesh; readonly unitMm: number } | null {
  const raw = readColoredPly(bytes, fail);
  return raw && { mesh: [withUsed({ positions: raw.positions, indices: raw.indices, light: [1, 1, 1], vertexLight: lightOf(raw.colors) }, fail)], unitMm: raw.unitMm };
}

/** Programs write what they show: sRGB (common practice, no source; the format says nothing). */
function lightOf({ values, full }: PlyColors): Float32Array {
  const light = new Float32Array(values.length);
  for (let i = 0; i < light.length; i++) {
    const share = values[i] / full[i % 3];
    light[i] = share >= 0 ? decoded(Math.min(1, share)) : 0;
  }
  return light;
}
