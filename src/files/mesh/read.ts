/**
 * Any mesh file to one mesh in millimeters, z up, doubles. The ending of the name decides the format, the first
 * bytes where there is none. Nothing is welded or repaired here (core/solid/inspect does that): a soup stays one,
 * only vertices that no triangle uses are left out.
 * Runs in Node and in a worker alike.
 */

import type { MeshUnit } from '../../core/scene/scene.ts';
import type { TriangleMesh } from '../../core/solid/solid.ts';
import { grouped, meshFail, quoted, type Fail } from '../fail.ts';
import { MAX_COORDINATE_MM, MAX_MESH_BYTES } from '../limits.ts';
import { looksLikeZip } from '../zip.ts';
import { readGltf } from './gltf.ts';
import { looksLikeGlb } from './gltf-container.ts';
import { readObj } from './obj.ts';
import { readPly } from './ply.ts';
import { EXPORT_AGAIN, type RawMesh } from './raw.ts';
import { readStl } from './stl.ts';
import { readThreemf } from './threemf.ts';
import { withoutUnused } from './unused.ts';

export { MeshFileError } from '../fail.ts';

/** Millimeters in one. */
export const UNIT_MM: Readonly<Record<MeshUnit, number>> = { mm: 1, cm: 10, m: 1000, in: 25.4 };

export interface ReadMeshOptions {
  /** Told now and then which share is done, by readers of formats that large meshes come in: STL and OBJ. */
  readonly onShare?: (share: number) => void;
}

type Reader = (bytes: Uint8Array, fail: Fail, onShare?: (share: number) => void) => RawMesh;

const READERS: Readonly<Record<string, Reader>> = { stl: readStl, obj: readObj, ply: readPly, glb: readGltf, gltf: readGltf, '3mf': readThreemf };

/** Endings that `readMesh` knows, for file dialogs. */
export const MESH_ENDINGS: readonly string[] = Object.keys(READERS);

/**
 * Reads a mesh. `unit` replaces the file's own, or says what the numbers of a format without one mean (else mm);
 * it never turns axes. Linear time; at its peak about 4 times the mesh's own size in memory, beside the unpacked file.
 * Throws MeshFileError naming file, find, expectation and remedy: unknown format, truncated, no triangles, numbers
 * that are not finite or beyond 1,000 km, indices out of range, compressed, linked, cyclic, past the limits.
 */
export function readMesh(bytes: Uint8Array, fileName: string, unit?: MeshUnit, { onShare }: ReadMeshOptions = {}): TriangleMesh {
  const fail = meshFail(fileName);
  if (bytes.length === 0) throw fail('it is empty', 'a mesh', EXPORT_AGAIN);
  if (bytes.length > MAX_MESH_BYTES) throw fail(`${grouped(bytes.length)} bytes`, `at most ${grouped(MAX_MESH_BYTES)}`, 'Reduce the mesh before you export it.');
  const raw = readerFor(bytes, fileName, fail)(bytes, fail, onShare);
  if (raw.indices.length === 0) throw fail('no triangles', 'at least one', 'Export a mesh with faces; an empty one has no volume.');
  const mesh = withoutUnused(raw.positions, raw.indices, fail);
  const scale = unit === undefined ? raw.unitMm : UNIT_MM[unit];
  if (scale !== 1) for (let i = 0; i < mesh.positions.length; i++) mesh.positions[i] *= scale;
  checkCoordinates(mesh.positions, fail);
  return mesh;
}

function readerFor(bytes: Uint8Array, fileName: string, fail: Fail): Reader {
  const ending = /\.([^./\\]+)$/.exec(fileName)?.[1].toLowerCase();
  if (ending !== undefined && Object.hasOwn(READERS, ending)) return READERS[ending];
  if (looksLikeGlb(bytes)) return readGltf;
  if (looksLikeZip(bytes)) return readThreemf;
  if (/^ply\s/.test(String.fromCharCode(...bytes.subarray(0, 4)))) return readPly;
  throw fail(ending === undefined ? 'a name without an ending' : `the ending ".${quoted(ending)}"`, MESH_ENDINGS.map((known) => `.${known}`).join(', '), 'Export the mesh in one of these formats.');
}

function checkCoordinates(positions: Float64Array, fail: Fail): void {
  for (let i = 0; i < positions.length; i++) {
    const value = positions[i];
    if (Math.abs(value) <= MAX_COORDINATE_MM) continue;
    throw fail(`vertex ${grouped(Math.floor(i / 3) + 1)} has ${'xyz'[i % 3]} = ${value}${Number.isFinite(value) ? ' mm' : ''}`, `finite coordinates within ${grouped(MAX_COORDINATE_MM / 1e6)} km`, EXPORT_AGAIN);
  }
}
