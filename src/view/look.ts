/** Where the mold is looked at from: the eye, turned by hand or going to a word's place, and the renderer's camera that follows it. */

import { Matrix4, Vector3, type PerspectiveCamera } from 'three';
import type { Bounds } from '../core/solid/solid.ts';
import { basisOf, between, lookFrom, panned, positionOf, sightThrough, turned, zoomed, VIEW_ANGLE, type Eye, type Frame } from './eye.ts';
import type { SeenFrom } from './props.ts';
import type { Ray } from './ray.ts';

const MOVE_MS = 180;

export class Look {
  #mold: Bounds | null = null;
  #from: SeenFrom = 'corner';
  #jumps = false;
  #eye: Eye | null = null;
  #frame: Frame | null = null;
  #camera: PerspectiveCamera | null = null;
  #glide = 0;
  readonly #onMove: () => void;
  readonly #onAimed: () => void;

  /** `onMove`: it is about to move, by hand or to a word. `onAimed`: the camera was set anew. */
  constructor(onMove: () => void, onAimed: () => void) {
    this.#onMove = onMove;
    this.#onAimed = onAimed;
  }

  get eye(): Eye | null {
    return this.#eye;
  }

  get frame(): Frame | null {
    return this.#frame;
  }

  connect(camera: PerspectiveCamera): void {
    this.#camera = camera;
    this.#aim();
  }

  disconnect(): void {
    cancelAnimationFrame(this.#glide);
    this.#camera = null;
  }

  /** The word it is seen from; another one is gone to. `jumps`: at once. */
  setWord(from: SeenFrom, jumps: boolean): void {
    const another = from !== this.#from;
    this.#from = from;
    this.#jumps = jumps;
    if (another) this.again();
  }

  /** `refits`: it is framed anew at once. */
  setMold(mold: Bounds, refits: boolean): void {
    this.#mold = mold;
    if (refits && this.#frame) this.#refit(this.#frame);
  }

  setFrame(frame: Frame): void {
    this.#refit(frame);
    this.#frame = frame;
    if (!this.#eye && this.#mold) this.#eye = lookFrom(this.#from, this.#mold, frame);
    this.#aim();
  }

  /** From where the word says. */
  again(): void {
    if (this.#mold && this.#frame) this.#goTo(lookFrom(this.#from, this.#mold, this.#frame));
  }

  /** The same look at the mold as it is now. */
  fit(): void {
    if (this.#eye && this.#frame) this.#goTo(this.#fitted(this.#eye, this.#frame));
  }

  /** By px of the picture: once across the picture is half a turn. */
  turn(dx: number, dy: number): void {
    if (!this.#eye || !this.#frame) return;
    this.#set(turned(this.#eye, (-dx * Math.PI) / this.#frame.width, (dy * Math.PI) / Math.max(this.#frame.width, this.#frame.height)));
  }

  pan(dx: number, dy: number): void {
    if (this.#eye && this.#frame && this.#mold) this.#set(panned(this.#eye, [dx, dy], this.#mold, this.#frame));
  }

  /** Larger by a factor about a px of the picture. */
  zoom(factor: number, px: number, py: number): void {
    if (!this.#eye || !this.#frame || !this.#mold) return;
    this.#set(zoomed(this.#eye, factor, [px - this.#frame.width / 2, py - this.#frame.height / 2], this.#mold, this.#frame));
  }

  /** The line of sight through a px of the picture. */
  sight(px: number, py: number): Ray | null {
    return this.#eye && this.#frame ? sightThrough(this.#eye, [px, py], this.#frame) : null;
  }

  #refit(frame: Frame): void {
    if (!this.#eye) return;
    cancelAnimationFrame(this.#glide); // it went to where the mold was framed before
    this.#eye = this.#fitted(this.#eye, frame);
    this.#aim();
  }

  #fitted(eye: Eye, frame: Frame): Eye {
    if (!this.#mold) return eye;
    const fit = lookFrom(this.#from, this.#mold, frame);
    return { ...fit, azimuth: eye.azimuth, elevation: eye.elevation, distanceMm: (fit.fitMm * eye.distanceMm) / eye.fitMm };
  }

  #set(eye: Eye): void {
    cancelAnimationFrame(this.#glide);
    this.#onMove();
    this.#eye = eye;
    this.#aim();
  }

  #goTo(eye: Eye): void {
    cancelAnimationFrame(this.#glide);
    const from = this.#eye;
    if (!from || this.#jumps) return this.#set(eye);
    const began = performance.now();
    const step = (): void => {
      const t = (performance.now() - began) / MOVE_MS;
      this.#eye = t >= 1 ? eye : between(from, eye, t);
      this.#onMove();
      this.#aim();
      if (t < 1) this.#glide = requestAnimationFrame(step);
    };
    this.#glide = requestAnimationFrame(step);
  }

  /** The eye into the renderer's camera: the one place where the mold's frame meets the renderer's. */
  #aim(): void {
    const [camera, eye] = [this.#camera, this.#eye];
    if (!camera || !eye || !this.#frame) return;
    const { right, up, back } = basisOf(eye.azimuth, eye.elevation);
    camera.position.set(...positionOf(eye));
    camera.quaternion.setFromRotationMatrix(new Matrix4().makeBasis(new Vector3(...right), new Vector3(...up), new Vector3(...back)));
    camera.fov = (VIEW_ANGLE * 180) / Math.PI;
    camera.aspect = this.#frame.width / this.#frame.height;
    camera.near = eye.distanceMm * 0.05;
    camera.far = eye.distanceMm + eye.fitMm * 2;
    camera.updateProjectionMatrix();
    camera.updateMatrixWorld();
    this.#onAimed();
  }
}
