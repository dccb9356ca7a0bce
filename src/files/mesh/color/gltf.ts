/**
 * The colors of a glTF: each material's factor, its picture where the vertices have places in it, and colors of the vertices,
 * multiplied. Alpha is left out, since paint covers; so are shine, glow and everything else that is not the base color.
 * Source: glTF 2.0 Specification (Khronos) §3.7.2.1 (COLOR_0, linear), §3.9.2 (base color, its picture in sRGB),
 * §3.8.4 (samplers); KHR_texture_transform.
 */
import type { Light } from '../../../core/sight/color.ts';
import type { ColoredMesh, ColoredPart } from '../../../core/sight/colors/colored-mesh.ts';
import type { Texture, Wrap } from '../../../core/sight/colors/texture.ts';
import { described, grouped, type Fail } from '../../fail.ts';
import { MAX_INSTANCES, MAX_TRIANGLES, MAX_VERTICES } from '../../limits.ts';
import { place } from '../assemble.ts';
import { readAttribute, type GltfBuffers } from '../gltf-accessor.ts';
import { METER_MM, openedGltf, placedMeshes, primitiveReader } from '../gltf.ts';
import { listOf, numbersOf, objectOf, whole, type Json } from '../gltf-json.ts';
import { EXPORT_AGAIN, tooMany } from '../raw.ts';
import { gltfPictures } from './gltf-pictures.ts';
import { withUsed } from './used.ts';

const WRAPS: Readonly<Record<number, Wrap>> = { 10497: 'repeat', 33071: 'clamp', 33648: 'mirror' };
const WHITE: Light = [1, 1, 1];

/** Null where it has no colors but the plain white of none. In the file's meters, z up. */
export function readGltfColors(bytes: Uint8Array, fail: Fail): { readonly mesh: ColoredMesh; readonly unitMm: number } | null {
  const { document, buffers } = openedGltf(bytes, fail);
  const meshes = listOf(document.meshes, 'meshes', fail);
  const primitives = coloredPrimitives(document, buffers, fail);
  const decoded = new Map<number, readonly ColoredPart[]>();
  const parts: ColoredPart[] = [];
  let [vertices, triangles] = [0, 0];
  for (const { mesh, placed } of placedMeshes(document, fail)) {
    let own = decoded.get(mesh);
    if (!own) {
      const listed = listOf(objectOf(meshes[mesh], `mesh ${mesh}`, fail).primitives, `mesh ${mesh}.primitives`, fail);
      own = listed.flatMap((primitive, i) => primitives(objectOf(primitive, `primitive ${i} of mesh ${mesh}`, fail), `primitive ${i} of mesh ${mesh}`) ?? []);
      decoded.set(mesh, own);
    }
    for (const part of own) {
      vertices += part.positions.length / 3;
      triangles += part.indices.length / 3;
      if (vertices > MAX_VERTICES) throw tooMany('vertices', vertices, fail);
      if (triangles > MAX_TRIANGLES) throw tooMany('triangles', triangles, fail);
      if (parts.length >= MAX_INSTANCES) throw fail(`nodes that place more than ${grouped(MAX_INSTANCES)} parts`, 'fewer', 'Join the parts before you export them.');
      const positions = new Float64Array(part.positions.length);
      place({ positions: part.positions, placed }, positions, 0);
      parts.push({ ...part, positions });
    }
  }
  const colored = parts.some(({ light, vertexLight, texture }) => vertexLight || texture || light.some((channel) => channel !== 1));
  return colored ? { mesh: parts, unitMm: METER_MM } : null;
}

interface Material {
  readonly light: Light;
  readonly texture: Texture | null;
  /** Which places of the vertices in it, and the map from them into the picture. */
  readonly places: number;
  readonly map: readonly [number, number, number, number, number, number];
}

function coloredPrimitives(document: Json, buffers: GltfBuffers, fail: Fail): (primitive: Json, what: string) => ColoredPart | null {
  const read = primitiveReader(buffers, fail);
  const materialOf = materials(document, buffers, fail);
  const last = buffers.accessors.length - 1;
  return (primitive, what) => {
    const raw = read(primitive, what);
    if (!raw) return null;
    const attributes = objectOf(primitive.attributes, `${what}.attributes`, fail);
    const vertices = raw.positions.length / 3;
    const { light, texture, places, map } = materialOf(primitive.material);
    const attribute = (name: string) => (attributes[name] === undefined ? null : readAttribute(buffers, whole(attributes[name], `${what}.attributes.${name}`, fail, last), vertices, fail));
    const color = attribute('COLOR_0');
    const place = texture ? attribute(`TEXCOORD_${places}`) : null;
    if (color && color.width < 3) throw fail(`${what} with COLOR_0 of ${color.width} numbers`, '3 or 4', EXPORT_AGAIN);
    return withUsed({
      positions: raw.positions,
      indices: raw.indices,
      light,
      ...(color && { vertexLight: firstThree(color.values, color.width) }),
      // A picture without places for it can't be seen.
      ...(texture && place && place.width === 2 && { texture, uv: mapped(place.values, map) }),
    }, fail);
  };
}

function firstThree(values: Float64Array, width: number): Float32Array {
  const three = new Float32Array((values.length / width) * 3);
  for (let v = 0, out = 0; v < values.length; v += width) for (let k = 0; k < 3; k++) three[out++] = Math.min(1, Math.max(0, values[v + k]));
  return three;
}

function mapped(values: Float64Array, [a, b, c, d, x, y]: Material['map']): Float32Array {
  const uv = new Float32Array(values.length);
  for (let i = 0; i < uv.length; i += 2) {
    uv[i] = a * values[i] + c * values[i + 1] + x;
    uv[i + 1] = b * values[i] + d * values[i + 1] + y;
    if (!Number.isFinite(uv[i]) || !Number.isFinite(uv[i + 1])) uv[i] = uv[i + 1] = 0;
  }
  return uv;
}

/** Materials by number, each read once; left out: the white default. */
function materials(document: Json, buffers: GltfBuffers, fail: Fail): (index: unknown) => Material {
  const listed = listOf(document.materials, 'materials', fail);
  const textures = listOf(document.textures, 'textures', fail);
  const samplers = listOf(document.samplers, 'samplers', fail);
  const pictures = gltfPictures(document, buffers, fail);
  const known = new Map<number, Material>();
  const read = (i: number): Material => {
    const what = `material ${i}`;
    const look = objectOf(objectOf(listed[i], what, fail).pbrMetallicRoughness ?? {}, `${what}.pbrMetallicRoughness`, fail);
    const [r, g, b] = numbersOf(look.baseColorFactor ?? [1, 1, 1, 1], 4, `${what}.baseColorFactor`, fail).map((channel) => Math.min(1, Math.max(0, channel)));
    if (look.baseColorTexture === undefined) return { light: [r, g, b], texture: null, places: 0, map: [1, 0, 0, 1, 0, 0] };
    const used = objectOf(look.baseColorTexture, `${what}.baseColorTexture`, fail);
    const number = whole(used.index, `${what}.baseColorTexture.index`, fail, textures.length - 1);
    const texture = objectOf(textures[number], `texture ${number}`, fail);
    const sampler = texture.sampler === undefined ? {} : objectOf(samplers[whole(texture.sampler, `texture ${number}.sampler`, fail, samplers.length - 1)], `the sampler of texture ${number}`, fail);
    const moved = transformOf(used, `${what}.baseColorTexture`, fail);
    const wrap = (name: 'wrapS' | 'wrapT'): Wrap => WRAPS[Number(sampler[name] ?? 10497)] ?? 'repeat';
    return { light: [r, g, b], texture: pictures(texture, number, wrap('wrapS'), wrap('wrapT')), places: moved.places ?? whole(used.texCoord ?? 0, `${what}.baseColorTexture.texCoord`, fail), map: moved.map };
  };
  return (index) => {
    if (index === undefined) return { light: WHITE, texture: null, places: 0, map: [1, 0, 0, 1, 0, 0] };
    const i = whole(index, 'a material', fail, listed.length - 1);
    const material = known.get(i) ?? read(i);
    known.set(i, material);
    return material;
  };
}

/** KHR_texture_transform: scaled, turned counterclockwise as v goes down, moved. */
function transformOf(used: Json, what: string, fail: Fail): { readonly map: Material['map']; readonly places: number | null } {
  const extensions = used.extensions === undefined ? {} : objectOf(used.extensions, `${what}.extensions`, fail);
  if (extensions.KHR_texture_transform === undefined) return { map: [1, 0, 0, 1, 0, 0], places: null };
  const name = `${what}.KHR_texture_transform`;
  const moved = objectOf(extensions.KHR_texture_transform, name, fail);
  const [x, y] = numbersOf(moved.offset ?? [0, 0], 2, `${name}.offset`, fail);
  const [sx, sy] = numbersOf(moved.scale ?? [1, 1], 2, `${name}.scale`, fail);
  const turn = moved.rotation ?? 0;
  if (typeof turn !== 'number' || !Number.isFinite(turn)) throw fail(`${name}.rotation is ${described(turn)}`, 'radians', EXPORT_AGAIN);
  const [cos, sin] = [Math.cos(turn), Math.sin(turn)];
  return { map: [cos * sx, -sin * sx, sin * sy, cos * sy, x, y], places: moved.texCoord === undefined ? null : whole(moved.texCoord, `${name}.texCoord`, fail) };
}
