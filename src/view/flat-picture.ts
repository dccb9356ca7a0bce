/** A picture that lies flat in the renderer: an artist's, a sketch, a creature's guide. Seen once it is there; a newer one takes its place when that is. */

import { LinearFilter, LinearMipmapLinearFilter, Mesh, NoColorSpace, PlaneGeometry, Texture, type ShaderMaterial } from 'three';
import type { ArtPlace } from '../core/scene/art-place.ts';
import { artMaterial, type WaterUniforms } from './materials.ts';
import type { ViewPicture } from './props.ts';

/** Share of paint at a point that makes it the thing one points at. */
const PAINTED = 0.35;
/** Side of the copy in which paint is looked up. */
const LOOKUP_PX = 256;

export class FlatPicture {
  readonly object: Mesh<PlaneGeometry, ShaderMaterial>;
  readonly #pointed: boolean;
  readonly #paint = new Uint8Array(LOOKUP_PX * LOOKUP_PX);
  #wanted: ViewPicture | null = null;
  /** Of the one that is seen. */
  #url = '';
  #place: ArtPlace = { xMm: 0, yMm: 0, turnDeg: 0, mirror: false };
  #size: readonly [number, number] = [1, 1];

  /** `pointed`: its paint can be pointed at. */
  constructor(water: WaterUniforms, pointed: boolean) {
    this.#pointed = pointed;
    this.object = new Mesh(new PlaneGeometry(1, 1), artMaterial(new Texture(), water));
    this.object.visible = false;
    this.object.frustumCulled = false;
    this.object.raycast = () => {};
  }

  /** `onShown` is called when it is there. One that can't be drawn is never shown: whoever took it in has said so. */
  async show(picture: ViewPicture, onShown: () => void): Promise<void> {
    const { url, widthMm, heightMm } = picture;
    this.#wanted = picture;
    if (url !== this.#url) {
      const image = new Image();
      image.src = url;
      try {
        await image.decode();
      } catch {
        return;
      }
      if (this.#wanted !== picture) return;
      this.#url = url;
      if (this.#pointed) this.#readPaint(image);
      const { uArt } = this.object.material.uniforms;
      (uArt.value as Texture).dispose();
      uArt.value = textureOf(this.#pointed ? sized(image, widthMm / heightMm) : image);
      this.object.visible = true;
    }
    this.#size = [widthMm, heightMm];
    this.#lay();
    onShown();
  }

  setPlace(place: ArtPlace): void {
    this.#place = place;
    this.#lay();
  }

  /** Whether there is paint to point at, at a point of the level that it lies in. */
  isPaintedAt([x, y]: readonly [number, number]): boolean {
    const turn = (this.#place.turnDeg * Math.PI) / 180;
    const [dx, dy] = [x - this.#place.xMm, y - this.#place.yMm];
    const across = (Math.cos(turn) * dx + Math.sin(turn) * dy) * (this.#place.mirror ? -1 : 1);
    const u = across / this.#size[0] + 0.5;
    const v = 0.5 - (Math.cos(turn) * dy - Math.sin(turn) * dx) / this.#size[1];
    if (u < 0 || u >= 1 || v < 0 || v >= 1) return false;
    return this.#paint[Math.floor(v * LOOKUP_PX) * LOOKUP_PX + Math.floor(u * LOOKUP_PX)] >= PAINTED * 255;
  }

  dispose(): void {
    this.#wanted = null;
    this.object.geometry.dispose();
    (this.object.material.uniforms.uArt.value as Texture).dispose();
    this.object.material.dispose();
  }

  #lay(): void {
    const { xMm, yMm, turnDeg, mirror } = this.#place;
    this.object.position.set(xMm, yMm, 0);
    this.object.rotation.z = (turnDeg * Math.PI) / 180;
    this.object.scale.set(mirror ? -this.#size[0] : this.#size[0], this.#size[1], 1);
  }

  #readPaint(image: HTMLImageElement): void {
    const canvas = document.createElement('canvas');
    canvas.width = canvas.height = LOOKUP_PX;
    const pen = canvas.getContext('2d', { willReadFrequently: true });
    if (!pen) return;
    pen.drawImage(image, 0, 0, LOOKUP_PX, LOOKUP_PX);
    const { data } = pen.getImageData(0, 0, LOOKUP_PX, LOOKUP_PX);
    for (let i = 0; i < this.#paint.length; i++) this.#paint[i] = data[4 * i + 3];
  }
}

function textureOf(image: HTMLImageElement | HTMLCanvasElement): Texture {
  const texture = new Texture(image);
  texture.colorSpace = NoColorSpace; // colors stay the page's own (materials.ts)
  texture.minFilter = LinearMipmapLinearFilter;
  texture.magFilter = LinearFilter;
  texture.anisotropy = 4;
  texture.premultiplyAlpha = true; // else soft edges and the fringe of a cut-out picture darken
  texture.needsUpdate = true;
  return texture;
}

/** The picture as pixels of its true shape: drawings without a size of their own would come out tiny. */
function sized(image: HTMLImageElement, aspect: number): HTMLCanvasElement {
  const canvas = document.createElement('canvas');
  const longest = Math.min(2048, Math.max(1024, image.naturalWidth, image.naturalHeight));
  canvas.width = Math.max(1, Math.round(aspect >= 1 ? longest : longest * aspect));
  canvas.height = Math.max(1, Math.round(aspect >= 1 ? longest / aspect : longest));
  canvas.getContext('2d')?.drawImage(image, 0, 0, canvas.width, canvas.height);
  return canvas;
}
