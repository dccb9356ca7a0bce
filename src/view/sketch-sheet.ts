/** A sketch in the renderer: what was drawn on a plane by hand, as a picture that lies on its sheet. */

import { LinearFilter, LinearMipmapLinearFilter, Mesh, NoColorSpace, PlaneGeometry, Texture, type ShaderMaterial } from 'three';
import { artMaterial, type WaterUniforms } from './materials.ts';
import type { ViewSketch } from './props.ts';

export class SketchSheet {
  readonly object: Mesh<PlaneGeometry, ShaderMaterial>;
  readonly #texture = new Texture();
  #gone = false;

  /** `onPainted` is called when the picture is there. It lies in mold coordinates, face-up and face-down alike. */
  constructor({ url, widthMm, heightMm, xMm, yMm }: ViewSketch, water: WaterUniforms, onPainted: () => void) {
    this.#texture.colorSpace = NoColorSpace; // colors stay the page's own (materials.ts)
    this.#texture.minFilter = LinearMipmapLinearFilter;
    this.#texture.magFilter = LinearFilter;
    this.#texture.anisotropy = 4;
    this.#texture.premultiplyAlpha = true; // else soft edges darken
    this.object = new Mesh(new PlaneGeometry(widthMm, heightMm), artMaterial(this.#texture, water));
    this.object.position.set(xMm, yMm, 0);
    this.object.visible = false;
    this.object.frustumCulled = false;
    this.object.raycast = () => {};
    void this.#load(url, onPainted);
  }

  dispose(): void {
    this.#gone = true;
    this.object.geometry.dispose();
    this.object.material.dispose();
    this.#texture.dispose();
  }

  async #load(url: string, onPainted: () => void): Promise<void> {
    const image = new Image();
    image.src = url;
    try {
      await image.decode();
    } catch {
      return; // a newer picture has taken its place
    }
    if (this.#gone) return;
    this.#texture.image = image;
    this.#texture.needsUpdate = true;
    this.object.visible = true;
    onPainted();
  }
}
