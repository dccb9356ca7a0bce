/**
 * The board one draws on: three canvases over each other (what lies under, the sketch, what the hand does now) and the hand itself,
 * pen, finger or mouse. Draws when something changed, once a frame at the most. What is drawn goes out through `Told` when the
 * hand lifts, and also when the browser takes it away: no stroke is lost.
 */
import type { Stroke, StrokePoint } from '../../core/scene/scene.ts';
import { erased, type Eraser } from '../../core/sight/sketch/erase.ts';
import { markBounds } from '../../core/sight/sketch/mark.ts';
import { SIMPLIFY_MM, simplified } from '../../core/sight/sketch/simplify.ts';
import { BOARD, drawBackdrop, type Backdrop } from './backdrop.ts';
import { paintStroke, paintStrokes } from './paint-strokes.ts';
import { moldAt, shifted, stretchOf, transformOf, whole, zoomedAbout, type BoardSize, type SightWindow } from './sight-window.ts';

export interface BoardLook {
  readonly strokes: readonly Stroke[];
  readonly backdrop: Backdrop;
  /** Half of the plane's inside, mm. */
  readonly half: readonly [number, number];
  /** Left and right turned round. */
  readonly mirrored: boolean;
  readonly brush: Pick<Stroke, 'plane' | 'ink' | 'widthMm' | 'softMm'> & { readonly tool: 'brush' | 'eraser' };
  readonly readOnly: boolean;
  /** The stroke that is pointed out; null: none. */
  readonly shown: Stroke | null;
}

export interface Told {
  drew(points: readonly StrokePoint[]): void;
  erased(eraser: Eraser): void;
}

interface Drawing {
  readonly pointer: number;
  readonly erasing: boolean;
  readonly since: number;
  /** Every place of the hand. */
  readonly points: StrokePoint[];
  /** The same with fewer points, for the eye, but for the last few. */
  shown: StrokePoint[];
  /** Of `points`, how many `shown` stands for in its settled part, and how long that is. */
  settled: number;
  settledShown: number;
  /** What an eraser has left so far. */
  left: readonly Stroke[];
}

/** Points of a stroke in hand after which the earlier ones are thinned for the eye. */
const SETTLE_EVERY = 256;
/** A second finger within this time or way takes the first one's beginning for a pinch: ms, px. */
const PINCH_MS = 250;
const PINCH_PX = 12;
/** Lightest pressure of a pen that touches. */
const LIGHTEST = 0.02;
/** The end of a pen that rubs out (Pointer Events 3, §4.1.1.3: buttons 32). */
const ERASER_END = 32;
const MIDDLE_BUTTON = 1;
/** ms. A look that rests this long is drawn anew. */
const REST_MS = 120;
/** A notch of a wheel, some 100 px, is a seventh; a pinch on a trackpad comes finer. */
const WHEEL_RATE = 0.0015;
const TRACKPAD_RATE = 0.01;

export class BoardSurface {
  readonly #holder: HTMLElement;
  readonly #told: Told;
  readonly #layers: readonly CanvasRenderingContext2D[];
  readonly #watch: ResizeObserver;
  readonly #stop = new AbortController();
  #look: BoardLook | null = null;
  #size: BoardSize = { widthPx: 1, heightPx: 1 };
  #window: SightWindow | null = null;
  #drawing: Drawing | null = null;
  /** Fingers on the board, and the mouse that pans, where they were last, px. */
  readonly #fingers = new Map<number, readonly [number, number]>();
  #panning: number | null = null;
  #pinched = false;
  #frame = 0;
  /** Through which what lies under and the sketch were drawn last; while one looks closer they are only moved and stretched. */
  #drawn: SightWindow | null = null;
  #settling: ReturnType<typeof setTimeout> | undefined;
  /** Layers to be drawn anew: what lies under, the sketch. The hand's always is. */
  #stale = { under: true, sketch: true };
  #painted: readonly Stroke[] = [];

  /** Null where the browser gives no canvas. */
  static on(holder: HTMLElement, told: Told): BoardSurface | null {
    const layers = ['under', 'sketch', 'hand'].map((layer) => {
      const canvas = document.createElement('canvas');
      canvas.dataset.layer = layer;
      canvas.setAttribute('aria-hidden', 'true');
      return canvas.getContext('2d');
    });
    return layers.every((pen) => pen !== null) ? new BoardSurface(holder, told, layers) : null;
  }

  private constructor(holder: HTMLElement, told: Told, layers: readonly CanvasRenderingContext2D[]) {
    this.#holder = holder;
    this.#told = told;
    this.#layers = layers;
    holder.replaceChildren(...layers.map(({ canvas }) => canvas));
    this.#watch = new ResizeObserver(() => this.#resize());
    this.#watch.observe(holder);
    this.#resize();
    const { signal } = this.#stop;
    holder.addEventListener('pointerdown', (event) => this.#down(event), { signal });
    holder.addEventListener('pointermove', (event) => this.#move(event), { signal });
    for (const end of ['pointerup', 'pointercancel', 'lostpointercapture'] as const) holder.addEventListener(end, (event) => this.#up(event), { signal });
    holder.addEventListener('wheel', (event) => this.#wheel(event), { signal, passive: false });
    holder.addEventListener('contextmenu', (event) => event.preventDefault(), { signal });
  }

  setLook(look: BoardLook): void {
    const before = this.#look;
    this.#look = look;
    this.#window ??= whole(this.#size, look.half);
    if (before?.backdrop !== look.backdrop || before.mirrored !== look.mirrored) this.#stale.under = true;
    if (before?.mirrored !== look.mirrored) this.#stale.sketch = true;
    this.#draw();
  }

  zoom(by: number): void {
    this.#zoomAt(by, [this.#size.widthPx / 2, this.#size.heightPx / 2]);
  }

  seeWhole(): void {
    if (this.#look) this.#seeThrough(whole(this.#size, this.#look.half));
  }

  /** What is in hand is kept first. */
  dispose(): void {
    this.#finish();
    this.#stop.abort();
    this.#watch.disconnect();
    clearTimeout(this.#settling);
    cancelAnimationFrame(this.#frame);
    this.#holder.replaceChildren();
  }

  // The hand

  #down(event: PointerEvent): void {
    const look = this.#look;
    if (!look) return;
    const at = this.#px(event);
    if (event.pointerType === 'mouse' && event.button === MIDDLE_BUTTON) {
      event.preventDefault();
      this.#panning = event.pointerId;
      this.#fingers.set(event.pointerId, at);
      this.#holder.setPointerCapture(event.pointerId);
      return;
    }
    if (event.pointerType === 'touch') {
      // A palm beside the pen.
      if (this.#drawing && !this.#fingers.has(this.#drawing.pointer)) return;
      this.#fingers.set(event.pointerId, at);
      if (this.#fingers.size > 1) {
        if (this.#drawing && this.#isBeginning(this.#drawing)) this.#drawing = null;
        else this.#finish();
        this.#pinched = true;
        this.#draw();
        return;
      }
    }
    const rubs = (event.buttons & ERASER_END) !== 0;
    if (look.readOnly || this.#drawing || this.#pinched || !(event.button === 0 || rubs)) return;
    event.preventDefault();
    this.#holder.setPointerCapture(event.pointerId);
    this.#drawing = { pointer: event.pointerId, erasing: rubs || look.brush.tool === 'eraser', since: event.timeStamp, points: [], shown: [], settled: 0, settledShown: 0, left: look.strokes };
    this.#take([event]);
  }

  #move(event: PointerEvent): void {
    const { pointerId } = event;
    const before = this.#fingers.get(pointerId);
    if (before && (this.#pinched || this.#panning === pointerId)) {
      const at = this.#px(event);
      this.#pinch(pointerId, before, at);
      this.#fingers.set(pointerId, at);
      return;
    }
    if (before) this.#fingers.set(pointerId, this.#px(event));
    if (this.#drawing?.pointer !== pointerId) return;
    const between = event.getCoalescedEvents?.() ?? [];
    this.#take(between.length > 0 ? between : [event]);
  }

  #up({ pointerId }: PointerEvent): void {
    this.#fingers.delete(pointerId);
    if (this.#panning === pointerId) this.#panning = null;
    if (this.#fingers.size === 0) this.#pinched = false;
    if (this.#drawing?.pointer === pointerId) this.#finish();
  }

  #take(events: readonly PointerEvent[]): void {
    const drawing = this.#drawing!;
    const fresh = events.map((event): StrokePoint => {
      const [x, y] = moldAt(this.#window!, this.#px(event), { size: this.#size, mirrored: this.#look!.mirrored });
      // Only a pen tells how hard it presses; a mouse and a finger draw evenly.
      return [x, y, event.pointerType === 'pen' ? Math.min(1, Math.max(LIGHTEST, event.pressure)) : 1];
    });
    const from = drawing.points.length;
    drawing.points.push(...fresh);
    if (drawing.erasing) {
      drawing.left = erased(drawing.left, { path: drawing.points.slice(Math.max(0, from - 1)).map(([x, y]) => [x, y] as const), radiusMm: this.#look!.brush.widthMm / 2 });
    } else {
      drawing.shown.push(...fresh);
      if (drawing.points.length - drawing.settled > SETTLE_EVERY) this.#settle(drawing);
    }
    this.#draw();
  }

  #settle(drawing: Drawing): void {
    const thinned = simplified({ points: drawing.points.slice(Math.max(0, drawing.settled - 1)), widthMm: this.#look!.brush.widthMm }, SIMPLIFY_MM);
    drawing.shown = [...drawing.shown.slice(0, Math.max(0, drawing.settledShown - 1)), ...thinned];
    drawing.settled = drawing.points.length;
    drawing.settledShown = drawing.shown.length;
  }

  #isBeginning({ since, points }: Drawing): boolean {
    const [first, last] = [points[0], points[points.length - 1]];
    return performance.now() - since < PINCH_MS || Math.hypot(last[0] - first[0], last[1] - first[1]) * this.#window!.scale < PINCH_PX;
  }

  #finish(): void {
    const drawing = this.#drawing;
    this.#drawing = null;
    if (!drawing || drawing.points.length === 0) return;
    if (drawing.erasing) this.#told.erased({ path: drawing.points.map(([x, y]) => [x, y] as const), radiusMm: this.#look!.brush.widthMm / 2 });
    else this.#told.drew(drawing.points);
    this.#draw();
  }

  // What is seen

  #pinch(moved: number, from: readonly [number, number], to: readonly [number, number]): void {
    const other = [...this.#fingers].find(([pointer]) => pointer !== moved)?.[1];
    if (!other) {
      if (this.#panning === moved) this.#seeThrough(shifted(this.#window!, to[0] - from[0], to[1] - from[1]));
      return;
    }
    const apart = (a: readonly [number, number]): number => Math.max(1, Math.hypot(a[0] - other[0], a[1] - other[1]));
    this.#window = shifted(this.#window!, (to[0] - from[0]) / 2, (to[1] - from[1]) / 2);
    this.#zoomAt(apart(to) / apart(from), [(to[0] + other[0]) / 2, (to[1] + other[1]) / 2]);
  }

  #wheel(event: WheelEvent): void {
    event.preventDefault();
    const perPx = event.deltaMode === WheelEvent.DOM_DELTA_LINE ? 30 : 1;
    this.#zoomAt(Math.exp(-event.deltaY * perPx * (event.ctrlKey ? TRACKPAD_RATE : WHEEL_RATE)), this.#px(event));
  }

  #zoomAt(by: number, at: readonly [number, number]): void {
    if (!this.#look || !this.#window) return;
    this.#seeThrough(zoomedAbout(this.#window, by, at, { size: this.#size, full: whole(this.#size, this.#look.half).scale }));
  }

  #seeThrough(window: SightWindow): void {
    this.#window = window;
    clearTimeout(this.#settling);
    this.#settling = setTimeout(() => {
      this.#settling = undefined;
      this.#draw();
    }, REST_MS);
    this.#draw();
  }

  #px({ clientX, clientY }: MouseEvent): [number, number] {
    const { left, top } = this.#holder.getBoundingClientRect();
    return [clientX - left, clientY - top];
  }

  #resize(): void {
    const { clientWidth: widthPx, clientHeight: heightPx } = this.#holder;
    if (widthPx === 0 || heightPx === 0) return;
    const wasWhole = this.#look && this.#window && this.#window.scale === whole(this.#size, this.#look.half).scale;
    this.#size = { widthPx, heightPx };
    for (const { canvas } of this.#layers) {
      canvas.width = Math.round(widthPx * devicePixelRatio);
      canvas.height = Math.round(heightPx * devicePixelRatio);
    }
    if (wasWhole) this.#window = whole(this.#size, this.#look!.half);
    this.#stale = { under: true, sketch: true };
    this.#draw();
  }

  #draw(): void {
    if (this.#frame === 0) this.#frame = requestAnimationFrame(() => this.#drawNow());
  }

  #drawNow(): void {
    this.#frame = 0;
    const [look, window] = [this.#look, this.#window];
    if (!look || !window) return;
    const [under, sketch, hand] = this.#layers;
    const pxPerMm = window.scale * devicePixelRatio;
    const ready = (pen: CanvasRenderingContext2D): CanvasRenderingContext2D => {
      pen.resetTransform();
      pen.clearRect(0, 0, pen.canvas.width, pen.canvas.height);
      pen.setTransform(...transformOf(window, { size: this.#size, mirrored: look.mirrored, dpr: devicePixelRatio }));
      return pen;
    };
    const drawing = this.#drawing;
    if (this.#settling !== undefined && this.#drawn && !drawing) {
      for (const { canvas } of [under, sketch]) canvas.style.transform = stretchOf(this.#drawn, window, this.#size);
      ready(hand);
      return;
    }
    if (this.#drawn !== window) {
      this.#drawn = window;
      this.#stale = { under: true, sketch: true };
      for (const { canvas } of [under, sketch]) canvas.style.transform = '';
    }
    if (this.#stale.under) drawBackdrop(ready(under), look.backdrop, pxPerMm);
    const strokes = drawing?.erasing ? drawing.left : look.strokes;
    if (this.#stale.sketch) paintStrokes(ready(sketch), strokes, pxPerMm);
    else repaint(sketch, { from: this.#painted, to: strokes, pxPerMm });
    this.#painted = strokes;
    this.#stale = { under: false, sketch: false };
    ready(hand);
    if (look.shown) paintStroke(hand, { ...look.shown, ink: BOARD.mark, softMm: 0 }, pxPerMm);
    if (drawing && !drawing.erasing) paintStroke(hand, { ...look.brush, points: drawing.shown }, pxPerMm);
    if (drawing?.erasing) this.#drawEraser(hand, drawing.points[drawing.points.length - 1], look);
  }

  #drawEraser(pen: CanvasRenderingContext2D, [x, y]: StrokePoint, { brush }: BoardLook): void {
    pen.beginPath();
    pen.arc(x, y, brush.widthMm / 2, 0, 2 * Math.PI);
    pen.lineWidth = 1.5 / this.#window!.scale;
    pen.strokeStyle = BOARD.mark;
    pen.stroke();
  }
}

/** Paints what has changed: strokes that were added at the end over what is there, else all that lies in the box of what came and went. */
function repaint(pen: CanvasRenderingContext2D, { from, to, pxPerMm }: { from: readonly Stroke[]; to: readonly Stroke[]; pxPerMm: number }): void {
  if (from === to) return;
  if (from.length <= to.length && from.every(({ points }, i) => points === to[i].points)) {
    paintStrokes(pen, to.slice(from.length), pxPerMm);
    return;
  }
  const [before, after] = [from, to].map((strokes) => new Set(strokes.map(({ points }) => points)));
  const boxes = [...from.filter(({ points }) => !after.has(points)), ...to.filter(({ points }) => !before.has(points))].map(markBounds);
  const box = boxes.reduce((all, one) => ({ minX: Math.min(all.minX, one.minX), minY: Math.min(all.minY, one.minY), maxX: Math.max(all.maxX, one.maxX), maxY: Math.max(all.maxY, one.maxY) }), { minX: Infinity, minY: Infinity, maxX: -Infinity, maxY: -Infinity });
  const transform = pen.getTransform();
  const corners = [[box.minX, box.minY], [box.maxX, box.maxY]].map(([x, y]) => transform.transformPoint({ x, y }));
  // Whole px, one more on every side: no seam.
  const [left, right] = [Math.floor(Math.min(...corners.map(({ x }) => x))) - 1, Math.ceil(Math.max(...corners.map(({ x }) => x))) + 1];
  const [top, bottom] = [Math.floor(Math.min(...corners.map(({ y }) => y))) - 1, Math.ceil(Math.max(...corners.map(({ y }) => y))) + 1];
  const outMm = 2 / pxPerMm;
  pen.save();
  pen.resetTransform();
  pen.beginPath();
  pen.rect(left, top, right - left, bottom - top);
  pen.clip();
  pen.clearRect(left, top, right - left, bottom - top);
  pen.setTransform(transform);
  paintStrokes(pen, to.filter((stroke) => {
    const one = markBounds(stroke);
    return one.minX <= box.maxX + outMm && one.maxX >= box.minX - outMm && one.minY <= box.maxY + outMm && one.maxY >= box.minY - outMm;
  }), pxPerMm);
  pen.restore();
}
