/**
 * What the picture is made of while it lives: solids, creatures and sheets with their places, the drag in hand.
 * React builds the parts and gives the props; everything that moves between two props moves here, then asks for
 * one frame. Nothing here runs by itself: an idle page draws nothing.
 */

import type { PerspectiveCamera } from 'three';
import { waterLevel } from './drawing.ts';
import { beginDrag, type Handle } from './drag.ts';
import { positionOf, type Frame, type Vec3 } from './eye.ts';
import { carryOf, formOf, type Carry } from './form.ts';
import { Look } from './look.ts';
import { handleMarks, pourNumbers, sheetNames, type HandleMarks } from './marks.ts';
import { showMarks, type Marks } from './marks-svg.ts';
import { beginGrip, gripMarks, moldGrips, type GripMark } from './mold-grips.ts';
import type { MoldModel } from './mold-model.ts';
import { keptFrom, moldBounds, outlineOf, type Outline } from './outline.ts';
import { artInMold, type PaintedSheet } from './painted-sheet.ts';
import { Motion } from './motion.ts';
import type { Pace } from './pace.ts';
import { pickAlong, type Picked } from './picking.ts';
import { placeIn, placeKey } from './places.ts';
import type { DragPhase, MoldSize, MoldViewProps, Place, ViewChange, ViewGuide } from './props.ts';
import type { Ray } from './ray.ts';
import { hasMoved, isSetBy, sameMold, startOf } from './scene-changes.ts';
import type { Body } from './solid-model.ts';
import { waterUniforms, type WaterUniforms } from './materials.ts';

/** A drag in hand. */
export interface Held {
  readonly handle: Handle | MoldSize;
  move(ray: Ray): void;
  finish(phase: 'end' | 'cancel'): void;
}

interface Part {
  dispose(): void;
}

/** Half of the 44 px that a finger needs. */
const HANDLE_REACH = 22;
const A_POINT = formOf(new Float32Array(3));
/** Its planes hold a creature between floor and top, not its own form. */
const ANYWHERE_UP = { floorMm: -Infinity, topMm: Infinity };
/** Pictures narrower than this are drawn with finer pens, down to this share. */
const FULL_PEN_PX = 520;
const FINEST_PEN = 0.6;

export class Stage {
  readonly water: WaterUniforms = waterUniforms();
  /** Solids, and creatures as they are imagined. */
  readonly #bodies = new Map<string, Body>();
  readonly #sheets = new Map<string, PaintedSheet>();
  #mold: MoldModel | null = null;
  #props: MoldViewProps | null = null;
  #outline: Outline | null = null;
  #svg: SVGSVGElement | null = null;
  #live: { id: string; change: ViewChange; before: string } | null = null;
  #held: Held | null = null;
  /** A wall or the rim is in hand. */
  #sizing = false;
  #pace: Pace | null = null;
  #software = false;
  /** Heavy forms are drawn lighter until everything has rested for a moment. */
  readonly #motion = new Motion(() => this.#held !== null || this.#props?.inHand === true, (moving) => {
    for (const body of this.#bodies.values()) body.setInMotion(moving);
    this.redraw();
  });
  readonly look = new Look(() => this.#motion.stir(), () => this.redraw());
  /** Parts no longer shown, since the last frame and since the one before. */
  readonly #retired = new Set<Part>();
  #leaving: readonly Part[] = [];

  /** Where frames are drawn from now on. */
  connect(to: { camera: PerspectiveCamera; svg: SVGSVGElement; pace: Pace; software: boolean }): void {
    this.#svg = to.svg;
    this.#pace = to.pace;
    this.#software = to.software;
    this.#motion.drawnInSoftware(to.software);
    this.look.connect(to.camera);
  }

  disconnect(): void {
    for (const part of [...this.#retired, ...this.#leaving]) part.dispose();
    this.#retired.clear();
    this.#leaving = [];
    this.look.disconnect();
    this.#motion.stop();
    this.#svg = null;
    this.#pace = null;
  }

  /** Pictures are computed without a graphics card. */
  get software(): boolean {
    return this.#software;
  }

  /** Does something to the picture as a whole that must wait for its drawing: once nothing moves and all is drawn. */
  whenStill(act: () => void): void {
    this.#motion.whenStill(() => this.#pace?.whenDone(act));
  }

  /** Everything whole at once, for a picture or a model of it. */
  restNow(): void {
    this.#motion.restNow();
  }

  get props(): MoldViewProps | null {
    return this.#props;
  }

  get held(): Held | null {
    return this.#held;
  }

  /** New props: the eye follows a new word, a new mold is framed anew, everything goes to its place. */
  setProps(props: MoldViewProps): void {
    const before = this.#props;
    this.#props = props;
    if (!before || !sameMold(before.scene.mold, props.scene.mold)) {
      this.#outline = outlineOf(props.scene.mold);
      this.look.setMold(moldBounds(this.#outline), !this.#sizing); // a wall in hand stays under the finger: the eye follows when it is let go
    }
    if (this.#live && (!this.#held || placeKey(props, this.#live.id) !== this.#live.before)) this.#live = null; // the parent has answered
    this.look.setWord(props.seenFrom, props.reducedMotion);
    if (before && (before.inHand !== props.inHand || (before.scene !== props.scene && hasMoved(before.scene, props.scene)))) this.#motion.stir(); // by the gauge or a key
    this.#setWater();
    this.placeAll();
  }

  setSize(width: number, height: number): void {
    const narrow = width < 520;
    const margin = narrow ? { left: 10, right: 30, top: 34, bottom: 14 } : { left: 24, right: 46, top: 52, bottom: 28 };
    const frame: Frame = { width: Math.max(1, width), height: Math.max(1, height), margin };
    this.water.uSize.value.set(frame.width, frame.height);
    this.water.uWeight.value = Math.min(1, Math.max(FINEST_PEN, frame.width / FULL_PEN_PX));
    this.look.setFrame(frame);
  }

  setPx(devicePx: number): void {
    this.water.uPx.value = devicePx;
  }

  // Parts that come and go

  setMold(mold: MoldModel | null): void {
    this.#mold = mold;
    this.redraw();
  }

  addBody(body: Body): () => void {
    this.#bodies.set(body.id, body);
    body.setInMotion(this.#motion.moving);
    this.placeAll();
    return () => {
      if (this.#bodies.get(body.id) === body) this.#bodies.delete(body.id);
      this.redraw();
    };
  }

  addSheet(sheet: PaintedSheet): () => void {
    this.#sheets.set(sheet.plane.id, sheet);
    this.placeAll();
    return () => {
      if (this.#sheets.get(sheet.plane.id) === sheet) this.#sheets.delete(sheet.plane.id);
      this.redraw();
    };
  }

  /** A part is in use (again). */
  keep(part: Part): void {
    this.#retired.delete(part);
    this.#leaving = this.#leaving.filter((leaving) => leaving !== part);
  }

  /** A part is out of use: given up once what replaces it has been drawn, so that shaders they share live on. */
  retire(part: Part): void {
    this.#retired.add(part);
    this.redraw();
  }

  redraw(): void {
    this.#pace?.ask();
  }

  /** One frame: walls for this eye, marks over it. */
  drawFrame(render: () => void): void {
    this.#readyFrame();
    render();
    this.#pace?.drawn();
  }

  #readyFrame(): void {
    const { eye } = this.look;
    if (!eye || !this.look.frame || !this.#props || !this.#outline) return;
    for (const part of this.#leaving) part.dispose();
    this.#leaving = [...this.#retired];
    this.#retired.clear();
    this.#mold?.lookFrom(positionOf(eye));
    for (const sheet of this.#sheets.values()) sheet.seenFrom(eye.elevation < 0);
    if (this.#svg) showMarks(this.#svg, this.marks(), this.#props.colors);
  }

  marks(): Marks {
    const [eye, frame, props, outline] = [this.look.eye, this.look.frame, this.#props, this.#outline];
    if (!eye || !frame || !props || !outline) return { numbers: [], names: [], handles: null, grips: [], held: null, size: 1 };
    const kept = keptFrom(outline, positionOf(eye));
    const sheets = [...this.#sheets.values()].filter((sheet) => sheet.isBare && sheet.object.visible).map(({ plane, object }) => ({ name: plane.name, atMm: object.position.z }));
    return {
      numbers: pourNumbers({ outline, kept, pours: props.pours, poured: props.poured, eye, frame }),
      names: frame.width < 320 ? [] : sheetNames({ outline, sheets, eye, frame }),
      handles: this.#handles(), grips: this.#grips(), held: this.#held?.handle ?? null, size: frame.width < FULL_PEN_PX ? 0.8 : 1,
    };
  }

  // Pointing

  /** The float or bead within a finger's reach of a px of the picture. */
  handleAt(px: number, py: number): 'float' | 'bead' | null {
    const marks = this.#handles();
    const away = (at: readonly [number, number] | undefined): number => (at ? Math.hypot(at[0] - px, at[1] - py) : Infinity);
    const [float, bead] = [away(marks?.float?.at), away(marks?.ring?.bead)];
    if (Math.min(float, bead) > HANDLE_REACH) return null;
    return float <= bead ? 'float' : 'bead';
  }

  /** The mold's grip within a finger's reach of a px of the picture. */
  gripAt(px: number, py: number): GripMark | null {
    const away = ({ at }: GripMark): number => Math.hypot(at[0] - px, at[1] - py);
    const nearest = this.#grips().sort((a, b) => away(a) - away(b))[0];
    return nearest && away(nearest) <= HANDLE_REACH ? nearest : null;
  }

  pick(ray: Ray): Picked | null {
    return this.#props && pickAlong(ray, this.#props.scene, { bodies: this.#bodies, sheets: this.#sheets });
  }

  get chosen(): string | null {
    return this.#props?.selected.at(-1) ?? null;
  }

  /** Takes a thing by its body or the chosen one by a handle; null when it is locked or not there. */
  grab(handle: Handle, id: string, at: { ray: Ray; point?: Vec3 }): Held | null {
    const props = this.#props;
    const place = this.#placeOf(id);
    if (!props || !place || !this.#outline || props.locked.includes(id)) return null;
    const bounds = moldBounds(this.#outline);
    const faceDown = props.scene.cast === 'face-down' && this.#sheets.has(id);
    const painted = props.scene.creatures.some((creature) => creature.id === id);
    const change = beginDrag({
      id, handle, place, ray: at.ray, grabbed: at.point ?? [place.xMm, place.yMm, place.baseMm],
      reach: { xMm: bounds.max[0], yMm: bounds.max[1], ...(painted ? ANYWHERE_UP : { floorMm: 0, topMm: props.scene.mold.heightMm }) },
      supportHeightAt: props.supportHeightAt && !painted ? (x, y) => props.supportHeightAt?.(id, x, y) ?? place.baseMm : undefined,
    });
    const told = (seen: ViewChange): ViewChange => (faceDown && seen.turnZDeg !== undefined ? { ...seen, turnZDeg: seen.turnZDeg === 0 ? 0 : -seen.turnZDeg } : seen);
    let last: ViewChange | null = null;
    const tell = (seen: ViewChange, phase: DragPhase): void => this.#props?.onDrag(told(seen), phase);
    this.#held = {
      handle,
      move: (ray) => {
        const next = change(ray);
        if (!next) return;
        last = next;
        this.#motion.stir();
        // How far a creature's planes let it be raised is the parent's word alone.
        if (!painted || handle !== 'float') this.#live = { id, change: next, before: placeKey(this.#props, id) };
        this.placeAll();
        tell(next, 'move');
      },
      finish: (phase) => {
        this.#held = null;
        this.#motion.stir();
        if (last) {
          if (phase === 'cancel') this.#live = null;
          tell(phase === 'end' ? last : startOf(last, place), phase);
        }
        this.placeAll();
      },
    };
    this.redraw();
    return this.#held;
  }

  /** Takes the mold by a grip; null when that can't be dragged now. */
  grabGrip(size: MoldSize, ray: Ray): Held | null {
    const [props, eye] = [this.#props, this.look.eye];
    const grip = props && eye && moldGrips(props.scene.mold, eye).find((each) => each.size === size);
    if (!grip) return null;
    const change = beginGrip(grip, ray);
    let last: number | null = null;
    this.#sizing = true;
    this.#held = {
      handle: size,
      move: (now) => {
        const next = change(now);
        if (next === null) return;
        last = next;
        this.#props?.sizing?.onDrag(size, next, 'move');
      },
      finish: (phase) => {
        this.#held = null;
        this.#sizing = false;
        if (last !== null) this.#props?.sizing?.onDrag(size, phase === 'end' ? last : grip.sizeMm, phase);
        this.look.fit();
      },
    };
    this.redraw();
    return this.#held;
  }

  #grips(): GripMark[] {
    const [eye, frame, props] = [this.look.eye, this.look.frame, this.#props];
    if (!eye || !frame || !props?.sizing || props.selected.length > 0) return [];
    return gripMarks(moldGrips(props.scene.mold, eye), { words: props.sizing.words, held: this.#held?.handle ?? null }, eye, frame);
  }

  #handles(): HandleMarks | null {
    const [eye, frame, props, outline, id] = [this.look.eye, this.look.frame, this.#props, this.#outline, this.chosen];
    if (!eye || !frame || !props || !outline || id === null || props.locked.includes(id)) return null;
    const place = this.#placeOf(id);
    const body = this.#bodies.get(id);
    const sheet = this.#sheets.get(id);
    if (!place || !(body?.group.visible || sheet?.object.visible)) return null;
    const { min, max } = moldBounds(outline);
    const { scene } = props;
    const art = sheet?.plane.art;
    const thing = {
      place, heightMm: body?.heightMm ?? 0, turns: !sheet || art !== undefined,
      reachMm: body?.reachMm ?? Math.hypot(art?.widthMm ?? 0, art?.heightMm ?? 0) / 2,
      footprint: body && !scene.placements.some((p) => p.id === id && p.kind === 'bed') ? body.footprintNow() : [],
    };
    return handleMarks(thing, { heightWords: this.#props?.heightWords, fillMm: scene.fillMm, levelMm: this.#level(), faceDown: scene.cast === 'face-down', largestRingMm: 0.55 * Math.min(max[0] - min[0], max[1] - min[1]), eye, frame });
  }

  /** Does something while nothing carries the accent. */
  withNothingChosen(act: () => void): void {
    for (const body of this.#bodies.values()) body.setChosen(false);
    act();
    this.placeAll();
  }

  // Places

  #placeOf(id: string): Place | null {
    return this.#props && placeIn(this.#props, id, { live: this.#live?.id === id ? this.#live.change : undefined, sheet: this.#sheets.get(id)?.plane });
  }

  /** What brings a guide to where its creature is now; where no form is shown it turns about its middle. Null: it is gone. */
  #carry({ creature, drawnAt }: ViewGuide): Carry | null {
    const place = this.#placeOf(creature);
    return place && (this.#bodies.get(creature)?.carryFrom?.(drawnAt) ?? carryOf(A_POINT, 0, drawnAt, place));
  }

  #level(): number {
    return this.#props ? waterLevel(this.#props.pours, this.#props.poured, this.#props.scene.fillMm) : 0;
  }

  /** Everything to its place. */
  placeAll(): void {
    const props = this.#props;
    if (!props) return;
    const level = this.#level();
    const stepping = props.poured !== undefined;
    for (const placement of props.scene.placements) {
      if (placement.kind === 'plane') continue;
      const solid = this.#bodies.get(placement.id);
      const place = this.#placeOf(placement.id);
      if (!solid || !place) continue;
      solid.setPlace(place);
      solid.setChosen(props.selected.includes(placement.id));
      solid.group.visible = !stepping || isSetBy(placement, place.baseMm, level);
    }
    for (const { id } of props.scene.creatures) {
      const creature = this.#bodies.get(id);
      const place = this.#placeOf(id);
      if (!creature || !place) continue;
      creature.setPlace(place);
      creature.setChosen(props.selected.includes(id));
    }
    const heights = [...this.#sheets.values()].map((sheet) => this.#placeOf(sheet.plane.id)?.baseMm ?? 0).sort((a, b) => a - b);
    for (const sheet of this.#sheets.values()) {
      const place = this.#placeOf(sheet.plane.id);
      if (!place) continue;
      const own = props.planes.find((plane) => plane.id === sheet.plane.id) ?? sheet.plane;
      const mirror = own.art ? artInMold(own.art, props.scene.cast).mirror : false;
      sheet.setPlace(place.baseMm, heights.indexOf(place.baseMm), { xMm: place.xMm, yMm: place.yMm, turnDeg: place.turnZDeg, mirror }, (guide) => this.#carry(guide));
      sheet.setSeen(!stepping || place.baseMm < level || place.baseMm === 0);
    }
    this.redraw();
  }

  #setWater(): void {
    const { scene } = this.#props!;
    const { mold } = scene;
    this.water.uLevel.value = this.#level();
    const round = mold.shape === 'round' ? mold.diameterMm / 2 : mold.cornerRadiusMm;
    const [x, y] = mold.shape === 'round' ? [0, 0] : [mold.lengthMm / 2, mold.widthMm / 2];
    this.water.uInside.value = { x, y, z: round, w: Math.tan((mold.draftDeg * Math.PI) / 180) };
  }
}
