/**
 * Numbers out of glTF's buffers: strides, small integers, normalized values, sparse replacements.
 * Source: glTF 2.0 Specification (Khronos) §3.6 Binary Data Storage, with §3.6.2.3 Sparse Accessors and §3.6.2.4
 * Data Alignment; the decoding of normalized integers is KHR_mesh_quantization's table.
 */

import { described, grouped, type Fail } from '../fail.ts';
import { MAX_TRIANGLES, MAX_VERTICES } from '../limits.ts';
import { listOf, objectOf, whole, type Json } from './gltf-json.ts';
import { EXPORT_AGAIN, tooMany } from './raw.ts';

export interface GltfBuffers {
  /** The document's `bufferViews` and `accessors`. */
  readonly views: readonly unknown[];
  readonly accessors: readonly unknown[];
  /** The bytes of a buffer, no fewer than it declares. */
  buffer(index: number): Uint8Array;
}

const BYTE = 5120;
const UNSIGNED_BYTE = 5121;
const SHORT = 5122;
const UNSIGNED_SHORT = 5123;
const UNSIGNED_INT = 5125;
const FLOAT = 5126;

const COMPONENT_BYTES: Readonly<Record<number, number>> = { [BYTE]: 1, [UNSIGNED_BYTE]: 1, [SHORT]: 2, [UNSIGNED_SHORT]: 2, [UNSIGNED_INT]: 4, [FLOAT]: 4 };
const INDEX_TYPES = [UNSIGNED_BYTE, UNSIGNED_SHORT, UNSIGNED_INT];

/** x, y, z per vertex; `room` is how many vertices may still come, checked before memory is taken. */
export function readPositions(buffers: GltfBuffers, index: number, room: number, fail: Fail): Float64Array {
  return readAccessor(buffers, index, 'VEC3', room, fail);
}

/** Vertex numbers; `room` is how many corners may still come. */
export function readIndices(buffers: GltfBuffers, index: number, room: number, fail: Fail): Uint32Array {
  const accessor = objectOf(buffers.accessors[index], `accessor ${index}`, fail);
  if (!INDEX_TYPES.includes(Number(accessor.componentType))) throw fail(`indices of component type ${described(accessor.componentType)}`, 'unsigned integers (5121, 5123 or 5125)', EXPORT_AGAIN);
  return new Uint32Array(readAccessor(buffers, index, 'SCALAR', room, fail));
}

/** Numbers beside the positions: places in a picture, or colors. `width` numbers for each of `vertices`. */
export function readAttribute(buffers: GltfBuffers, index: number, vertices: number, fail: Fail): { readonly values: Float64Array; readonly width: number } {
  const what = `accessor ${index}`;
  const accessor = objectOf(buffers.accessors[index], what, fail);
  const type = (['VEC2', 'VEC3', 'VEC4'] as const).find((known) => known === accessor.type);
  if (!type) throw fail(`${what} of type ${described(accessor.type)}`, 'VEC2, VEC3 or VEC4', EXPORT_AGAIN);
  if (accessor.count !== vertices) throw fail(`${what} with ${described(accessor.count)} elements`, `${grouped(vertices)}, one for each vertex`, EXPORT_AGAIN);
  return { values: readAccessor(buffers, index, type, vertices, fail), width: WIDTHS[type] };
}

const WIDTHS = { SCALAR: 1, VEC2: 2, VEC3: 3, VEC4: 4 } as const;

function readAccessor(buffers: GltfBuffers, index: number, type: keyof typeof WIDTHS, room: number, fail: Fail): Float64Array {
  const what = `accessor ${index}`;
  const accessor = objectOf(buffers.accessors[index], what, fail);
  if (accessor.type !== type) throw fail(`${what} of type ${described(accessor.type)}`, type, EXPORT_AGAIN);
  const width = WIDTHS[type];
  const count = whole(accessor.count, `${what}.count`, fail);
  if (count > room) throw type === 'VEC3' ? tooMany('vertices', MAX_VERTICES - room + count, fail) : tooMany('triangles', MAX_TRIANGLES - Math.floor(room / 3) + Math.ceil(count / 3), fail);
  const componentType = Number(accessor.componentType);
  if (!Object.hasOwn(COMPONENT_BYTES, componentType)) throw fail(`${what} of component type ${described(accessor.componentType)}`, Object.keys(COMPONENT_BYTES).join(', '), EXPORT_AGAIN);
  const layout = { componentType, normalized: type !== 'SCALAR' && accessor.normalized === true, width, count };

  let values: Float64Array | undefined;
  if (accessor.bufferView !== undefined) values = readValues(buffers, accessor, layout, what, fail);
  if (accessor.sparse !== undefined) {
    const sparse = objectOf(accessor.sparse, `${what}.sparse`, fail);
    const replaced = whole(sparse.count, `${what}.sparse.count`, fail, count);
    const at = objectOf(sparse.indices, `${what}.sparse.indices`, fail);
    const atType = Number(at.componentType);
    if (!INDEX_TYPES.includes(atType)) throw fail(`${what}.sparse.indices of component type ${described(at.componentType)}`, '5121, 5123 or 5125', EXPORT_AGAIN);
    const where = readValues(buffers, at, { componentType: atType, normalized: false, width: 1, count: replaced }, `${what}.sparse.indices`, fail);
    const by = readValues(buffers, objectOf(sparse.values, `${what}.sparse.values`, fail), { ...layout, count: replaced }, `${what}.sparse.values`, fail);
    values ??= new Float64Array(width * count);
    for (let i = 0; i < replaced; i++) {
      if (where[i] >= count) throw fail(`${what}.sparse replaces element ${where[i]}`, `one of ${grouped(count)}`, EXPORT_AGAIN);
      for (let k = 0; k < width; k++) values[width * where[i] + k] = by[width * i + k];
    }
  }
  // Without either, all values are zero by §3.6.2.3: points on one spot, which no exporter means.
  if (!values) throw fail(`${what} without data`, 'a bufferView or sparse values', EXPORT_AGAIN);
  return values;
}

interface Layout {
  readonly componentType: number;
  readonly normalized: boolean;
  readonly width: number;
  readonly count: number;
}

function readValues(buffers: GltfBuffers, from: Json, layout: Layout, what: string, fail: Fail): Float64Array {
  const { componentType, normalized, width, count } = layout;
  const viewIndex = whole(from.bufferView, `${what}.bufferView`, fail, buffers.views.length - 1);
  const view = objectOf(buffers.views[viewIndex], `bufferView ${viewIndex}`, fail);
  const bytes = buffers.buffer(whole(view.buffer, `bufferView ${viewIndex}.buffer`, fail));
  const viewAt = whole(view.byteOffset ?? 0, `bufferView ${viewIndex}.byteOffset`, fail);
  const viewEnd = viewAt + whole(view.byteLength, `bufferView ${viewIndex}.byteLength`, fail);
  if (viewEnd > bytes.length) throw fail(`bufferView ${viewIndex} ends at byte ${grouped(viewEnd)}`, `within its buffer of ${grouped(bytes.length)}`, EXPORT_AGAIN);
  const size = COMPONENT_BYTES[componentType];
  const stride = view.byteStride === undefined ? width * size : whole(view.byteStride, `bufferView ${viewIndex}.byteStride`, fail);
  if (stride < width * size) throw fail(`bufferView ${viewIndex} with a stride of ${stride} bytes`, `at least ${width * size}`, EXPORT_AGAIN);
  const start = viewAt + whole(from.byteOffset ?? 0, `${what}.byteOffset`, fail);
  if (count > 0 && start + stride * (count - 1) + width * size > viewEnd) {
    throw fail(`${what} with ${grouped(count)} elements in a bufferView of ${grouped(viewEnd - viewAt)} bytes`, 'room for all of them', 'The file is cut off or damaged; export it again.');
  }
  const data = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const read = decoder(data, componentType, normalized);
  const values = new Float64Array(width * count);
  for (let i = 0, out = 0; i < count; i++) for (let k = 0; k < width; k++) values[out++] = read(start + i * stride + k * size);
  return values;
}

function decoder(data: DataView, componentType: number, normalized: boolean): (at: number) => number {
  switch (componentType) {
    case BYTE: return normalized ? (at) => Math.max(data.getInt8(at) / 127, -1) : (at) => data.getInt8(at);
    case UNSIGNED_BYTE: return normalized ? (at) => data.getUint8(at) / 255 : (at) => data.getUint8(at);
    case SHORT: return normalized ? (at) => Math.max(data.getInt16(at, true) / 32767, -1) : (at) => data.getInt16(at, true);
    case UNSIGNED_SHORT: return normalized ? (at) => data.getUint16(at, true) / 65535 : (at) => data.getUint16(at, true);
    case UNSIGNED_INT: return (at) => data.getUint32(at, true);
    default: return (at) => data.getFloat32(at, true);
  }
}

/** The document's lists of views and accessors. */
export function accessorLists(document: Json, fail: Fail): Pick<GltfBuffers, 'views' | 'accessors'> {
  return { views: listOf(document.bufferViews, 'bufferViews', fail), accessors: listOf(document.accessors, 'accessors', fail) };
}
