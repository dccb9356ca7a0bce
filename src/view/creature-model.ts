/** A painted creature in the renderer: its form in thin lines where it would stand. */

import { Group } from 'three';
import { contourPieces, hitContours, slabOf } from './contours.ts';
import { carryOf, footprint, formOf, type Carry, type Form } from './form.ts';
import { Ink } from './ink.ts';
import type { WaterUniforms } from './materials.ts';
import { ORDER } from './mold-model.ts';
import type { Place, ViewColors, ViewContour, ViewCreature } from './props.ts';
import type { Ray } from './ray.ts';
import type { Body } from './solid-model.ts';

const PEN = { plain: { widthPx: 0.9, opacity: 0.45 }, chosen: { widthPx: 1.6, opacity: 0.85 } } as const;

export class CreatureModel implements Body {
  readonly group = new Group();
  readonly id: string;
  readonly reachMm: number;
  readonly heightMm: number;
  readonly #contours: readonly ViewContour[];
  readonly #drawnAt: Place;
  readonly #form: Form;
  readonly #ink: Ink;
  readonly #colors: ViewColors;
  #place: Place;
  #footprint: readonly number[] | undefined;

  constructor({ id, contours, drawnAt }: ViewCreature, colors: ViewColors, water: WaterUniforms) {
    const pieces = contourPieces(contours);
    this.id = id;
    this.#contours = contours;
    this.#drawnAt = this.#place = drawnAt;
    this.#form = formOf(pieces);
    const { min, max } = this.#form.bounds;
    this.reachMm = Math.hypot(max[0] - min[0], max[1] - min[1]) / 2;
    this.heightMm = contours.length > 0 ? slabOf(contours, contours.length - 1)[1] - drawnAt.baseMm : 0;
    this.#colors = colors;
    this.#ink = new Ink({ color: colors.ink, ...PEN.plain }, ORDER.line, water.uWeight);
    this.#ink.draw(pieces);
    this.group.add(this.#ink.object);
  }

  setPlace(place: Place): void {
    this.#place = place;
    const { turnRad, xMm, yMm } = this.carryFrom(this.#drawnAt);
    this.group.rotation.z = turnRad;
    this.group.position.set(xMm, yMm, place.baseMm - this.#drawnAt.baseMm);
  }

  setChosen(chosen: boolean): void {
    const { widthPx, opacity } = chosen ? PEN.chosen : PEN.plain;
    this.#ink.setPen(chosen ? this.#colors.teal : this.#colors.ink, widthPx, opacity);
  }

  setInMotion(): void {} // lines are light

  carryFrom(from: Place): Carry {
    return carryOf(this.#form, this.#drawnAt.turnZDeg, from, this.#place);
  }

  footprintNow(): number[] {
    const { turnRad, xMm, yMm } = this.carryFrom(this.#drawnAt);
    const [c, s] = [Math.cos(turnRad), Math.sin(turnRad)];
    const own = (this.#footprint ??= footprint(this.#form));
    return own.map((_, i) => (i % 2 === 0 ? c * own[i] - s * own[i + 1] + xMm : s * own[i - 1] + c * own[i] + yMm));
  }

  hit({ origin, direction }: Ray): number | null {
    const { x, y, z } = this.group.position;
    const [c, s] = [Math.cos(this.group.rotation.z), Math.sin(this.group.rotation.z)];
    const back = (vx: number, vy: number, vz: number): Ray['origin'] => [c * vx + s * vy, c * vy - s * vx, vz];
    return hitContours(this.#contours, { origin: back(origin[0] - x, origin[1] - y, origin[2] - z), direction: back(...direction) });
  }

  dispose(): void {
    this.#ink.dispose();
  }
}
