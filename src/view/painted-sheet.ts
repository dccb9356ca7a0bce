/** A painted plane in the renderer: the artist's picture as a sheet at its height, or a placeholder wash. */

import { Group, LinearFilter, LinearMipmapLinearFilter, Mesh, NoColorSpace, PlaneGeometry, Texture, type BufferGeometry, type ShaderMaterial } from 'three';
import { artInMold as fromAbove, type ArtPlace } from '../core/scene/art-place.ts';
import type { Scene } from '../core/scene/scene.ts';
import { rgbOf, isDark } from './color.ts';
import { Ink } from './ink.ts';
import { artMaterial, placeholderMaterial, type WaterUniforms } from './materials.ts';
import { ORDER } from './mold-model.ts';
import { innerAt, moldBounds, type Outline } from './outline.ts';
import type { ViewArt, ViewColors, ViewPlane } from './props.ts';
import { rayAtHeight, wrapDeg, type Ray } from './ray.ts';
import { SketchSheet } from './sketch-sheet.ts';

/** Share of paint at a point that makes it the thing one points at. */
const PAINTED = 0.35;
/** A painted plane is a stronger line than a pour. */
const EDGE_PX = 1.8;
/** Side of the copy in which paint is looked up. */
const LOOKUP_PX = 256;

/** The place seen from above, its turn in −180 < a ≤ 180. */
export function artInMold(place: ArtPlace, cast: Scene['cast']): ArtPlace {
  const art = fromAbove(place, cast);
  return cast === 'face-up' ? art : { ...art, turnDeg: wrapDeg(art.turnDeg) };
}

export class PaintedSheet {
  readonly object = new Group();
  readonly #sheet: Mesh<BufferGeometry, ShaderMaterial>;
  readonly #sketch: SketchSheet | null;
  /** The sheet's edge along the walls. */
  readonly #edge: Ink;
  readonly #outline: Outline;
  #edgeMm = NaN;
  readonly plane: ViewPlane;
  readonly #texture: Texture | null = null;
  readonly #paint = new Uint8Array(LOOKUP_PX * LOOKUP_PX);
  #place: ArtPlace = { xMm: 0, yMm: 0, turnDeg: 0, mirror: false };
  #gone = false;
  #ready: boolean;
  #order = 0;
  #seen = true;

  /** `onPainted` is called when the picture is there. */
  constructor(plane: ViewPlane, outline: Outline, colors: ViewColors, water: WaterUniforms, onPainted: () => void) {
    this.plane = plane;
    this.#outline = outline;
    const { art } = plane;
    const dark = isDark(rgbOf(colors.sheet));
    if (art) {
      this.#texture = new Texture();
      this.#texture.colorSpace = NoColorSpace; // colors stay the page's own (materials.ts)
      this.#texture.minFilter = LinearMipmapLinearFilter;
      this.#texture.magFilter = LinearFilter;
      this.#texture.anisotropy = 4;
      this.#texture.premultiplyAlpha = true; // else the fringe of a cut-out picture darkens
      this.#sheet = new Mesh(new PlaneGeometry(art.widthMm, art.heightMm), artMaterial(this.#texture, water));
      void this.#load(art, onPainted);
    } else {
      const { min, max } = moldBounds(outline);
      const geometry = new PlaneGeometry(max[0] - min[0], max[1] - min[1]);
      this.#sheet = new Mesh(geometry, placeholderMaterial(rgbOf(dark ? colors.ink2 : colors.hatch), dark ? 0.22 : 0.3, water));
    }
    this.#ready = !art;
    this.object.visible = this.#ready;
    this.#sheet.frustumCulled = false;
    this.#sheet.raycast = () => {};
    this.#sheet.name = plane.name;
    this.#edge = new Ink({ color: colors.ink, widthPx: EDGE_PX, opacity: dark ? 0.55 : 0.7 }, ORDER.line, water.uWeight);
    this.object.add(this.#sheet, this.#edge.object);
    this.#sketch = plane.sketch ? new SketchSheet(plane.sketch, water, onPainted) : null;
    if (this.#sketch) this.object.add(this.#sketch.object);
    // A sketch needs no wash to stand for it.
    this.#sheet.visible = art !== undefined || plane.sketch === undefined;
  }

  /** `order` is its place among the planes from the floor up. */
  setPlace(heightMm: number, order: number, art: ArtPlace): void {
    this.#order = order;
    this.object.position.z = heightMm;
    this.#drawEdge(heightMm);
    if (!this.plane.art) return;
    this.#place = art;
    this.#sheet.position.set(art.xMm, art.yMm, 0);
    this.#sheet.rotation.z = (art.turnDeg * Math.PI) / 180;
    this.#sheet.scale.x = art.mirror ? -1 : 1;
  }

  /** What is nearer to the eye is painted over what is farther. */
  seenFrom(below: boolean): void {
    this.#sheet.renderOrder = ORDER.plane + (below ? 1 / (1 + this.#order) : this.#order);
    // A sketch lies over its own plane's picture, under the next plane.
    if (this.#sketch) this.#sketch.object.renderOrder = ORDER.plane + (below ? 1 / (1.5 + this.#order) : this.#order + 0.5);
  }

  /** Whether it is painted yet, for what is shown. */
  setSeen(seen: boolean): void {
    this.#seen = seen;
    this.object.visible = seen && this.#ready;
  }

  /** Distance along the sight to paint one can point at, or null. A placeholder is never in the way. */
  hit(ray: Ray): number | null {
    const { art } = this.plane;
    const at = art && rayAtHeight(ray, this.object.position.z);
    if (!at) return null;
    const turn = (this.#place.turnDeg * Math.PI) / 180;
    const [dx, dy] = [at[0] - this.#place.xMm, at[1] - this.#place.yMm];
    const across = (Math.cos(turn) * dx + Math.sin(turn) * dy) * (this.#place.mirror ? -1 : 1);
    const u = across / art.widthMm + 0.5;
    const v = 0.5 - (Math.cos(turn) * dy - Math.sin(turn) * dx) / art.heightMm;
    if (u < 0 || u >= 1 || v < 0 || v >= 1) return null;
    if (this.#paint[Math.floor(v * LOOKUP_PX) * LOOKUP_PX + Math.floor(u * LOOKUP_PX)] < PAINTED * 255) return null;
    return (this.object.position.z - ray.origin[2]) / ray.direction[2];
  }

  dispose(): void {
    this.#gone = true;
    this.#sheet.geometry.dispose();
    this.#sheet.material.dispose();
    this.#edge.dispose();
    this.#sketch?.dispose();
    this.#texture?.dispose();
  }

  /** Along the walls at its height: only leaning walls ask for it again as it moves. */
  #drawEdge(heightMm: number): void {
    if (this.#edgeMm === heightMm || (this.#outline.lean === 0 && !Number.isNaN(this.#edgeMm))) return;
    this.#edgeMm = heightMm;
    this.#edge.draw(this.#outline.stretches.flatMap(({ at, next, corner }) => {
      if (corner) return [];
      const [from, to] = [innerAt(this.#outline, at, heightMm), innerAt(this.#outline, next, heightMm)];
      return [from[0], from[1], 0, to[0], to[1], 0];
    }));
  }

  /** A picture that can't be drawn leaves the sheet empty: whoever took it in has said so. */
  async #load(art: ViewArt, onPainted: () => void): Promise<void> {
    const image = new Image();
    image.src = art.url;
    try {
      await image.decode();
    } catch {
      return;
    }
    if (this.#gone || !this.#texture) return;
    this.#readPaint(image);
    this.#texture.image = sized(image, art);
    this.#texture.needsUpdate = true;
    this.#ready = true;
    this.setSeen(this.#seen);
    onPainted();
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

/** The picture as pixels of its true shape: drawings without a size of their own would come out tiny. */
function sized(image: HTMLImageElement, art: ViewArt): HTMLCanvasElement {
  const canvas = document.createElement('canvas');
  const longest = Math.min(2048, Math.max(1024, image.naturalWidth, image.naturalHeight));
  const aspect = art.widthMm / art.heightMm;
  canvas.width = Math.max(1, Math.round(aspect >= 1 ? longest : longest * aspect));
  canvas.height = Math.max(1, Math.round(aspect >= 1 ? longest / aspect : longest));
  canvas.getContext('2d')?.drawImage(image, 0, 0, canvas.width, canvas.height);
  return canvas;
}
