/**
 * Random scenes that a person could have drawn: valid files, solids apart from each other and inside the mold.
 * Numbers come from Mulberry32 (32 bits of state, full period 2³²; public domain, from memory), seeded per scene.
 * Each solid gets its own cell of a grid on the mold's floor, so nothing overlaps; a bed lies under all of them.
 */

import { minutesOf, textOf } from './check-time.ts';
import type { FillJson, FormulaJson, MoldJson, PlacementJson, SceneJson, ShapeJson } from './check-types.ts';

/** A generator of numbers in [0, 1). */
export function mulberry32(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

class Dice {
  readonly #next: () => number;
  constructor(seed: number) {
    this.#next = mulberry32(Math.imul(seed + 1, 0x9e3779b1));
  }
  chance(share: number): boolean {
    return this.#next() < share;
  }
  /** A number between two, on a grid of `step`. */
  within(low: number, high: number, step: number): number {
    const steps = Math.floor((high - low) / step);
    return tidy(low + Math.floor(this.#next() * (steps + 1)) * step);
  }
  whole(low: number, high: number): number {
    return this.within(low, high, 1);
  }
  pick<T>(from: readonly T[]): T {
    return from[Math.floor(this.#next() * from.length)];
  }
}

/** Steps away from the noise of sums: as a person types them. */
const tidy = (value: number) => Number(value.toFixed(4));

/** Stops nearer than this and not meant to be one are not drawn, mm. */
const APART_MM = 0.4;
/** Heights that merge with their neighbor, and stay clear of the 0.05 mm limit itself, mm. */
const NEAR_MM = [-0.04, -0.03, 0.02, 0.03, 0.045];

interface Hours {
  readonly hours: readonly { days: string; from: string; to: string }[];
  readonly longestH: number;
}

const BENCHES: readonly Hours[] = [
  { hours: [{ days: 'Mon-Sun', from: '08:00', to: '20:00' }], longestH: 12 },
  { hours: [{ days: 'Mon-Fri', from: '08:30', to: '18:15' }], longestH: 9.75 },
  { hours: [{ days: 'Sat-Mon', from: '10:00', to: '16:00' }], longestH: 6 },
  { hours: [{ days: 'Fri-Tue', from: '07:00', to: '11:00' }, { days: 'Wed', from: '18:00', to: '21:00' }], longestH: 4 },
  { hours: [{ days: 'Mon,Thu', from: '09:00', to: '13:00' }], longestH: 4 },
  { hours: [{ days: 'Tue,Wed,Sat', from: '18:00', to: '20:00' }], longestH: 2 },
  { hours: [{ days: 'Mon-Sun', from: '20:00', to: '04:00' }], longestH: 8 },
  { hours: [{ days: 'Sun', from: '21:00', to: '05:30' }, { days: 'Thu', from: '12:00', to: '14:00' }], longestH: 8.5 },
  { hours: [{ days: 'Mon-Sun', from: '08:00', to: '12:00' }, { days: 'Mon-Sun', from: '12:00', to: '15:00' }], longestH: 7 },
  { hours: [{ days: 'Mon-Fri', from: '22:00', to: '06:00' }, { days: 'Tue-Sat', from: '06:00', to: '08:00' }], longestH: 10 },
  { hours: [{ days: 'Mon-Sun', from: '06:00', to: '10:00' }, { days: 'Mon-Sun', from: '09:00', to: '11:00' }, { days: 'Mon-Sun', from: '17:00', to: '22:00' }], longestH: 5 },
  { hours: [{ days: 'Mon-Sun', from: '00:00', to: '00:00' }], longestH: 1000 },
  { hours: [{ days: 'Sat', from: '10:00', to: '10:00' }], longestH: 24 },
  { hours: [{ days: 'Wed', from: '08:00', to: '18:00' }], longestH: 10 },
  { hours: [{ days: 'Mon-Sun', from: '19:00', to: '20:00' }], longestH: 1 },
];

const STARTS = [
  '2026-05-04T08:00', '2026-05-04T20:00', '2026-12-30T09:20', '2027-02-26T11:11', '2028-02-27T08:00', '2028-02-29T23:59', '2000-02-28T00:00',
  '2096-02-27T15:30', '2026-04-30T07:59', '2026-10-31T12:00', '2027-12-31T18:45', '2026-06-07T05:30',
];

const MATERIALS = ['pla', 'petg', 'polymer-clay', 'air-dry-clay', 'wax', 'stone', 'shell', 'wood', 'cork', 'wax', 'steel', 'plant'];

const SLEEPS: readonly (readonly { days: string; from: string; to: string }[])[] = [
  [{ days: 'Mon-Sun', from: '22:00', to: '07:00' }],
  [{ days: 'Mon-Thu', from: '23:15', to: '06:00' }, { days: 'Fri-Sun', from: '00:30', to: '09:45' }],
  [{ days: 'Fri,Sat', from: '21:00', to: '10:00' }],
  [{ days: 'Mon-Sun', from: '13:00', to: '14:30' }],
  [{ days: 'Sun-Thu', from: '21:30', to: '06:15' }, { days: 'Wed', from: '12:00', to: '13:00' }],
  [{ days: 'Sat', from: '00:00', to: '00:00' }],
  [{ days: 'Tue', from: '04:00', to: '03:00' }],
];

/** The same scene where someone sleeps in the room. */
export function withSleep(scene: SceneJson, seed: number): SceneJson {
  return { ...scene, room: { ...scene.room, sleep: new Dice(seed).pick(SLEEPS) } };
}

/** A valid scene file; the same for the same seed. */
export function randomScene(seed: number): SceneJson {
  const dice = new Dice(seed);
  const draftDeg = dice.chance(0.5) ? 0 : dice.within(0.5, 15, 0.5);
  const bench = dice.chance(0.2) ? undefined : randomBench(dice);
  const formulas = Array.from({ length: dice.whole(1, 4) }, (_, i) => randomFormula(dice, `f${i + 1}`, bench?.holdUpMl ?? 8));
  const floor = randomFloor(dice);
  const bed = randomBed(dice, floor, draftDeg);
  const fills = randomFills(dice, formulas, bed?.openMm ?? 0);
  const fillMm = fills[fills.length - 1].toMm;
  const spare = dice.chance(0.05) ? dice.within(-3, 0, 0.5) : dice.within(0.5, 25, 0.5);
  const mold: MoldJson = {
    ...floor,
    heightMm: Math.max(1, tidy(fillMm + spare)),
    ...(draftDeg > 0 ? { draftDeg } : {}),
    ...(dice.chance(0.7) ? { material: dice.pick(['silicone', 'hdpe', 'acrylic', 'glass', 'wood', 'foam']) } : {}),
    ...(dice.chance(0.25) ? { keep: true } : {}),
  };
  const heights = new Heights(dice, [bed?.openMm ?? 0, ...fills.map((fill) => fill.toMm)]);
  const planes = randomPlanes(dice, heights, bed?.openMm ?? 0, fillMm, bed !== null);
  const figures = randomFigures(dice, heights, mold, bed?.topMm ?? 0, fillMm);
  const start = bench?.start ?? '2000-01-03T08:00';
  return {
    format: 'stillpool.scene',
    version: 1,
    name: `random ${seed}`,
    mold,
    ...(dice.chance(0.2) ? { cast: 'face-down' } : {}),
    fillMm,
    fills,
    placements: [...planes, ...(bed ? [bed.placement] : []), ...figures],
    formulas,
    heat: { model: 'label' },
    room: randomRoom(dice, start),
    ...(bench ? { bench } : {}),
    ...(dice.chance(0.1) ? { remark: 'kept' } : {}),
  } as SceneJson;
}

type Floor = Pick<MoldJson, 'shape' | 'lengthMm' | 'widthMm' | 'diameterMm' | 'cornerRadiusMm'>;

function randomFloor(dice: Dice): Floor {
  if (dice.chance(0.4)) return { shape: 'round', diameterMm: dice.within(60, 220, 0.1) };
  const lengthMm = dice.within(60, 250, 0.1);
  const widthMm = dice.within(50, 200, 0.1);
  return { shape: 'box', lengthMm, widthMm, ...(dice.chance(0.4) ? { cornerRadiusMm: dice.within(1, 20, 0.5) } : {}) };
}

interface RandomBed {
  readonly placement: PlacementJson;
  readonly topMm: number;
  /** Where the mold's section first opens. */
  readonly openMm: number;
}

/** A flat bed, a gravel bed, an island, or a slope on a plain floor. Walls seldom cut one: that takes a planner half a second. */
function randomBed(dice: Dice, floor: Floor, draftDeg: number): RandomBed | null {
  if (!dice.chance(0.35)) return null;
  const heightMm = dice.within(3, 20, 0.5);
  const length = floor.lengthMm ?? floor.diameterMm!;
  const width = floor.widthMm ?? floor.diameterMm!;
  const mass = dice.chance(0.5) ? { massG: dice.within(50, 500, 1) } : {};
  const common = { id: 'bed', kind: 'bed' as const, name: 'Bed', ...mass, ...(dice.chance(0.5) ? { baseMm: 0 } : {}) };
  const kind = dice.pick(['flat', 'flat', 'gravel', 'island', 'slope']);
  if (kind === 'slope' && floor.shape === 'box' && !floor.cornerRadiusMm) {
    return { placement: { ...common, shape: { type: 'wedge', lengthMm: length, widthMm: width, heightMm } }, topMm: heightMm, openMm: 0 };
  }
  const clipped = dice.chance(0.04);
  const straight = draftDeg === 0 && !floor.cornerRadiusMm && (floor.shape === 'box' || dice.chance(0.3));
  if (clipped || ((kind === 'flat' || kind === 'gravel') && straight)) {
    const wider = clipped ? tidy(2 * heightMm * Math.tan((draftDeg * Math.PI) / 180) + 1) : 0;
    const round = floor.shape === 'round' && !clipped;
    const shape: ShapeJson = round ? { type: 'cylinder', radiusMm: length / 2, heightMm } : { type: 'box', lengthMm: tidy(length + wider), widthMm: tidy(width + wider), heightMm };
    const voids = kind === 'gravel' ? { voidFraction: dice.within(0.2, 0.5, 0.05) } : {};
    return { placement: { ...common, shape, ...voids }, topMm: heightMm, openMm: kind === 'gravel' ? 0 : heightMm };
  }
  const shape: ShapeJson = { type: 'box', lengthMm: tidy(length * 0.6), widthMm: tidy(width * 0.6), heightMm };
  return { placement: { ...common, shape, ...(dice.chance(0.3) ? { voidFraction: 0.4 } : {}) }, topMm: heightMm, openMm: 0 };
}

/** From all label values to hardly more than the ratio and the depth; a one-part accent now and then. */
function randomFormula(dice: Dice, id: string, holdUpMl: number): FormulaJson {
  if (dice.chance(0.04) && holdUpMl < 6) return { id, family: 'uv', maxDepthMm: 2, ...(dice.chance(0.5) ? { maxBatchG: 200, bondClosesH: 30 } : { maxBatchG: 100 }) };
  const maxDepthMm = dice.chance(0.3) ? dice.within(5, 12, 0.5) : dice.within(10, 50, 0.1);
  const given: Record<string, unknown> = { id, maxDepthMm, ...randomRatio(dice), minDepthMm: dice.within(1, Math.min(6, maxDepthMm / 2), 0.1) };
  if (dice.chance(0.6)) given.family = dice.pick(['general', 'low-viscosity', 'coating', 'deep-pour']);
  const opens = dice.within(3, 20, 0.5);
  const hardens = opens + dice.within(4, 40, 0.25);
  const label: Record<string, number> = {
    densityAGPerMl: dice.within(1.1, 1.2, 0.005),
    densityBGPerMl: dice.within(0.93, 1.05, 0.005),
    maxBatchG: Math.max(dice.within(80, 3000, 10), 3 * 1.2 * holdUpMl),
    atC: dice.pick([20, 22, 23, 25]),
    potLifeMin: dice.within(15, 400, 1),
    potLifeMassG: dice.pick([100, 150, 340]),
    bondOpensH: opens,
    bondClosesH: opens + dice.within(1, 24, 0.1),
    scuffableH: hardens,
    paintableH: hardens + dice.within(-3, 12, 0.25),
    demoldH: hardens + dice.within(1, 60, 1),
    fullCureH: dice.whole(72, 300),
    viscosityMPaS: dice.whole(200, 2000),
    refractiveIndex: dice.within(1.5, 1.57, 0.005),
    shrinkageFraction: dice.chance(0.5) ? 0 : dice.within(0.005, 0.05, 0.001),
  };
  const keepShare = dice.pick([1, 1, 0.6, 0.2]);
  for (const [key, value] of Object.entries(label)) if (dice.chance(keepShare)) given[key] = value;
  return given as unknown as FormulaJson;
}

function randomRatio(dice: Dice): Partial<FormulaJson> {
  const byVolume = dice.pick([[1, 1], [2, 1], [3, 1], [100, 45], [4, 3]]);
  const byMass = [100, tidy((byVolume[1] / byVolume[0]) * dice.within(0.82, 0.9, 0.001) * 100)];
  const way = dice.whole(0, 9);
  if (way < 4) return { ratioByVolume: byVolume };
  if (way < 7) return { ratioByMass: byMass };
  if (way < 8) return { ratioByMass: dice.pick([[2, 1], [10, 3], [1, 1], [11, 4], [2.5, 1]]) };
  return { ratioByVolume: byVolume, ratioByMass: dice.chance(0.7) ? byMass : [100, tidy(byMass[1] * dice.within(0.95, 1.1, 0.01))] };
}

function randomFills(dice: Dice, formulas: readonly FormulaJson[], openMm: number): FillJson[] {
  const fills: FillJson[] = [];
  let at = openMm;
  for (let i = dice.whole(1, 4); i > 0; i--) {
    const formula = dice.chance(0.08) ? dice.pick(['general', 'low-viscosity', 'coating', 'deep-pour']) : dice.pick(formulas).id;
    const accent = formulas.some((f) => f.id === formula && f.family === 'uv');
    at = tidy(at + (accent ? dice.within(0.5, 4, 0.1) : dice.within(dice.chance(0.15) ? 1 : 6, 34, dice.pick([0.5, 0.1, 0.01]))));
    fills.push({ toMm: at, formula, ...(dice.chance(0.5) ? { tint: { color: '#2f6f73', percent: dice.within(0.01, 1.5, 0.01) } } : {}) });
  }
  return fills;
}

/** Heights where pouring stops, kept apart unless two are meant to be one. */
class Heights {
  readonly #dice: Dice;
  readonly #anchors: number[];
  /** Anchors that already have a near neighbor: a second one might form a chain. */
  readonly #crowded = new Set<number>();

  constructor(dice: Dice, anchors: readonly number[]) {
    this.#dice = dice;
    this.#anchors = [...anchors];
  }

  /** A height between two others, or null where there is no room. */
  fresh(lowMm: number, highMm: number): number | null {
    for (let tries = 0; tries < 8 && lowMm < highMm; tries++) {
      const z = this.#dice.within(lowMm, highMm, this.#dice.pick([0.5, 0.01]));
      const apart = this.#dice.chance(0.15) ? APART_MM : 4;
      if (this.#anchors.some((a) => Math.abs(a - z) < apart)) continue;
      this.#anchors.push(z);
      return z;
    }
    return null;
  }

  /** A stop that is there already between two heights: exactly, or so near that it is the same. */
  shared(lowMm: number, highMm: number): number | null {
    const open = this.#anchors.filter((a) => a >= lowMm && a <= highMm);
    if (open.length === 0) return null;
    const anchor = this.#dice.pick(open);
    if (this.#crowded.has(anchor) || this.#dice.chance(0.5)) return anchor;
    this.#crowded.add(anchor);
    return tidy(anchor + this.#dice.pick(NEAR_MM));
  }
}

function randomPlanes(dice: Dice, heights: Heights, low: number, fillMm: number, hasBed: boolean): PlacementJson[] {
  const planes: PlacementJson[] = [];
  const add = (atMm: number | null) => {
    if (atMm === null) return;
    const hours = dice.chance(0.7) ? { paintH: dice.within(0.5, dice.chance(0.1) ? 14 : 4, 0.25), dryH: dice.within(2, 24, 0.5) } : {};
    planes.push({ id: `p${planes.length + 1}`, kind: 'plane', name: `Plane ${planes.length + 1}`, atMm, ...hours });
  };
  for (let i = dice.pick([0, 0, 1, 1, 2, 3, 4]); i > 0; i--) {
    add(dice.chance(0.3) ? heights.shared(low + 3, fillMm - 1) : heights.fresh(low + 4, fillMm - 3));
  }
  if (!hasBed && dice.chance(0.12)) add(dice.pick([0, 0, 0.03]));
  if (!hasBed && planes.some((p) => p.atMm! < 0.05) && dice.chance(0.3)) add(0);
  if (dice.chance(0.1)) add(tidy(fillMm + dice.pick([0, 0, 0.03, -0.03])));
  return planes;
}

interface Cell {
  readonly xMm: number;
  readonly yMm: number;
  /** A solid in it keeps within this distance of its center. */
  readonly reachMm: number;
}

function cellsOf(dice: Dice, mold: MoldJson): Cell[] {
  const margin = (mold.cornerRadiusMm ?? 0) * 0.3 + 1;
  const half = (size: number) => size / 2 - margin;
  const [hx, hy] = mold.shape === 'round' ? [half(mold.diameterMm! / Math.SQRT2), half(mold.diameterMm! / Math.SQRT2)] : [half(mold.lengthMm!), half(mold.widthMm!)];
  const size = Math.min(dice.within(22, 50, 1), 2 * hx, 2 * hy);
  const cells: Cell[] = [];
  for (let i = 0; i < Math.floor((2 * hx) / size); i++) {
    for (let j = 0; j < Math.floor((2 * hy) / size); j++) {
      cells.push({ xMm: tidy(-hx + (i + 0.5) * size), yMm: tidy(-hy + (j + 0.5) * size), reachMm: size / 2 - 1 });
    }
  }
  return cells;
}

function randomFigures(dice: Dice, heights: Heights, mold: MoldJson, floorMm: number, fillMm: number): PlacementJson[] {
  const figures: PlacementJson[] = [];
  const cells = cellsOf(dice, mold);
  for (let i = dice.pick([0, 1, 1, 2, 3, 4, 5]); i > 0 && cells.length > 0; i--) {
    const cell = cells.splice(dice.whole(0, cells.length - 1), 1)[0];
    const id = `s${figures.length + 1}`;
    const hold = dice.pick(['rests', 'rests', 'rests', 'stands', 'stands', 'fixed', 'rod', 'thread']);
    const baseMm = baseFor(dice, heights, hold, floorMm, fillMm);
    if (baseMm === null || fillMm - baseMm < 2) continue;
    const pedestal = hold === 'stands' && dice.chance(0.3) && fillMm - baseMm > 12;
    if (pedestal) {
      const heightMm = dice.within(3, 8, 0.5);
      figures.push({ id: `${id}a`, kind: 'figure', name: 'Pedestal', hold: 'fixed', massG: 10, ...cellCenter(cell), baseMm, shape: { type: 'cylinder', radiusMm: tidy(cell.reachMm * 0.8), heightMm } });
      figures.push(randomFigure(dice, id, hold, cell, tidy(baseMm + heightMm), fillMm));
    } else figures.push(randomFigure(dice, id, hold, cell, baseMm, fillMm));
  }
  return figures;
}

const cellCenter = (cell: Cell) => ({ xMm: cell.xMm, yMm: cell.yMm });

function baseFor(dice: Dice, heights: Heights, hold: string, floorMm: number, fillMm: number): number | null {
  if (hold === 'stands') return floorMm;
  if (hold === 'rests') return dice.chance(0.5) ? heights.shared(floorMm + 2, fillMm - 3) : heights.fresh(floorMm + 4, fillMm - 5);
  return dice.chance(0.3) ? floorMm : dice.within(floorMm, Math.max(floorMm, fillMm - 4), 0.5);
}

function randomFigure(dice: Dice, id: string, hold: string, cell: Cell, baseMm: number, fillMm: number): PlacementJson {
  const scale = dice.pick([1, 1, 1, 0.5, 2, 1.3]);
  const room = (fillMm - baseMm) * (dice.chance(0.08) ? 1.4 : 0.97);
  const reach = Math.min(cell.reachMm, 40);
  const { shape, turn, volumeMm3 } = randomShape(dice, reach / scale, Math.max(1, room) / scale);
  const turned = turn ?? (dice.chance(0.4) ? [0, 0, dice.within(-180, 180, 1)] : undefined);
  return {
    id, kind: 'figure', name: `Figure ${id}`, shape, ...cellCenter(cell), baseMm, hold,
    ...(turned ? { turnDeg: turned } : {}),
    ...(scale === 1 ? {} : { scale }),
    ...randomWeight(dice, (volumeMm3 * scale ** 3) / 1000),
  };
}

function randomWeight(dice: Dice, volumeMl: number): Partial<PlacementJson> {
  const way = dice.whole(0, 19);
  if (way === 0) return {};
  if (way < 10) return { massG: Number((volumeMl * dice.within(dice.pick([0.15, 0.7]), dice.pick([1.05, 2.2]), 0.01)).toPrecision(4)) };
  if (way < 14) return { densityGPerMl: dice.within(0.4, 2, 0.01) };
  return { material: dice.pick(MATERIALS) };
}

interface RandomShape {
  readonly shape: ShapeJson;
  readonly turn?: readonly number[];
  readonly volumeMm3: number;
}

/** A shape that stays within a reach about its axis however it is turned, and within a height. */
function randomShape(dice: Dice, reachMm: number, roomMm: number): RandomShape {
  const heightMm = dice.within(Math.min(1, roomMm / 2), Math.min(60, roomMm), 0.01);
  const radiusMm = dice.within(reachMm * 0.3, reachMm, 0.01);
  const lengthMm = dice.within(reachMm * 0.4, reachMm * 1.41, 0.01);
  const widthMm = dice.within(reachMm * 0.4, reachMm * 1.41, 0.01);
  switch (dice.pick(['sphere', 'ellipsoid', 'box', 'side', 'cylinder', 'cone', 'tip', 'wedge', 'cap', 'measured'])) {
    case 'sphere': {
      const r = tidy(Math.min(reachMm, roomMm / 2, radiusMm));
      return { shape: { type: 'sphere', radiusMm: r }, turn: [dice.whole(0, 90), dice.whole(0, 90), 0], volumeMm3: 4.19 * r ** 3 };
    }
    case 'ellipsoid': return { shape: { type: 'ellipsoid', lengthMm, widthMm, heightMm }, volumeMm3: (lengthMm * widthMm * heightMm * Math.PI) / 6 };
    case 'side': return sideBox(dice, lengthMm, widthMm, heightMm);
    case 'cylinder': return { shape: { type: 'cylinder', radiusMm, heightMm }, volumeMm3: Math.PI * radiusMm ** 2 * heightMm };
    case 'cone': return { shape: { type: 'cone', radiusMm, heightMm }, volumeMm3: radiusMm ** 2 * heightMm };
    case 'tip': return { shape: { type: 'cone', radiusMm, heightMm }, turn: [180, 0, 0], volumeMm3: radiusMm ** 2 * heightMm };
    case 'wedge': return { shape: { type: 'wedge', lengthMm, widthMm, heightMm }, volumeMm3: (lengthMm * widthMm * heightMm) / 2 };
    case 'cap': {
      const rimRadiusMm = tidy(Math.min(radiusMm, roomMm));
      return { shape: { type: 'cap', rimRadiusMm, sphereRadiusMm: tidy(rimRadiusMm * dice.within(1.01, 3, 0.01)) }, volumeMm3: rimRadiusMm ** 3 };
    }
    case 'measured': {
      const volumeMl = Number(((lengthMm * widthMm * heightMm * dice.within(0.3, 0.9, 0.01)) / 1000).toPrecision(6));
      return { shape: { type: 'measured', volumeMl, lengthMm, widthMm, heightMm }, volumeMm3: volumeMl * 1000 };
    }
    default: return { shape: { type: 'box', lengthMm, widthMm, heightMm }, volumeMm3: lengthMm * widthMm * heightMm };
  }
}

/** A box laid on a side: what stands up is its width or its length. */
function sideBox(dice: Dice, lengthMm: number, widthMm: number, heightMm: number): RandomShape {
  const volumeMm3 = lengthMm * widthMm * heightMm;
  if (dice.chance(0.5)) return { shape: { type: 'box', lengthMm, widthMm: heightMm, heightMm: widthMm }, turn: [90, 0, dice.pick([0, 30])], volumeMm3 };
  return { shape: { type: 'box', lengthMm: heightMm, widthMm, heightMm: lengthMm }, turn: [0, 90, dice.pick([0, 45])], volumeMm3 };
}

function randomRoom(dice: Dice, start: string): SceneJson['room'] {
  const temperatureC = dice.within(17, 28, 0.5);
  if (dice.chance(0.35)) return { temperatureC };
  const profile: { from: string; temperatureC: number }[] = [];
  const first = Math.floor(minutesOf(start) / 1440) * 1440;
  const night = dice.within(-8, 3, 0.5);
  const evening = dice.within(17, 23, 0.25) * 60;
  const morning = dice.within(5, 10, 0.25) * 60;
  for (let day = dice.whole(-2, 4), days = dice.whole(1, 40); days > 0; day++, days--) {
    profile.push({ from: textOf(first + day * 1440 + morning), temperatureC: temperatureC + dice.within(-1, 1, 0.5) });
    profile.push({ from: textOf(first + day * 1440 + evening), temperatureC: temperatureC + night });
  }
  return { temperatureC, profile };
}

function randomBench(dice: Dice) {
  const { hours, longestH } = dice.pick(BENCHES);
  const pourH = Math.min(dice.pick([0.25, 0.5, 0.5, 0.75, 1, 1.5]), longestH);
  const watchH = Math.min(dice.pick([0, 0, 0.25, 0.5, 0.5, 1, 2]), longestH - pourH);
  const scuffH = dice.chance(0.06) ? longestH + 0.5 : dice.pick([0.25, 0.5, 0.5, 1]);
  return {
    ...(dice.chance(0.85) ? { start: dice.pick(STARTS) } : {}),
    ...(longestH === 12 && dice.chance(0.5) ? {} : { hours }),
    ...(dice.chance(0.7) ? { scaleG: dice.pick([0.01, 0.1, 0.1, 0.2, 0.5, 1]) } : {}),
    holdUpMl: dice.within(0, 12, 0.5),
    ...(dice.chance(0.7) ? { allowanceFraction: dice.within(0, 0.15, 0.01) } : {}),
    pourH,
    scuffH: Math.min(scuffH, 30),
    watchH,
  };
}
