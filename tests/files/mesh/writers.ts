/** Mesh files written by hand from their formats' descriptions, for the readers' tests. */

import { writeZip } from '../../../src/files/zip-write.ts';
import type { TriangleMesh } from '../../../src/core/solid/solid.ts';

export const utf8 = (text: string): Uint8Array => new TextEncoder().encode(text);

export function joined(...parts: Uint8Array[]): Uint8Array {
  const out = new Uint8Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    out.set(part, at);
    at += part.length;
  }
  return out;
}

/** A box turned about three axes, every coordinate irrational, wound counter-clockwise from outside. */
export function turnedBox(sizes: readonly [number, number, number] = [Math.PI * 7, Math.E * 5, Math.SQRT2 * 9], center: readonly [number, number, number] = [Math.SQRT2, -Math.E, 3 * Math.PI]): TriangleMesh {
  const positions = new Float64Array(24);
  const [a, b, c] = [0.7, -1.1, 2.3];
  for (let i = 0; i < 8; i++) {
    let [x, y, z] = [0, 1, 2].map((k) => ((i >> k) & 1 ? 0.5 : -0.5) * sizes[k]);
    [y, z] = [y * Math.cos(a) - z * Math.sin(a), y * Math.sin(a) + z * Math.cos(a)];
    [x, z] = [x * Math.cos(b) + z * Math.sin(b), -x * Math.sin(b) + z * Math.cos(b)];
    [x, y] = [x * Math.cos(c) - y * Math.sin(c), x * Math.sin(c) + y * Math.cos(c)];
    positions.set([x + center[0], y + center[1], z + center[2]], 3 * i);
  }
  const quads = [[0, 2, 3, 1], [4, 5, 7, 6], [0, 1, 5, 4], [2, 6, 7, 3], [0, 4, 6, 2], [1, 3, 7, 5]];
  return { positions, indices: Uint32Array.from(quads.flatMap(([p, q, r, s]) => [p, q, r, p, r, s])) };
}

/** Coordinates of all corners, triangle by triangle. */
export function soupOf({ positions, indices }: TriangleMesh): number[] {
  return [...indices].flatMap((v) => [positions[3 * v], positions[3 * v + 1], positions[3 * v + 2]]);
}

/** Sum of signed tetrahedra about the mean of the vertices, mm³; a triangle that is missing or turned changes it. */
export function volumeOf({ positions: p, indices }: TriangleMesh): number {
  const center = [0, 1, 2].map((axis) => p.reduce((sum, c, i) => sum + (i % 3 === axis ? c - p[axis] : 0), 0) / (p.length / 3) + p[axis]);
  let six = 0;
  for (let i = 0; i < indices.length; i += 3) {
    const [a, b, c] = [0, 1, 2].map((k) => [0, 1, 2].map((axis) => p[3 * indices[i + k] + axis] - center[axis]));
    six += a[0] * (b[1] * c[2] - b[2] * c[1]) + a[1] * (b[2] * c[0] - b[0] * c[2]) + a[2] * (b[0] * c[1] - b[1] * c[0]);
  }
  return six / 6;
}

export function stlBinary(mesh: TriangleMesh, header = 'a binary STL'): Uint8Array {
  const soup = soupOf(mesh);
  const bytes = new Uint8Array(84 + (soup.length / 9) * 50);
  bytes.set(utf8(header));
  const view = new DataView(bytes.buffer);
  view.setUint32(80, soup.length / 9, true);
  soup.forEach((value, i) => view.setFloat32(84 + Math.floor(i / 9) * 50 + 12 + (i % 9) * 4, value, true));
  return bytes;
}

export function stlText(mesh: TriangleMesh): Uint8Array {
  const soup = soupOf(mesh);
  let text = 'solid turned box with a facet in its name\n';
  for (let i = 0; i < soup.length; i += 9) {
    text += '  facet normal 0 0 0\n    outer loop\n';
    for (let k = 0; k < 9; k += 3) text += `      vertex ${soup.slice(i + k, i + k + 3).join(' ')}\n`;
    text += '    endloop\n  endfacet\n';
  }
  return utf8(`${text}endsolid turned box\n`);
}

export function objText({ positions, indices }: TriangleMesh): Uint8Array {
  let text = '# box\nmtllib none.mtl\no box\n';
  for (let i = 0; i < positions.length; i += 3) text += `v ${positions.slice(i, i + 3).join(' ')}\n`;
  text += 'vt 0 0\nvn 0 0 1\n';
  for (let i = 0; i < indices.length; i += 3) text += `${i % 6 ? '' : `g side${i / 6}\n`}f ${[...indices.slice(i, i + 3)].map((v) => `${v + 1}/1/1`).join(' ')}\n`;
  return utf8(text);
}

type PlyFormat = 'ascii' | 'binary_little_endian' | 'binary_big_endian';

/** Doubles, a property before and behind the coordinates, an element before the faces, a list behind the corners. */
export function ply({ positions, indices }: TriangleMesh, format: PlyFormat): Uint8Array {
  const header = utf8(
    `ply\nformat ${format} 1.0\ncomment a box\nelement vertex ${positions.length / 3}\nproperty uchar red\nproperty double x\nproperty double y\nproperty float64 z\nproperty list uchar short extra\n` +
      `element camera 2\nproperty list uint int8 marks\nproperty float f\nelement face ${indices.length / 3}\nproperty int flags\nproperty list uchar int vertex_indices\nproperty list int float texcoord\nend_header\n`,
  );
  const values: [kind: 'u1' | 'i1' | 'i2' | 'i4' | 'u4' | 'f4' | 'f8', value: number][] = [];
  for (let v = 0; v < positions.length; v += 3) {
    values.push(['u1', 200], ['f8', positions[v]], ['f8', positions[v + 1]], ['f8', positions[v + 2]], ['u1', 2], ['i2', -300], ['i2', 7]);
  }
  for (let c = 0; c < 2; c++) values.push(['u4', c], ...(c ? [['i1', -5] as ['i1', number]] : []), ['f4', 0.5]);
  for (let i = 0; i < indices.length; i += 3) {
    values.push(['i4', -1], ['u1', 3], ['i4', indices[i]], ['i4', indices[i + 1]], ['i4', indices[i + 2]], ['i4', 1], ['f4', 0.25]);
  }
  if (format === 'ascii') return joined(header, utf8(values.map(([, value]) => value).join(' ')), utf8('\n'));
  const little = format === 'binary_little_endian';
  const out = new Uint8Array(values.reduce((sum, [kind]) => sum + Number(kind[1]), 0));
  const view = new DataView(out.buffer);
  let at = 0;
  for (const [kind, value] of values) {
    if (kind === 'u1') view.setUint8(at, value);
    else if (kind === 'i1') view.setInt8(at, value);
    else if (kind === 'i2') view.setInt16(at, value, little);
    else if (kind === 'i4') view.setInt32(at, value, little);
    else if (kind === 'u4') view.setUint32(at, value, little);
    else if (kind === 'f4') view.setFloat32(at, value, little);
    else view.setFloat64(at, value, little);
    at += Number(kind[1]);
  }
  return joined(header, out);
}

/** One mesh as glTF's positions and indices: meters, y up. */
export function gltfParts({ positions, indices }: TriangleMesh): { document: Record<string, unknown>; binary: Uint8Array } {
  const binary = new Uint8Array(4 * positions.length + 2 * indices.length);
  const view = new DataView(binary.buffer);
  for (let i = 0; i < positions.length; i += 3) {
    view.setFloat32(4 * i, positions[i] / 1000, true);
    view.setFloat32(4 * i + 4, positions[i + 2] / 1000, true);
    view.setFloat32(4 * i + 8, -positions[i + 1] / 1000, true);
  }
  indices.forEach((v, i) => view.setUint16(4 * positions.length + 2 * i, v, true));
  return {
    document: {
      asset: { version: '2.0' },
      scene: 0,
      scenes: [{ nodes: [0] }],
      nodes: [{ mesh: 0 }],
      meshes: [{ primitives: [{ attributes: { POSITION: 0 }, indices: 1 }] }],
      accessors: [
        { bufferView: 0, componentType: 5126, count: positions.length / 3, type: 'VEC3' },
        { bufferView: 1, componentType: 5123, count: indices.length, type: 'SCALAR' },
      ],
      bufferViews: [
        { buffer: 0, byteLength: 4 * positions.length },
        { buffer: 0, byteOffset: 4 * positions.length, byteLength: 2 * indices.length },
      ],
      buffers: [{ byteLength: binary.length }],
    },
    binary,
  };
}

export function glb(document: unknown, binary: Uint8Array): Uint8Array {
  const json = utf8(JSON.stringify(document));
  const pad = (bytes: Uint8Array, fill: number): Uint8Array => joined(bytes, new Uint8Array((4 - (bytes.length % 4)) % 4).fill(fill));
  const chunk = (kind: number, bytes: Uint8Array): Uint8Array => {
    const head = new Uint8Array(8);
    new DataView(head.buffer).setUint32(0, bytes.length, true);
    new DataView(head.buffer).setUint32(4, kind, true);
    return joined(head, bytes);
  };
  const body = joined(chunk(0x4e4f534a, pad(json, 0x20)), chunk(0x004e4942, pad(binary, 0)));
  const head = joined(utf8('glTF'), new Uint8Array(8));
  new DataView(head.buffer).setUint32(4, 2, true);
  new DataView(head.buffer).setUint32(8, 12 + body.length, true);
  return joined(head, body);
}

/** The same document with its buffer inside, as `.gltf`. */
export function embedded(document: Record<string, unknown>, binary: Uint8Array): Uint8Array {
  const uri = `data:application/octet-stream;base64,${Buffer.from(binary).toString('base64')}`;
  return utf8(JSON.stringify({ ...document, buffers: [{ byteLength: binary.length, uri }] }));
}

export function meshXml({ positions, indices }: TriangleMesh): string {
  let text = '<mesh><vertices>';
  for (let i = 0; i < positions.length; i += 3) text += `<vertex x="${positions[i]}" y="${positions[i + 1]}" z="${positions[i + 2]}"/>\n`;
  text += '</vertices><triangles>';
  for (let i = 0; i < indices.length; i += 3) text += `<triangle v1="${indices[i]}" v2="${indices[i + 1]}" v3="${indices[i + 2]}" />`;
  return `${text}</triangles></mesh>`;
}

const CORE_NAMESPACE = 'http://schemas.microsoft.com/3dmanufacturing/core/2015/02';

export function modelXml(content: string, attributes = 'unit="millimeter"'): string {
  return `<?xml version="1.0" encoding="UTF-8"?>\n<!-- <object> --><model ${attributes} xml:lang="en-US" xmlns="${CORE_NAMESPACE}" xmlns:p="http://schemas.microsoft.com/3dmanufacturing/production/2015/06">${content}</model>`;
}

const RELATIONS = '<?xml version="1.0"?><Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Target="/3D/3dmodel.model" Id="r0" Type="http://schemas.microsoft.com/3dmanufacturing/2013/01/3dmodel"/></Relationships>';

/** A package with the root model and further parts by path. */
export function threemf(root: string, parts: Readonly<Record<string, string>> = {}): Uint8Array {
  return writeZip([
    { name: '[Content_Types].xml', bytes: utf8('<Types/>') },
    { name: '_rels/.rels', bytes: utf8(RELATIONS) },
    { name: '3D/3dmodel.model', bytes: utf8(root) },
    ...Object.entries(parts).map(([name, text]) => ({ name, bytes: utf8(text) })),
  ]);
}

/** One object placed once. */
export function threemfOf(mesh: TriangleMesh, unit = 'millimeter'): Uint8Array {
  return threemf(modelXml(`<resources><object id="1" type="model">${meshXml(mesh)}</object></resources><build><item objectid="1"/></build>`, `unit="${unit}"`));
}
