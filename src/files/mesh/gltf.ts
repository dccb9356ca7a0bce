/**
 * glTF 2.0, as GLB or with everything embedded: the triangles of its scene, at rest.
 * Skins and morph targets are ignored: the mesh stands as it was modeled. Compressed geometry is refused.
 * Source: glTF 2.0 Specification (Khronos) §3.4 (right-handed, y up, meters), §3.5.3 (transformations),
 * §3.7.2.1 (modes of primitives, winding under mirroring).
 */

import { described, grouped, quoted, type Fail } from '../fail.ts';
import { MAX_INSTANCES, MAX_NESTING, MAX_TRIANGLES, MAX_VERTICES } from '../limits.ts';
import { after, assemble, IDENTITY, type Affine, type Piece } from './assemble.ts';
import { accessorLists, readIndices, readPositions, type GltfBuffers } from './gltf-accessor.ts';
import { decodeDataUri, openGltf, type GltfContainer } from './gltf-container.ts';
import { listOf, numbersOf, objectOf, whole, type Json } from './gltf-json.ts';
import { EXPORT_AGAIN, tooMany, type RawMesh } from './raw.ts';
import { withoutUnused } from './unused.ts';

export const METER_MM = 1000;
/** y up to z up: (x, y, z) → (x, −z, y). */
const Z_UP: Affine = [1, 0, 0, 0, 0, 1, 0, -1, 0, 0, 0, 0];

const TRIANGLES = 4;
const STRIP = 5;
const FAN = 6;

/** Extensions that say how things look, or that this reader follows; any other that is required may change the shape. */
const HARMLESS_EXTENSIONS = /^(?:KHR_mesh_quantization|KHR_materials_.*|KHR_texture_.*|EXT_texture_.*|KHR_lights_.*|KHR_xmp.*|KHR_animation_pointer)$/;
const COMPRESSIONS = /draco|meshopt/i;

/** Reads a GLB or a self-contained glTF, turned to z up, in meters. */
export function readGltf(bytes: Uint8Array, fail: Fail): RawMesh {
  const { document, buffers } = openedGltf(bytes, fail);
  const meshes = meshReader(document, buffers, fail);
  const pieces: Piece[] = [];
  for (const { mesh, placed } of placedMeshes(document, fail)) {
    for (const part of meshes(mesh)) pieces.push({ ...part, placed });
    if (pieces.length > MAX_INSTANCES) throw fail(`nodes that place more than ${grouped(MAX_INSTANCES)} parts`, 'fewer', 'Join the parts before you export them.');
  }
  return { ...assemble(pieces, fail), unitMm: METER_MM };
}

export function openedGltf(bytes: Uint8Array, fail: Fail): { readonly document: Json; readonly buffers: GltfBuffers } {
  const container = openGltf(bytes, fail);
  const { document } = container;
  const version = objectOf(document.asset, 'asset', fail).version;
  if (typeof version !== 'string' || !version.startsWith('2.')) throw fail(`glTF version ${described(version)}`, '2.0', 'Export it as glTF 2.0.');
  refuseExtensions(document, fail);
  return { document, buffers: buffersOf(container, fail) };
}

function refuseExtensions(document: Json, fail: Fail): void {
  for (const name of listOf(document.extensionsRequired, 'extensionsRequired', fail)) {
    const text = String(name);
    if (COMPRESSIONS.test(text)) throw fail(`compressed geometry (${quoted(text)})`, 'plain geometry', 'Export it without compression.');
    if (!HARMLESS_EXTENSIONS.test(text)) throw fail(`it needs the extension "${quoted(text)}"`, 'plain geometry', 'Export it without that extension.');
  }
}

function buffersOf({ document, binary }: GltfContainer, fail: Fail): GltfBuffers {
  const declared = listOf(document.buffers, 'buffers', fail);
  const decoded = new Map<number, Uint8Array>();
  return {
    ...accessorLists(document, fail),
    buffer(index) {
      let bytes = decoded.get(index);
      if (bytes) return bytes;
      const buffer = objectOf(declared[index], `buffer ${index}`, fail);
      if (buffer.uri === undefined && index === 0 && binary) bytes = binary;
      else if (typeof buffer.uri === 'string') bytes = decodeDataUri(buffer.uri, fail);
      else throw fail(`buffer ${index} without data`, 'embedded data', 'Export it as GLB, or as glTF with embedded buffers.');
      const length = whole(buffer.byteLength, `buffer ${index}.byteLength`, fail);
      if (bytes.length < length) throw fail(`buffer ${index} with ${grouped(bytes.length)} of its ${grouped(length)} bytes`, 'all of them', 'The file is cut off; export it again.');
      decoded.set(index, bytes);
      return bytes;
    },
  };
}

export interface PlacedMesh {
  readonly mesh: number;
  readonly placed: Affine;
}

/** Meshes of the scene's nodes, each with its map into the turned world. */
export function placedMeshes(document: Json, fail: Fail): PlacedMesh[] {
  const nodes = listOf(document.nodes, 'nodes', fail).map((node, i) => objectOf(node, `node ${i}`, fail));
  const meshes = listOf(document.meshes, 'meshes', fail);
  if (nodes.length === 0) return meshes.map((_, mesh) => ({ mesh, placed: Z_UP }));

  const children = nodes.map((node, i) => listOf(node.children, `node ${i}.children`, fail).map((child) => whole(child, `a child of node ${i}`, fail, nodes.length - 1)));
  const placed: PlacedMesh[] = [];
  const seen = new Set<number>();
  const waiting = roots(document, children, fail).map((node) => ({ node, outer: Z_UP, depth: 1 }));
  for (let next = waiting.pop(); next; next = waiting.pop()) {
    const { node: i, outer, depth } = next;
    if (seen.has(i)) throw fail(`node ${i} is placed twice, or inside itself`, 'a tree of nodes', EXPORT_AGAIN);
    if (depth > MAX_NESTING) throw fail(`nodes more than ${MAX_NESTING} deep`, 'fewer', 'Join the parts before you export them.');
    seen.add(i);
    const here = after(outer, transformOf(nodes[i], `node ${i}`, fail));
    const extensions = nodes[i].extensions === undefined ? {} : objectOf(nodes[i].extensions, `node ${i}.extensions`, fail);
    if ('EXT_mesh_gpu_instancing' in extensions) throw fail(`node ${i} repeats its mesh by EXT_mesh_gpu_instancing`, 'plain nodes', 'Export it without instancing.');
    if (nodes[i].mesh !== undefined) placed.push({ mesh: whole(nodes[i].mesh, `node ${i}.mesh`, fail, meshes.length - 1), placed: here });
    for (const child of children[i]) waiting.push({ node: child, outer: here, depth: depth + 1 });
  }
  return placed;
}

/** The nodes of the default scene, else of the first; without scenes, all nodes that are nobody's child. */
function roots(document: Json, children: readonly (readonly number[])[], fail: Fail): number[] {
  const scenes = listOf(document.scenes, 'scenes', fail);
  if (scenes.length > 0) {
    const index = whole(document.scene ?? 0, 'scene', fail, scenes.length - 1);
    const nodes = listOf(objectOf(scenes[index], `scene ${index}`, fail).nodes, `scene ${index}.nodes`, fail);
    return nodes.map((node) => whole(node, `a node of scene ${index}`, fail, children.length - 1));
  }
  const inside = new Set(children.flat());
  const free = children.map((_, i) => i).filter((i) => !inside.has(i));
  if (free.length === 0) throw fail('nodes that are all inside each other', 'a tree of nodes', EXPORT_AGAIN);
  return free;
}

function transformOf(node: Json, what: string, fail: Fail): Affine {
  if (node.matrix !== undefined) {
    const m = numbersOf(node.matrix, 16, `${what}.matrix`, fail);
    if (m[3] !== 0 || m[7] !== 0 || m[11] !== 0 || m[15] !== 1) throw fail(`${what}.matrix with the last row ${[m[3], m[7], m[11], m[15]].join(', ')}`, '0, 0, 0, 1', EXPORT_AGAIN);
    return [m[0], m[1], m[2], m[4], m[5], m[6], m[8], m[9], m[10], m[12], m[13], m[14]];
  }
  if (node.translation === undefined && node.rotation === undefined && node.scale === undefined) return IDENTITY;
  const t = numbersOf(node.translation ?? [0, 0, 0], 3, `${what}.translation`, fail);
  const s = numbersOf(node.scale ?? [1, 1, 1], 3, `${what}.scale`, fail);
  const q = numbersOf(node.rotation ?? [0, 0, 0, 1], 4, `${what}.rotation`, fail);
  const length = Math.hypot(...q);
  if (!(length > 0)) throw fail(`${what}.rotation is all zeros`, 'a unit quaternion', EXPORT_AGAIN);
  // Exporters write 32-bit quaternions; without this each level would scale by one part in 10^7.
  const [x, y, z, w] = q.map((part) => part / length);
  return [
    s[0] * (1 - 2 * (y * y + z * z)), s[0] * 2 * (x * y + z * w), s[0] * 2 * (x * z - y * w),
    s[1] * 2 * (x * y - z * w), s[1] * (1 - 2 * (x * x + z * z)), s[1] * 2 * (y * z + x * w),
    s[2] * 2 * (x * z + y * w), s[2] * 2 * (y * z - x * w), s[2] * (1 - 2 * (x * x + y * y)),
    t[0], t[1], t[2],
  ];
}

type Part = Pick<Piece, 'positions' | 'indices'>;

/** Meshes by number, each decoded once however often it is placed. */
function meshReader(document: Json, buffers: GltfBuffers, fail: Fail): (mesh: number) => readonly Part[] {
  const meshes = listOf(document.meshes, 'meshes', fail);
  const decoded = new Map<number, readonly Part[]>();
  const primitives = primitiveReader(buffers, fail);
  return (index) => {
    let parts = decoded.get(index);
    if (!parts) {
      const what = `mesh ${index}`;
      const listed = listOf(objectOf(meshes[index], what, fail).primitives, `${what}.primitives`, fail);
      parts = listed.flatMap((primitive, i) => {
        const part = primitives(objectOf(primitive, `primitive ${i} of ${what}`, fail), `primitive ${i} of ${what}`);
        return part ? [withoutUnused(part.positions, part.indices, fail)] : [];
      });
      decoded.set(index, parts);
    }
    return parts;
  };
}

/** Decodes the triangles of primitives; null for points and lines. What it has decoded counts against the limits. */
export function primitiveReader(buffers: GltfBuffers, fail: Fail): (primitive: Json, what: string) => Part | null {
  const last = buffers.accessors.length - 1;
  /** Exporters share one list of positions among the primitives of a mesh. */
  const known = new Map<number, Float64Array>();
  let vertices = 0;
  let triangles = 0;
  return (primitive, what) => {
    const mode = whole(primitive.mode ?? TRIANGLES, `${what}.mode`, fail, FAN);
    if (mode < TRIANGLES) return null;
    const accessor = whole(objectOf(primitive.attributes, `${what}.attributes`, fail).POSITION, `${what}.attributes.POSITION`, fail, last);
    let positions = known.get(accessor);
    if (!positions) {
      known.set(accessor, (positions = readPositions(buffers, accessor, MAX_VERTICES - vertices, fail)));
      vertices += positions.length / 3;
    }
    const room = mode === TRIANGLES ? 3 * (MAX_TRIANGLES - triangles) : MAX_TRIANGLES - triangles + 2;
    const corners = primitive.indices === undefined
      ? firstWholes(positions.length / 3)
      : readIndices(buffers, whole(primitive.indices, `${what}.indices`, fail, last), room, fail);
    if (mode === TRIANGLES && corners.length % 3 !== 0) throw fail(`${what} with ${grouped(corners.length)} corners`, 'three a triangle', EXPORT_AGAIN);
    const indices = mode === TRIANGLES ? corners : unrolled(corners, mode);
    triangles += indices.length / 3;
    if (triangles > MAX_TRIANGLES) throw tooMany('triangles', triangles, fail);
    return { positions, indices };
  };
}

function firstWholes(count: number): Uint32Array {
  const all = new Uint32Array(count);
  for (let i = 0; i < count; i++) all[i] = i;
  return all;
}

/** A strip's or fan's triangles: strip pᵢ = {vᵢ, vᵢ₊₁₊ᵢ%₂, vᵢ₊₂₋ᵢ%₂}, fan pᵢ = {vᵢ₊₁, vᵢ₊₂, v₀} (§3.7.2.1). */
function unrolled(corners: Uint32Array, mode: number): Uint32Array {
  const count = Math.max(0, corners.length - 2);
  const indices = new Uint32Array(3 * count);
  for (let i = 0; i < count; i++) {
    const odd = i % 2;
    indices[3 * i] = mode === STRIP ? corners[i] : corners[i + 1];
    indices[3 * i + 1] = mode === STRIP ? corners[i + 1 + odd] : corners[i + 2];
    indices[3 * i + 2] = mode === STRIP ? corners[i + 2 - odd] : corners[0];
  }
  return indices;
}
