/** Ink lines of a fixed width in px, whatever the distance. */

import { Color } from 'three';
import { LineMaterial } from 'three/addons/lines/LineMaterial.js';
import { LineSegments2 } from 'three/addons/lines/LineSegments2.js';
import { LineSegmentsGeometry } from 'three/addons/lines/LineSegmentsGeometry.js';

export interface Pen {
  readonly color: string;
  readonly widthPx: number;
  readonly opacity?: number;
  /** Lengths of dash and gap, mm. */
  readonly dashMm?: readonly [number, number];
}

/** Line pieces drawn with one pen. Owns its geometry and material. */
export class Ink {
  readonly object: LineSegments2;
  readonly #pen: LineMaterial;
  #widthPx: number;

  /** `weight` scales its width: a small picture is drawn with finer pens. */
  constructor(pen: Pen, renderOrder: number, weight: { readonly value: number }) {
    const { color, widthPx, opacity = 1, dashMm } = pen;
    this.#widthPx = widthPx;
    this.#pen = new LineMaterial({
      color: new Color(color).getHex(), linewidth: widthPx, transparent: opacity < 1 || dashMm !== undefined, opacity, depthWrite: opacity === 1,
      dashed: dashMm !== undefined, dashSize: dashMm?.[0] ?? 1, gapSize: dashMm?.[1] ?? 1,
    });
    this.object = new LineSegments2(new LineSegmentsGeometry(), this.#pen);
    this.object.renderOrder = renderOrder;
    this.object.frustumCulled = false; // its bounds would be rebuilt with every change
    this.object.raycast = () => {};
    this.object.visible = false;
    this.object.onBeforeRender = (renderer) => {
      this.#pen.linewidth = this.#widthPx * weight.value;
      LineSegments2.prototype.onBeforeRender.call(this.object, renderer);
    };
  }

  setPen(color: string, widthPx: number, opacity = this.#pen.opacity): void {
    this.#pen.color.set(color);
    this.#pen.opacity = opacity;
    this.#widthPx = widthPx;
  }

  /** Six numbers a piece. */
  draw(pieces: readonly number[] | Float32Array): void {
    this.object.visible = pieces.length > 0;
    if (pieces.length === 0) return;
    this.object.geometry.dispose();
    const geometry = new LineSegmentsGeometry();
    geometry.setPositions(pieces instanceof Float32Array ? pieces : new Float32Array(pieces));
    this.object.geometry = geometry;
    if (this.#pen.dashed) this.object.computeLineDistances();
  }

  dispose(): void {
    this.object.geometry.dispose();
    this.#pen.dispose();
  }
}
