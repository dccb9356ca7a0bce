/** The pictures inside a glTF, each decoded once, all of them together within the limit. Source: glTF 2.0 Specification (Khronos) §3.8. */
import type { Picture } from '../../../core/sight/colors/picture.ts';
import { textureOf, type Texture, type Wrap } from '../../../core/sight/colors/texture.ts';
import type { Fail } from '../../fail.ts';
import { grouped } from '../../fail.ts';
import { MAX_PICTURE_PIXELS } from '../../limits.ts';
import { readPicture } from '../../picture/read.ts';
import { decodeDataUri } from '../gltf-container.ts';
import type { GltfBuffers } from '../gltf-accessor.ts';
import { listOf, objectOf, whole, type Json } from '../gltf-json.ts';
import { EXPORT_AGAIN } from '../raw.ts';

const AS_PNG = 'Export it with pictures as PNG or JPEG inside.';

/** Gives the picture of a texture, laid out for looking up. */
export function gltfPictures(document: Json, buffers: GltfBuffers, fail: Fail): (texture: Json, number: number, wrapU: Wrap, wrapV: Wrap) => Texture {
  const images = listOf(document.images, 'images', fail);
  /** By image: how it wraps plays no part in its layers. */
  const known = new Map<number, Texture>();
  let room = MAX_PICTURE_PIXELS;
  return (texture, number, wrapU, wrapV) => {
    if (texture.source === undefined) throw fail(`texture ${number} in a form of its own (${Object.keys(objectOf(texture.extensions ?? {}, `texture ${number}.extensions`, fail)).join(', ') || 'none given'})`, 'a PNG or JPEG', AS_PNG);
    const index = whole(texture.source, `texture ${number}.source`, fail, images.length - 1);
    let made = known.get(index);
    if (!made) {
      const picture: Picture = readPicture(bytesOf(objectOf(images[index], `image ${index}`, fail), index, buffers, fail), fail, room);
      room -= picture.width * picture.height;
      known.set(index, (made = textureOf(picture, wrapU, wrapV)));
    }
    return { ...made, wrapU, wrapV };
  };
}

function bytesOf(image: Json, index: number, buffers: GltfBuffers, fail: Fail): Uint8Array {
  if (typeof image.uri === 'string') return decodeDataUri(image.uri, fail);
  const at = whole(image.bufferView, `image ${index}.bufferView`, fail, buffers.views.length - 1);
  const view = objectOf(buffers.views[at], `bufferView ${at}`, fail);
  const bytes = buffers.buffer(whole(view.buffer, `bufferView ${at}.buffer`, fail));
  const from = whole(view.byteOffset ?? 0, `bufferView ${at}.byteOffset`, fail);
  const to = from + whole(view.byteLength, `bufferView ${at}.byteLength`, fail);
  if (to > bytes.length) throw fail(`bufferView ${at} ends at byte ${grouped(to)}`, `within its buffer of ${grouped(bytes.length)}`, EXPORT_AGAIN);
  return bytes.subarray(from, to);
}
