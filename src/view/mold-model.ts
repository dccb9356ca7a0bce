/** The mold and its water in the renderer. Redraws itself only when the eye passes to another side of a wall. */

import { BufferGeometry, Float32BufferAttribute, Group, Mesh, PlaneGeometry, type ShaderMaterial } from 'three';
import { rgbOf, isDark } from './color.ts';
import { drawMold, type Faces, type MoldLook } from './drawing.ts';
import type { Vec3 } from './eye.ts';
import { Ink, type Pen } from './ink.ts';
import { hatchMaterial, paperMaterial, shadowMaterial, veilMaterial, type WaterUniforms } from './materials.ts';
import { keptFrom, moldBounds } from './outline.ts';
import type { ViewColors } from './props.ts';

/** What is drawn over what, among things without depth: planes lie between, by their height (painted-sheet.ts). */
export const ORDER = { shadow: -10, solid: 0, plane: 10, surface: 400, veil: 410, line: 420 } as const;

type FaceName = 'paper' | 'cut' | 'veil' | 'barred' | 'surface';
const NAMES: Record<FaceName, string> = { paper: 'Mold', cut: 'Mold, cut', veil: 'Water, cut', barred: 'Do not pour', surface: 'Water' };

type LineName = 'edges' | 'rim' | 'pourLines' | 'frontLines' | 'dottedLines' | 'levelLine' | 'barLines';

/** Kept while its paper lasts: new looks change its geometry, never its shaders. */
export class MoldModel {
  readonly group = new Group();
  readonly #colors: ViewColors;
  readonly #faces = new Map<FaceName, Mesh<BufferGeometry, ShaderMaterial>>();
  readonly #inks = new Map<LineName, Ink>();
  readonly #shadow: Mesh<PlaneGeometry, ShaderMaterial>;
  #look: MoldLook | null = null;
  #kept = '';

  constructor(colors: ViewColors, water: WaterUniforms) {
    this.#colors = colors;
    const dark = isDark(rgbOf(colors.sheet));
    const materials: Record<FaceName, [ShaderMaterial, number]> = {
      paper: [paperMaterial(), ORDER.solid],
      cut: [hatchMaterial(rgbOf(colors.hatch), water), ORDER.solid],
      surface: [veilMaterial(0.1), ORDER.surface],
      veil: [veilMaterial(dark ? 0.18 : 0.16), ORDER.veil],
      barred: [veilMaterial(0.82), ORDER.veil],
    };
    for (const [name, [material, order]] of Object.entries(materials) as [FaceName, [ShaderMaterial, number]][]) {
      const mesh = new Mesh(new BufferGeometry(), material);
      mesh.renderOrder = order;
      mesh.frustumCulled = false;
      mesh.raycast = () => {};
      mesh.name = NAMES[name];
      this.#faces.set(name, mesh);
      this.group.add(mesh);
    }
    const pens: Record<LineName, Pen> = {
      edges: { color: colors.ink, widthPx: 1.5 },
      rim: { color: colors.ink, widthPx: 2 },
      pourLines: { color: colors.ink, widthPx: 1, opacity: dark ? 0.4 : 0.6 },
      frontLines: { color: colors.ink, widthPx: 1, opacity: dark ? 0.28 : 0.36 },
      dottedLines: { color: colors.ink2, widthPx: 1, opacity: 0.8, dashMm: [1.1, 2] },
      levelLine: { color: colors.ink, widthPx: 1.8 },
      barLines: { color: colors.brick, widthPx: 2 },
    };
    for (const [name, pen] of Object.entries(pens) as [LineName, Pen][]) {
      const ink = new Ink(pen, ORDER.line, water.uWeight);
      this.#inks.set(name, ink);
      this.group.add(ink.object);
    }
    this.#shadow = new Mesh(new PlaneGeometry(1, 1), shadowMaterial(dark ? 0.42 : 0.13));
    this.#shadow.renderOrder = ORDER.shadow;
    this.#shadow.raycast = () => {};
    this.#shadow.userData.decoration = true;
    this.group.add(this.#shadow);
  }

  /** `live`: the level is where the work is now, and drawn so. */
  setLook(look: MoldLook, live: boolean): void {
    this.#look = look;
    this.#kept = '';
    this.#inks.get('levelLine')?.setPen(live ? this.#colors.teal : this.#colors.ink, live ? 3 : 1.8);
    this.#spreadShadow(look);
  }

  /** Cuts away what stands between this eye and the inside. True when something changed. */
  lookFrom(eye: Vec3): boolean {
    if (!this.#look) return false;
    const kept = keptFrom(this.#look.outline, eye);
    const below = eye[2] < 0;
    const key = kept.map((k) => (k ? '1' : '0')).join('') + (below ? ' below' : '');
    if (key === this.#kept) return false;
    this.#kept = key;
    this.#shadow.visible = !below;
    const drawing = drawMold(this.#look, kept, below);
    for (const [name, mesh] of this.#faces) setFaces(mesh, drawing[name]);
    for (const [name, ink] of this.#inks) ink.draw(drawing[name]);
    return true;
  }

  dispose(): void {
    for (const mesh of this.#faces.values()) {
      mesh.geometry.dispose();
      mesh.material.dispose();
    }
    for (const ink of this.#inks.values()) ink.dispose();
    this.#shadow.geometry.dispose();
    this.#shadow.material.dispose();
  }

  #spreadShadow({ outline }: MoldLook): void {
    const { min, max } = moldBounds(outline);
    const half = [(max[0] - min[0]) / 2, (max[1] - min[1]) / 2] as const;
    const soft = 0.09 * Math.max(half[0], half[1]);
    const round = outline.stretches.some((stretch) => stretch.corner) ? soft * 0.5 : Math.min(half[0], half[1]);
    this.#shadow.geometry.dispose();
    this.#shadow.geometry = new PlaneGeometry(2 * (half[0] + 2 * soft), 2 * (half[1] + 2 * soft));
    this.#shadow.material.uniforms.uHalf.value = { x: half[0], y: half[1], z: round, w: soft };
    this.#shadow.position.set(soft * 0.35, soft * 0.2, min[2] - 0.2);
  }
}

function setFaces(mesh: Mesh<BufferGeometry, ShaderMaterial>, faces: Faces): void {
  mesh.geometry.dispose();
  const geometry = new BufferGeometry();
  geometry.setAttribute('position', new Float32BufferAttribute(faces.positions, 3));
  geometry.setAttribute('color', new Float32BufferAttribute(faces.colors, 3));
  mesh.geometry = geometry;
  mesh.visible = faces.positions.length > 0;
}
