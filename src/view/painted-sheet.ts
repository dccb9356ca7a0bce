/** A painted plane in the renderer: the artist's picture, or the guides of its creatures, as a sheet at its height; else a placeholder wash. */

import { Group, Mesh, PlaneGeometry, type Object3D, type ShaderMaterial } from 'three';
import { artInMold as fromAbove, type ArtPlace } from '../core/scene/art-place.ts';
import type { Scene } from '../core/scene/scene.ts';
import { rgbOf, isDark } from './color.ts';
import { FlatPicture } from './flat-picture.ts';
import type { Carry } from './form.ts';
import { Ink } from './ink.ts';
import { placeholderMaterial, type WaterUniforms } from './materials.ts';
import { ORDER } from './mold-model.ts';
import { innerAt, moldBounds, type Outline } from './outline.ts';
import type { ViewColors, ViewGuide, ViewPlane } from './props.ts';
import { rayAtHeight, wrapDeg, type Ray } from './ray.ts';

/** A painted plane is a stronger line than a pour. */
const EDGE_PX = 1.8;

/** The place seen from above, its turn in −180 < a ≤ 180. */
export function artInMold(place: ArtPlace, cast: Scene['cast']): ArtPlace {
  const art = fromAbove(place, cast);
  return cast === 'face-up' ? art : { ...art, turnDeg: wrapDeg(art.turnDeg) };
}

interface Guide {
  readonly picture: FlatPicture;
  /** What is seen of it now. */
  shown: ViewGuide | null;
}

export class PaintedSheet {
  readonly object = new Group();
  readonly plane: ViewPlane;
  readonly #water: WaterUniforms;
  readonly #onPainted: () => void;
  readonly #art: FlatPicture | null = null;
  readonly #sketch: FlatPicture | null = null;
  readonly #wash: Mesh<PlaneGeometry, ShaderMaterial> | null = null;
  /** By creature. */
  readonly #guides = new Map<string, Guide>();
  /** The sheet's edge along the walls. */
  readonly #edge: Ink;
  readonly #outline: Outline;
  #edgeMm = NaN;
  #ready: boolean;
  #order = 0;
  #seen = true;

  /** `onPainted` is called when a picture is there. */
  constructor(plane: ViewPlane, outline: Outline, colors: ViewColors, water: WaterUniforms, onPainted: () => void) {
    this.plane = plane;
    this.#outline = outline;
    this.#water = water;
    this.#onPainted = onPainted;
    const { art, sketch } = plane;
    const dark = isDark(rgbOf(colors.sheet));
    if (art) {
      this.#art = new FlatPicture(water, true);
      void this.#art.show(art, () => {
        this.#ready = true;
        this.setSeen(this.#seen);
        onPainted();
      });
      this.#hang(this.#art.object);
    } else {
      const { min, max } = moldBounds(outline);
      this.#wash = new Mesh(new PlaneGeometry(max[0] - min[0], max[1] - min[1]), placeholderMaterial(rgbOf(dark ? colors.ink2 : colors.hatch), dark ? 0.22 : 0.3, water));
      this.#wash.frustumCulled = false;
      this.#wash.raycast = () => {};
      this.#hang(this.#wash);
    }
    if (sketch) {
      this.#sketch = new FlatPicture(water, false);
      this.#sketch.setPlace({ ...sketch, turnDeg: 0, mirror: false });
      void this.#sketch.show(sketch, onPainted);
      this.object.add(this.#sketch.object);
    }
    this.#ready = !art;
    this.object.visible = this.#ready;
    this.#edge = new Ink({ color: colors.ink, widthPx: EDGE_PX, opacity: dark ? 0.55 : 0.7 }, ORDER.line, water.uWeight);
    this.object.add(this.#edge.object);
    this.setGuides([]);
  }

  /** Neither a picture nor a guide says what it is. */
  get isBare(): boolean {
    return this.#art === null && this.#guides.size === 0;
  }

  /** What to paint on it of creatures. A newer guide takes the place of the one before when it is there. */
  setGuides(guides: readonly ViewGuide[]): void {
    for (const [creature, { picture }] of this.#guides) {
      if (guides.some((guide) => guide.creature === creature)) continue;
      picture.object.removeFromParent();
      picture.dispose();
      this.#guides.delete(creature);
    }
    for (const guide of guides) {
      const own = this.#guides.get(guide.creature) ?? this.#newGuide(guide.creature);
      void own.picture.show(guide, () => {
        own.shown = guide;
        this.#onPainted();
      });
    }
    // Nothing stands for what is there.
    if (this.#wash) this.#wash.visible = this.#guides.size === 0 && this.#sketch === null;
  }

  /** `order` is its place among the planes from the floor up. `carry` brings a guide to where its creature is now; null: that is gone. */
  setPlace(heightMm: number, order: number, art: ArtPlace, carry: (guide: ViewGuide) => Carry | null): void {
    this.#order = order;
    this.object.position.z = heightMm;
    this.#drawEdge(heightMm);
    this.#art?.setPlace(art);
    for (const { picture, shown } of this.#guides.values()) {
      const by = shown && carry(shown);
      picture.object.visible = by !== null;
      if (!shown || !by) continue;
      const [c, s] = [Math.cos(by.turnRad), Math.sin(by.turnRad)];
      picture.setPlace({ xMm: c * shown.xMm - s * shown.yMm + by.xMm, yMm: s * shown.xMm + c * shown.yMm + by.yMm, turnDeg: (by.turnRad * 180) / Math.PI, mirror: false });
    }
  }

  /** What is nearer to the eye is painted over what is farther. */
  seenFrom(below: boolean): void {
    const order = ORDER.plane + (below ? 1 / (1 + this.#order) : this.#order);
    for (const object of [this.#wash, this.#art?.object, ...[...this.#guides.values()].map(({ picture }) => picture.object)]) if (object) object.renderOrder = order;
    // A sketch lies over its own plane's picture, under the next plane.
    if (this.#sketch) this.#sketch.object.renderOrder = ORDER.plane + (below ? 1 / (1.5 + this.#order) : this.#order + 0.5);
  }

  /** Whether it is painted yet, for what is shown. */
  setSeen(seen: boolean): void {
    this.#seen = seen;
    this.object.visible = seen && this.#ready;
  }

  /** Distance along the sight to paint one can point at, and the creature whose it is (null: the plane's own); or null. A placeholder is never in the way. */
  hit(ray: Ray): { readonly distance: number; readonly creature: string | null } | null {
    const at = rayAtHeight(ray, this.object.position.z);
    if (!at) return null;
    const distance = (this.object.position.z - ray.origin[2]) / ray.direction[2];
    if (this.#art?.isPaintedAt(at)) return { distance, creature: null };
    const guide = [...this.#guides].findLast(([, { picture }]) => picture.object.visible && picture.isPaintedAt(at));
    return guide ? { distance, creature: guide[0] } : null;
  }

  dispose(): void {
    for (const picture of [this.#art, this.#sketch, ...[...this.#guides.values()].map((guide) => guide.picture)]) picture?.dispose();
    this.#wash?.geometry.dispose();
    this.#wash?.material.dispose();
    this.#edge.dispose();
  }

  #newGuide(creature: string): Guide {
    const guide: Guide = { picture: new FlatPicture(this.#water, true), shown: null };
    this.#guides.set(creature, guide);
    this.#hang(guide.picture.object);
    return guide;
  }

  #hang(object: Object3D): void {
    object.name = this.plane.name;
    this.object.add(object);
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
}
