/** A figure or bed in the renderer: wash, contour, creases. Dragging only moves its group; the form is never rebuilt. */

import { BufferAttribute, BufferGeometry, Group, Matrix4, Mesh, Ray as ThreeRay, DoubleSide, Vector3, type ShaderMaterial } from 'three';
import { isDark, mixed, rgbOf, type Rgb } from './color.ts';
import { footprint, formOf, turnedCenter, type Carry, type Form } from './form.ts';
import { Ink } from './ink.ts';
import { bedMaterial, contourMaterial, figureMaterial, type WaterUniforms } from './materials.ts';
import { ORDER } from './mold-model.ts';
import { lighterSteps, type DrawnMesh } from './lighter.ts';
import { creases, shaded, smoothNormals } from './normals.ts';
import { PickTree } from './pick-tree.ts';
import type { Place, ViewColors, ViewSolid } from './props.ts';
import type { Ray } from './ray.ts';
import { inSlices } from './slices.ts';

/** What stands in the picture, or is imagined there: it can be put somewhere, pointed at and chosen. */
export interface Body {
  readonly id: string;
  readonly group: Group;
  /** Largest half-extent over its footprint's center, mm. */
  readonly reachMm: number;
  readonly heightMm: number;
  setPlace(place: Place): void;
  setChosen(chosen: boolean): void;
  /** While things move, a heavy form is drawn as its lighter copy: a slow machine follows the hand. */
  setInMotion(inMotion: boolean): void;
  /** Its footprint where it is now: x and y in turn, mold frame. */
  footprintNow(): readonly number[];
  /** Distance along the sight to its surface (to its bounds while the pick tree grows), or null. */
  hit(ray: Ray): number | null;
  /** Of a creature: how what was drawn with it in another place comes to where it is now. */
  carryFrom?(from: Place): Carry;
}

/** Quiet pigments for figures, by their id so that each keeps its own: umber, moss, sienna, ochre, heather, slate. Teal and brick have meanings of their own. */
const PIGMENTS: readonly Rgb[] = ['#8d6f3f', '#6f7f45', '#b07a4e', '#b8953f', '#8a7080', '#76808a'].map(rgbOf);
/**
 * Triangles above which a form in motion is drawn as a lighter copy, and of how many. Without a graphics card 100,000 take
 * 40 to 90 ms a frame (measured), and the page's own numbers wait for them.
 */
const IN_MOTION = { card: { heavy: 60_000, copy: 20_000 }, software: { heavy: 6_000, copy: 4_000 } } as const;
/** Silt is pale as paper; a bed is a little earthier. */
const EARTH: Rgb = rgbOf('#b08a4c');

export class SolidModel implements Body {
  readonly group = new Group();
  readonly id: string;
  readonly #form: Form;
  readonly #tree: PickTree;
  readonly #parts: { dispose(): void }[] = [];
  readonly #contour: ShaderMaterial;
  readonly #body: Mesh;
  readonly #hull: Mesh;
  readonly #full: { readonly body: BufferGeometry; readonly hull: BufferGeometry };
  #light: BufferGeometry | null = null;
  #inMotion = false;
  #stopCopying = (): void => {};
  readonly #inkOf: (chosen: boolean) => { ink: Rgb; widthPx: number };
  readonly #inverse = new Matrix4();
  readonly #postureDeg: number;
  #turn = NaN;
  #center: readonly [number, number] = [0, 0];
  readonly #footprint: () => readonly number[];

  /** `turnZDeg`: the turn its positions have. `software`: it is drawn without a graphics card. */
  constructor(solid: ViewSolid, turnZDeg: number, look: { readonly colors: ViewColors; readonly water: WaterUniforms; readonly software: boolean }) {
    const { colors, water } = look;
    const bed = solid.kind === 'bed';
    const dark = isDark(rgbOf(colors.sheet));
    this.id = solid.id;
    this.#form = formOf(solid.positions);
    const { heavy, copy } = look.software ? IN_MOTION.software : IN_MOTION.card;
    this.#tree = new PickTree(solid.positions, solid.indices, (picked) => {
      if (solid.indices.length / 3 > heavy) this.#stopCopying = inSlices(lighterSteps(picked.positions, picked.indices, copy), (light) => this.#hasCopy(light));
    });
    this.#postureDeg = turnZDeg;
    let outline: readonly number[] | undefined;
    this.#footprint = () => (outline ??= footprint(this.#form));

    const smooth = smoothNormals(solid.positions, solid.indices);
    const hull = geometryOf(solid.positions, smooth, solid.indices);
    const drawn = shaded(solid.positions, solid.indices, smooth);
    const body = drawn.indices ? hull : geometryOf(drawn.positions, drawn.normals);
    const silt = mixed(rgbOf(colors.silt), EARTH, dark ? 0.45 : 0.42);
    const pigment = PIGMENTS[[...solid.id].reduce((sum, letter) => sum + letter.charCodeAt(0), 0) % PIGMENTS.length];
    const base = bed ? silt : dark ? mixed(pigment, rgbOf('#efe6d2'), 0.12) : mixed(pigment, rgbOf('#ffffff'), 0.1);
    const shade = mixed(base, rgbOf(dark ? '#0c1112' : '#2c2a20'), bed ? 0.34 : 0.58);
    const wash = bed ? bedMaterial(base, shade, water) : figureMaterial(base, shade, water);
    this.#inkOf = (chosen) => ({ ink: rgbOf(chosen ? colors.teal : dark ? '#0b0f10' : colors.ink), widthPx: chosen ? 2.2 : 1.25 });
    const plain = this.#inkOf(false);
    this.#contour = contourMaterial(plain.ink, plain.widthPx, water, bed);
    const edges = new Ink({ color: dark ? '#0b0f10' : colors.ink, widthPx: 1, opacity: 0.75 }, ORDER.solid + 1, water.uWeight);
    const folds = creases(solid.positions, solid.indices);
    edges.draw(folds);

    this.#body = new Mesh(body, wash);
    this.#hull = new Mesh(hull, this.#contour);
    for (const mesh of [this.#body, this.#hull]) {
      mesh.raycast = () => {}; // picked through its own tree
      mesh.frustumCulled = false;
      mesh.name = solid.name;
      this.group.add(mesh);
    }
    this.#hull.userData.decoration = true;
    this.#hull.visible = !bed || folds.length === 0; // a plain bed ends at the walls, which have lines of their own
    this.#full = { body, hull };
    if (!bed) this.group.add(edges.object);
    this.#parts.push(hull, body, wash, this.#contour, edges, this.#tree);
  }

  /** It is in the picture from now on. */
  begin(): void {
    this.#tree.begin();
  }

  get reachMm(): number {
    const { min, max } = this.#form.bounds;
    return Math.hypot(max[0] - min[0], max[1] - min[1]) / 2;
  }

  get heightMm(): number {
    return this.#form.bounds.max[2] - this.#form.bounds.min[2];
  }

  setPlace(place: Place): void {
    const turn = ((place.turnZDeg - this.#postureDeg) * Math.PI) / 180;
    if (turn !== this.#turn) {
      this.#turn = turn;
      this.#center = turnedCenter(this.#form, turn);
    }
    const [cx, cy] = this.#center;
    this.group.rotation.z = turn;
    this.group.position.set(place.xMm - cx, place.yMm - cy, place.baseMm - this.#form.bounds.min[2]);
    this.group.updateMatrixWorld(true);
  }

  setInMotion(inMotion: boolean): void {
    this.#inMotion = inMotion;
    const light = inMotion ? this.#light : null;
    this.#body.geometry = light ?? this.#full.body;
    this.#hull.geometry = light ?? this.#full.hull;
  }

  setChosen(chosen: boolean): void {
    const { ink, widthPx } = this.#inkOf(chosen);
    this.#contour.uniforms.uInk.value.set(...ink);
    this.#contour.uniforms.uWidth.value = widthPx;
  }

  footprintNow(): number[] {
    const { elements: m } = this.group.matrixWorld;
    const own = this.#footprint();
    return own.map((_, i) => (i % 2 === 0 ? m[0] * own[i] + m[4] * own[i + 1] + m[12] : m[1] * own[i - 1] + m[5] * own[i] + m[13]));
  }

  hit(ray: Ray): number | null {
    this.#inverse.copy(this.group.matrixWorld).invert();
    const own = new ThreeRay(new Vector3(...ray.origin), new Vector3(...ray.direction)).applyMatrix4(this.#inverse);
    return this.#tree.hit(own, this.#form.bounds, DoubleSide);
  }

  dispose(): void {
    this.#stopCopying();
    for (const part of this.#parts) part.dispose();
  }

  #hasCopy({ positions, indices }: DrawnMesh): void {
    if (indices.length === 0) return;
    this.#light = geometryOf(positions, smoothNormals(positions, indices), indices);
    this.#parts.push(this.#light);
    this.setInMotion(this.#inMotion);
  }
}

function geometryOf(positions: Float32Array, normals: Float32Array, indices?: Uint32Array): BufferGeometry {
  const geometry = new BufferGeometry();
  geometry.setAttribute('position', new BufferAttribute(positions, 3));
  geometry.setAttribute('normal', new BufferAttribute(normals, 3));
  if (indices) geometry.setIndex(new BufferAttribute(indices, 1));
  return geometry;
}
