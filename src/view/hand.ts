/**
 * Mouse, finger and pen on the picture: choose, drag by a handle, turn the piece, slide and come nearer.
 * A press that goes nowhere chooses; a click after a drag is no choice. Escape gives a drag back.
 */

import type { MoldSize } from './props.ts';
import type { Picked } from './picking.ts';
import type { Held, Stage } from './stage.ts';

/** A press that moved less than this is a click, px. */
const STILL = 4;
/** Two presses on the ground within this look again from where the word says, ms. */
const TWICE_MS = 350;
const ZOOM_PER_WHEEL_PX = 0.0014;
const ZOOM_PER_PINCH_PX = 0.01;
/** A wheel that counts lines or pages, in px. */
const WHEEL_PX = [1, 16, 400];

interface Press {
  readonly pointer: number;
  readonly x: number;
  readonly y: number;
  readonly picked: Picked | null;
  readonly handle: 'float' | 'bead' | null;
  /** The mold's own. */
  readonly grip: MoldSize | null;
  readonly slides: boolean;
  readonly finger: boolean;
  readonly adds: boolean;
  moved: boolean;
}

export class Hand {
  readonly #canvas: HTMLCanvasElement;
  readonly #stage: Stage;
  readonly #listening = new AbortController();
  readonly #fingers = new Map<number, readonly [number, number]>();
  #press: Press | null = null;
  #held: Held | null = null;
  #last: readonly [number, number] = [0, 0];
  #groundAt = -Infinity;

  constructor(canvas: HTMLCanvasElement, stage: Stage) {
    this.#canvas = canvas;
    this.#stage = stage;
    const { signal } = this.#listening;
    canvas.addEventListener('pointerdown', (event) => this.#down(event), { signal });
    canvas.addEventListener('pointermove', (event) => this.#move(event), { signal });
    canvas.addEventListener('pointerup', (event) => this.#up(event), { signal });
    canvas.addEventListener('pointercancel', (event) => this.#lost(event), { signal });
    canvas.addEventListener('lostpointercapture', (event) => this.#lost(event), { signal });
    canvas.addEventListener('wheel', (event) => this.#wheel(event), { signal, passive: false });
    canvas.addEventListener('contextmenu', (event) => event.preventDefault(), { signal });
    // Before the page's own keys: while something is in hand, Escape is about that.
    window.addEventListener('keydown', (event) => this.#key(event), { signal, capture: true });
  }

  dispose(): void {
    this.#giveBack('cancel');
    this.#listening.abort();
  }

  #at(event: PointerEvent | WheelEvent): readonly [number, number] {
    const box = this.#canvas.getBoundingClientRect();
    return [event.clientX - box.left, event.clientY - box.top];
  }

  #down(event: PointerEvent): void {
    const at = this.#at(event);
    this.#fingers.set(event.pointerId, at);
    if (this.#canvas.isConnected) this.#canvas.setPointerCapture(event.pointerId);
    if (this.#fingers.size > 1) {
      this.#giveBack('cancel'); // a second finger means the piece, not the thing in hand
      this.#press = null;
      return;
    }
    const ray = this.#stage.look.sight(...at);
    const slides = event.shiftKey || event.button === 1 || event.button === 2;
    this.#press = {
      pointer: event.pointerId, x: at[0], y: at[1], slides, moved: false, finger: event.pointerType === 'touch',
      adds: event.shiftKey || event.ctrlKey || event.metaKey,
      handle: slides ? null : this.#stage.handleAt(...at), grip: slides ? null : (this.#stage.gripAt(...at)?.size ?? null), picked: ray && this.#stage.pick(ray),
    };
    this.#last = at;
  }

  #move(event: PointerEvent): void {
    const at = this.#at(event);
    if (this.#fingers.size > 1 && this.#fingers.has(event.pointerId)) return this.#pinch(event.pointerId, at);
    const press = this.#press;
    if (!press || press.pointer !== event.pointerId) return this.#hover(event, at);
    this.#fingers.set(event.pointerId, at);
    if (!press.moved) {
      if (Math.hypot(at[0] - press.x, at[1] - press.y) < STILL) return;
      press.moved = true;
      this.#take(press);
    }
    const ray = this.#stage.look.sight(...at);
    if (this.#held) {
      if (ray) this.#held.move(ray);
    } else {
      const [dx, dy] = [at[0] - this.#last[0], at[1] - this.#last[1]];
      if (press.slides) this.#stage.look.pan(dx, dy);
      else this.#stage.look.turn(dx, dy);
      this.#stage.props?.onTurned?.();
    }
    this.#last = at;
  }

  /** What the press meant, now that it moves: a handle, a body, or the ground. */
  #take(press: Press): void {
    const ray = this.#stage.look.sight(press.x, press.y);
    const { chosen, props } = this.#stage;
    if (press.slides || !ray || !props) return;
    if (press.grip) {
      this.#held = this.#stage.grabGrip(press.grip, ray);
    } else if (press.handle && chosen !== null) {
      this.#held = this.#stage.grab(press.handle, chosen, { ray });
    } else if (press.picked) {
      const { id, kind, point } = press.picked;
      const isChosen = props.selected.includes(id);
      // A bed or sheet fills the mold, and a finger is broad: those are moved only once chosen.
      if (!isChosen && (kind === 'bed' || kind === 'plane' || press.finger)) return;
      if (props.locked.includes(id)) return;
      if (!isChosen) props.onSelect([id], 'replace');
      this.#held = this.#stage.grab('body', id, { ray, point });
    }
    if (this.#held && !press.grip) this.#canvas.style.cursor = this.#held.handle === 'float' ? 'ns-resize' : 'grabbing';
  }

  #up(event: PointerEvent): void {
    const press = this.#press;
    this.#fingers.delete(event.pointerId);
    if (!press || press.pointer !== event.pointerId) return;
    this.#press = null;
    if (press.moved) this.#giveBack('end');
    else if (event.button === 0) this.#choose(press);
  }

  #choose({ picked, handle, grip, adds, slides }: Press): void {
    const { props } = this.#stage;
    if (handle || grip || !props) return;
    if (picked) {
      this.#groundAt = -Infinity;
      props.onSelect([picked.id], adds ? 'toggle' : 'replace');
      return;
    }
    if (adds || slides) return;
    const now = performance.now();
    if (now - this.#groundAt < TWICE_MS) this.#stage.look.again();
    this.#groundAt = now;
    if (props.selected.length > 0) props.onSelect([], 'replace');
  }

  #pinch(pointer: number, at: readonly [number, number]): void {
    const [a, b] = [...this.#fingers.values()];
    const before = { x: (a[0] + b[0]) / 2, y: (a[1] + b[1]) / 2, wide: Math.hypot(a[0] - b[0], a[1] - b[1]) };
    this.#fingers.set(pointer, at);
    const [c, d] = [...this.#fingers.values()];
    const after = { x: (c[0] + d[0]) / 2, y: (c[1] + d[1]) / 2, wide: Math.hypot(c[0] - d[0], c[1] - d[1]) };
    this.#stage.look.pan(after.x - before.x, after.y - before.y);
    if (before.wide > 1 && after.wide > 1) this.#stage.look.zoom(after.wide / before.wide, after.x, after.y);
    this.#stage.props?.onTurned?.();
  }

  #wheel(event: WheelEvent): void {
    event.preventDefault();
    const step = event.deltaY * WHEEL_PX[event.deltaMode];
    this.#stage.look.zoom(Math.exp(-step * (event.ctrlKey ? ZOOM_PER_PINCH_PX : ZOOM_PER_WHEEL_PX)), ...this.#at(event));
  }

  #hover(event: PointerEvent, at: readonly [number, number]): void {
    if (event.pointerType === 'touch' || event.buttons !== 0) return;
    const { props, chosen } = this.#stage;
    const grip = this.#stage.gripAt(...at);
    if (grip) {
      const [[x0, y0], [x1, y1]] = grip.line;
      this.#canvas.style.cursor = Math.abs(x1 - x0) > Math.abs(y1 - y0) ? 'ew-resize' : 'ns-resize';
      return;
    }
    const handle = this.#stage.handleAt(...at);
    const ray = handle ? null : this.#stage.look.sight(...at);
    const picked = ray && this.#stage.pick(ray);
    const movable = picked && !props?.locked.includes(picked.id);
    this.#canvas.style.cursor = handle === 'float' ? 'ns-resize' : handle === 'bead' ? 'grab' : !picked ? 'default' : movable && picked.id === chosen ? 'move' : 'pointer';
  }

  #key(event: KeyboardEvent): void {
    if (event.key !== 'Escape' || !this.#held) return;
    event.preventDefault();
    event.stopImmediatePropagation();
    this.#giveBack('cancel');
    this.#press = null;
  }

  #lost(event: PointerEvent): void {
    this.#fingers.delete(event.pointerId);
    if (this.#press?.pointer !== event.pointerId) return;
    this.#press = null;
    this.#giveBack('cancel');
  }

  #giveBack(phase: 'end' | 'cancel'): void {
    const held = this.#held;
    this.#held = null;
    held?.finish(phase);
    this.#canvas.style.cursor = 'default';
  }
}
