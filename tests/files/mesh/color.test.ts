/**
 * Colors of meshes as @gltf-transform/core (MIT) writes them, of a PLY written by hand against its GLB twin, places in
 * pictures as three.js (MIT) maps them, and files that are not honest.
 */
import { Document, NodeIO } from '@gltf-transform/core';
import { Matrix3, Vector3 } from 'three';
import { beforeAll, describe, expect, it } from 'vitest';
import { decoded, encoded, hexOf, lightOf } from '../../../src/core/sight/color.ts';
import type { ColoredMesh } from '../../../src/core/sight/colors/colored-mesh.ts';
import type { Regions } from '../../../src/core/sight/region.ts';
import { lookUp, textureOf } from '../../../src/core/sight/colors/texture.ts';
import type { TriangleMesh } from '../../../src/core/solid/solid.ts';
import { readMeshColors } from '../../../src/files/mesh/color/read.ts';
import { readMesh } from '../../../src/files/mesh/read.ts';
import { pngOf } from '../../../src/files/picture/png-write.ts';
import { openRegions } from '../../../src/files/regions.ts';
import { coloredGuides, sharesOf } from '../../core/sight/colors/made-colors.ts';
import { box, icosphere } from '../../core/solid/made-meshes.ts';
import { glb, gltfParts, utf8 } from './writers.ts';

let regions: Regions;
beforeAll(async () => {
  regions = await openRegions();
});

const COLORS = ['#7a4a21', '#e0c040', '#c02020', '#2060c0', '#208040', '#f0f0f0'];
const bytesOf = (hex: string) => [1, 3, 5].map((at) => parseInt(hex.slice(at, at + 2), 16));

/** One row of flat squares of 16 pixels, left to right. */
function squares(hexes: readonly string[]): Uint8Array {
  const width = 16 * hexes.length;
  return pngOf(width, 16, Uint8Array.from({ length: 64 * width }, (_, i) => [...bytesOf(hexes[Math.floor(((i >> 2) % width) / 16)]), 255][i & 3]));
}

interface Look {
  readonly picture?: Uint8Array;
  readonly factor?: readonly [number, number, number, number];
  readonly vertexColor?: (vertex: number) => readonly number[];
  readonly uv?: (vertex: number) => readonly [number, number];
}

/** Three vertices a triangle, in meters, y up. */
async function glbOf({ positions, indices }: TriangleMesh, { picture, factor, vertexColor, uv }: Look): Promise<Uint8Array> {
  const document = new Document();
  const buffer = document.createBuffer();
  const corners = [...indices];
  const accessor = (type: 'VEC2' | 'VEC3' | 'VEC4', values: number[]) => document.createAccessor().setType(type).setArray(new Float32Array(values)).setBuffer(buffer);
  const primitive = document.createPrimitive().setAttribute('POSITION', accessor('VEC3', corners.flatMap((v) => [positions[3 * v] / 1000, positions[3 * v + 2] / 1000, -positions[3 * v + 1] / 1000])));
  if (vertexColor) primitive.setAttribute('COLOR_0', accessor('VEC4', corners.flatMap((v) => [...vertexColor(v), 1])));
  if (uv) primitive.setAttribute('TEXCOORD_0', accessor('VEC2', corners.flatMap((_, i) => [...uv(i)])));
  const material = document.createMaterial();
  if (factor) material.setBaseColorFactor([...factor]);
  if (picture) material.setBaseColorTexture(document.createTexture().setImage(picture).setMimeType('image/png'));
  primitive.setMaterial(material);
  document.createScene().addChild(document.createNode().setMesh(document.createMesh().addPrimitive(primitive)));
  return new NodeIO().writeBinary(document);
}

/** Corners of a box's side in the middle of that side's square. */
const uvOfSide = (corner: number): [number, number] => [(Math.floor(corner / 6) + 0.25 + 0.5 * (corner % 2)) / 6, 0.25 + 0.5 * (corner % 3 === 2 ? 1 : 0)];
const cube = box(30, 30, 30);

describe('a cube with a picture of six squares, by @gltf-transform/core', () => {
  it('shows its top’s square; turned on an edge, two, half of each; its plain mesh is what it was', async () => {
    const bytes = await glbOf(cube, { picture: squares(COLORS), uv: uvOfSide });
    const plain = await glbOf(cube, {});
    expect(Buffer.compare(Buffer.from(readMesh(bytes, 'a.glb').positions.buffer), Buffer.from(readMesh(plain, 'a.glb').positions.buffer))).toBe(0);
    const mesh = readMesh(bytes, 'a.glb');
    const colors = readMeshColors(bytes, 'a.glb')!;
    expect(sharesOf(coloredGuides(mesh, colors, regions, { heights: [20] })[0])).toEqual({ [COLORS[1]]: 1 });
    const found = sharesOf(coloredGuides(mesh, colors, regions, { heights: [30], turnDeg: [45, 0, 0] })[0]);
    expect(Object.keys(found).sort()).toEqual([COLORS[1], COLORS[3]].sort());
    for (const share of Object.values(found)) expect(Math.abs(share - 0.5)).toBeLessThan(0.005);
    expect(readMeshColors(plain, 'a.glb')).toBeNull();
  });

  it('a factor, colors of vertices and a picture are multiplied as light', async () => {
    const light = [0.5, 0.25, 0.8] as const;
    const bytes = await glbOf(cube, { picture: squares(COLORS), uv: uvOfSide, factor: [...light, 1], vertexColor: () => [0.9, 0.5, 0.25] });
    const [guide] = coloredGuides(readMesh(bytes, 'a.glb'), readMeshColors(bytes, 'a.glb')!, regions, { heights: [20] });
    const [r, g, b] = lightOf(COLORS[1]);
    expect(sharesOf(guide)).toEqual({ [hexOf([r * 0.5 * 0.9, g * 0.25 * 0.5, b * 0.8 * 0.25])]: 1 });
  });
});

describe('colors of vertices', () => {
  const ball = icosphere(20, 4);
  /** sRGB bytes by place. */
  const byteAt = (v: number, k: number) => Math.round(127 + 127 * Math.sin(0.15 * ball.positions[3 * v + k] + k));

  function ply(kind: 'uchar' | 'float'): Uint8Array {
    const vertices = Array.from({ length: ball.positions.length / 3 }, (_, v) => [...[0, 1, 2].map((k) => Math.fround(Math.fround(ball.positions[3 * v + k] / 1000) * 1000)), ...[0, 1, 2].map((k) => (kind === 'uchar' ? byteAt(v, k) : byteAt(v, k) / 255))].join(' '));
    const faces = Array.from({ length: ball.indices.length / 3 }, (_, t) => `3 ${[...ball.indices.subarray(3 * t, 3 * t + 3)].join(' ')}`);
    return utf8(`ply\nformat ascii 1.0\nelement vertex ${vertices.length}\nproperty double x\nproperty double y\nproperty double z\nproperty ${kind} red\nproperty ${kind} green\nproperty ${kind} blue\nelement face ${faces.length}\nproperty list uchar int vertex_indices\nend_header\n${[...vertices, ...faces].join('\n')}\n`);
  }

  it.each(['uchar', 'float'] as const)('a PLY of %s and its GLB twin give the same guides', async (kind) => {
    const bytes = ply(kind);
    const twin = await glbOf(ball, { vertexColor: (v) => [0, 1, 2].map((k) => decoded(byteAt(v, k) / 255)) });
    const posed = { heights: [22, 30, 38], turnDeg: [20, 30, 40] as const };
    const one = coloredGuides(readMesh(bytes, 'a.ply'), readMeshColors(bytes, 'a.ply')!, regions, posed);
    const other = coloredGuides(readMesh(twin, 'a.glb'), readMeshColors(twin, 'a.glb')!, regions, posed);
    one.forEach(({ colors }, i) => {
      const [a, b] = [colors!.picture, other[i].colors!.picture];
      expect([a.width, a.height]).toEqual([b.width, b.height]);
      // The twin's 32-bit meters move its edges by less than a micrometer: single pixels along them.
      let far = 0;
      for (let n = 0; n < a.rgba.length; n++) if (Math.abs(a.rgba[n] - b.rgba[n]) > 1) far++;
      expect(far / a.rgba.length).toBeLessThan(1e-3);
      expect(colors!.main.map(({ hex }) => hex)).toEqual(other[i].colors!.main.map(({ hex }) => hex));
    });
  });

  it('between vertices the light is mixed, not what is written', () => {
    const flat = utf8('ply\nformat ascii 1.0\nelement vertex 4\nproperty float x\nproperty float y\nproperty float z\nproperty uchar red\nproperty uchar green\nproperty uchar blue\nelement face 2\nproperty list uchar int vertex_indices\nend_header\n0 0 0 255 255 255\n1 0 0 0 0 0\n1 1 0 0 0 0\n0 1 0 255 255 255\n3 0 1 2\n3 0 2 3\n');
    const [{ vertexLight }] = readMeshColors(flat, 'a.ply')!;
    expect([...vertexLight!]).toEqual([1, 1, 1, 0, 0, 0, 0, 0, 0, 1, 1, 1]);
  });

  it('a PLY without all three has none', () => {
    expect(readMeshColors(utf8('ply\nformat ascii 1.0\nelement vertex 3\nproperty float x\nproperty float y\nproperty float z\nproperty uchar red\nelement face 1\nproperty list uchar int vertex_indices\nend_header\n0 0 0 9\n1 0 0 9\n0 1 0 9\n3 0 1 2\n'), 'a.ply')).toBeNull();
  });
});

describe('places in a picture', () => {
  const picture = { width: 2, height: 1, rgb: Uint8Array.of(0, 0, 0, 255, 255, 255) };
  const at = (u: number, wrap: 'repeat' | 'clamp' | 'mirror') => {
    const out = new Float64Array(3);
    lookUp(textureOf(picture, wrap, wrap), 0, u, 0.5, out);
    return out[0];
  };

  it('are bilinear in light between the pixels’ middles, at ¼ and ¾ of two', () => {
    for (const [u, light] of [[0.25, 0], [0.5, 0.5], [0.6, 0.7], [0.75, 1]]) expect(at(u, 'clamp')).toBeCloseTo(light, 4);
    // Half the light of white is written as 188 of 255 (IEC 61966-2-1).
    expect(Math.round(255 * encoded(at(0.5, 'clamp')))).toBe(188);
  });

  it('go on beyond its edges as the file says', () => {
    expect(at(1.25, 'repeat')).toBeCloseTo(0, 9);
    expect(at(-0.25, 'repeat')).toBeCloseTo(1, 9);
    expect(at(0, 'repeat')).toBeCloseTo(0.5, 4);
    expect(at(1.75, 'clamp')).toBeCloseTo(1, 9);
    expect(at(-9, 'clamp')).toBeCloseTo(0, 9);
    expect(at(1.25, 'mirror')).toBeCloseTo(1, 9);
    expect(at(1.75, 'mirror')).toBeCloseTo(0, 9);
    expect(at(-0.25, 'mirror')).toBeCloseTo(0, 9);
  });

  it('a picture much finer than a guide is looked up in means of its light', () => {
    const board = { width: 256, height: 256, rgb: Uint8Array.from({ length: 3 * 65536 }, (_, i) => ((Math.floor(i / 3) + Math.floor(i / 768)) % 2 ? 255 : 0)) };
    const { levels } = textureOf(board, 'repeat', 'repeat');
    expect(levels).toHaveLength(9);
    for (const { rgb } of levels.slice(1)) expect(rgb.every((value) => Math.abs(value - 65535 / 2) < 1)).toBe(true);
    expect(textureOf({ width: 5000, height: 3, rgb: new Uint8Array(45000) }, 'clamp', 'clamp').levels[0].width).toBe(1250);
  });

  it('are scaled, turned and moved as three.js does it', () => {
    const { document, binary } = gltfParts(cube);
    const [offset, rotation, scale] = [[0.1, 0.3], 0.4, [0.5, 0.5]];
    const places = new Float32Array(16).map((_, i) => Math.fround(Math.sin(i)));
    const png = squares(COLORS);
    const whole = new Uint8Array(binary.length + places.byteLength + png.length);
    whole.set(binary);
    whole.set(new Uint8Array(places.buffer), binary.length);
    whole.set(png, binary.length + places.byteLength);
    const read = readMeshColors(glb({
      ...document,
      buffers: [{ byteLength: whole.length }],
      bufferViews: [...(document.bufferViews as object[]), { buffer: 0, byteOffset: binary.length, byteLength: places.byteLength }, { buffer: 0, byteOffset: binary.length + places.byteLength, byteLength: png.length }],
      accessors: [...(document.accessors as object[]), { bufferView: 2, componentType: 5126, count: 8, type: 'VEC2' }],
      images: [{ bufferView: 3, mimeType: 'image/png' }],
      textures: [{ source: 0 }],
      materials: [{ pbrMetallicRoughness: { baseColorTexture: { index: 0, texCoord: 5, extensions: { KHR_texture_transform: { offset, rotation, scale, texCoord: 1 } } } } }],
      meshes: [{ primitives: [{ attributes: { POSITION: 0, TEXCOORD_1: 2 }, indices: 1, material: 0 }] }],
    }, whole), 'a.glb')!;
    const map = new Matrix3().setUvTransform(offset[0], offset[1], scale[0], scale[1], rotation, 0, 0);
    // Vertices come in the order in which triangles use them.
    const order = [...new Set(cube.indices)];
    order.forEach((v, i) => {
      const { x, y } = new Vector3(places[2 * v], places[2 * v + 1], 1).applyMatrix3(map);
      expect(read[0].uv![2 * i]).toBeCloseTo(x, 6);
      expect(read[0].uv![2 * i + 1]).toBeCloseTo(y, 6);
    });
  });
});

describe('what is not honest', () => {
  const withPicture = async (change: (json: Record<string, unknown[]>) => void): Promise<() => ColoredMesh | null> => {
    const bytes = await glbOf(cube, { picture: squares(COLORS), uv: uvOfSide });
    const length = new DataView(bytes.buffer, bytes.byteOffset).getUint32(12, true);
    const json = JSON.parse(new TextDecoder().decode(bytes.subarray(20, 20 + length)));
    change(json);
    const changed = glb(json, bytes.subarray(28 + length));
    // The plain mesh is read whatever the picture is.
    expect(readMesh(changed, 'a.glb').indices).toHaveLength(36);
    return () => readMeshColors(changed, 'a.glb');
  };

  it.each([
    ['a picture in another file', (json: Record<string, unknown[]>) => { json.images[0] = { uri: 'skin.png' }; }, /its data are in another file \("skin\.png"\)/],
    ['a picture in a form of its own', (json: Record<string, unknown[]>) => { json.textures[0] = { extensions: { KHR_texture_basisu: { source: 0 } } }; }, /texture 0 in a form of its own \(KHR_texture_basisu\); expected a PNG or JPEG/],
    ['a picture that is none', (json: Record<string, unknown[]>) => { json.images[0] = { bufferView: 1, mimeType: 'image/png' }; }, /a picture that is neither; expected PNG or JPEG/],
    ['a picture past the buffer', (json: Record<string, unknown[]>) => { json.images[0] = { bufferView: json.bufferViews.push({ buffer: 0, byteLength: 1e7 }) - 1 }; }, /bufferView 2 ends at byte 10,000,000; expected within its buffer/],
    ['a picture that is not there', (json: Record<string, unknown[]>) => { json.textures[0] = { source: 3 }; }, /texture 0\.source is 3/],
    ['a factor that is no color', (json: Record<string, unknown[]>) => { (json.materials[0] as { pbrMetallicRoughness: object }).pbrMetallicRoughness = { baseColorFactor: ['red'] }; }, /baseColorFactor/],
  ])('%s is refused with a message, and only the colors are', async (_, change, message) => {
    expect(await withPicture(change)).toThrow(message);
  });

  it('colors for fewer vertices than there are', () => {
    const { document, binary } = gltfParts(cube);
    const bytes = glb({ ...document, meshes: [{ primitives: [{ attributes: { POSITION: 0, COLOR_0: 2 }, indices: 1 }] }], accessors: [...(document.accessors as object[]), { bufferView: 0, componentType: 5126, count: 5, type: 'VEC3' }] }, binary);
    expect(() => readMeshColors(bytes, 'a.glb')).toThrow('accessor 2 with 5 elements; expected 8, one for each vertex');
  });

  it('a picture that is cut off, or says it is enormous', async () => {
    const whole = squares(COLORS);
    const cut = await glbOf(cube, { picture: whole.subarray(0, whole.length - 40), uv: uvOfSide });
    expect(() => readMeshColors(cut, 'a.glb')).toThrow(/a\.glb: a PNG .*The picture is cut off or damaged; export it again\./);
    const huge = whole.slice();
    new DataView(huge.buffer).setUint32(16, 100_000);
    new DataView(huge.buffer).setUint32(20, 100_000);
    const bytes = await glbOf(cube, { picture: huge, uv: uvOfSide });
    expect(() => readMeshColors(bytes, 'a.glb')).toThrow(/10,000,000,000 pixels \(one is 100,000 × 100,000\); expected at most 67,108,864 in all\. Make the picture smaller/);
  });

  it('whatever byte is changed: read, or refused with a message', async () => {
    const bytes = await glbOf(cube, { picture: squares(COLORS), uv: uvOfSide, vertexColor: () => [0.5, 0.5, 0.5] });
    let refused = 0;
    for (let at = 12; at < bytes.length; at += 11) {
      const bad = bytes.slice();
      bad[at] ^= 0x15;
      try {
        readMeshColors(bad, 'a.glb');
      } catch (error) {
        expect((error as Error).name).toBe('MeshFileError');
        refused++;
      }
    }
    expect(refused).toBeGreaterThan(20);
  });
});
