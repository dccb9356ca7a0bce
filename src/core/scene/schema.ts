/**
 * The scene file, version 1, as a schema: what each field may hold. Unknown fields pass (read.ts reports
 * them). Every message is the second half of "found …; expected …".
 * Limits are far beyond any casting; they keep hostile numbers out of the arithmetic.
 */
import * as v from 'valibot';
import { MOST_CUPS } from '../cure/test-cup.ts';
import { isObject } from '../units/object.ts';
import { parseClock, parseLocalTime } from '../units/time.ts';
import type { StrokePoint } from './scene.ts';

export const LIMITS = {
  /** 10 m: no mold on a bench is longer. */
  lengthMm: 10_000,
  placements: 500,
  creatures: 50,
  fills: 200,
  formulas: 200,
  hours: 100,
  profile: 20_000,
  /** Pins, and spans to avoid. */
  lines: 200,
  stock: 500,
  copies: 500,
  students: 100,
  strokes: 5_000,
  /** Of one stroke, and of all together: an hour's sketching has some ten thousand. */
  strokePoints: 20_000,
  allStrokePoints: 100_000,
  brushMm: 50,
  /** Colors that one plane or creature is to show. */
  colors: 24,
  /** Sizes of kits that one formula is sold in. */
  sizes: 12,
  textLength: 2_000,
  /** A year of waiting. */
  hoursOfTime: 8_760,
  densityGPerMl: 25,
} as const;

/** What a piece without a name is called. */
export const UNTITLED = 'Untitled piece';

const SHAPE_TYPES = ['mesh', 'sphere', 'ellipsoid', 'box', 'cylinder', 'cone', 'wedge', 'cap', 'library', 'measured'] as const;

const text = v.custom<string>((input) => typeof input === 'string' && input.length <= LIMITS.textLength, `text of at most ${LIMITS.textLength} characters`);
const id = v.custom<string>((input) => typeof input === 'string' && input.length > 0 && input.length <= 200, 'a name of 1 to 200 characters');
const flag = v.custom<boolean>((input) => typeof input === 'boolean', 'true or false');

/** A finite number from `min` (or above it) to `max`. */
function number(min: number, max: number, unit = '', above = false) {
  const suffix = unit && ` ${unit}`;
  const expected = above ? `a number above ${min}${suffix}, at most ${max}${suffix}` : `a number from ${min} to ${max}${suffix}`;
  return v.custom<number>(
    (input) => typeof input === 'number' && Number.isFinite(input) && input <= max && (above ? input > min : input >= min),
    expected,
  );
}

const size = () => number(0, LIMITS.lengthMm, 'mm', true);
const height = () => number(0, LIMITS.lengthMm, 'mm');
const place = () => number(-LIMITS.lengthMm, LIMITS.lengthMm, 'mm');
const turn = () => number(-36_000, 36_000, '°');
const hoursLong = () => number(0, LIMITS.hoursOfTime, 'h');
const density = () => number(0, LIMITS.densityGPerMl, 'g/mL', true);
const temperature = () => number(-40, 120, '°C');

/** A bar of 100 mm as a printer drew it: one that is off by more was scaled by a dialog, not by the printer. */
export const PRINTED_BAR_MM = [90, 110] as const;
const printedBar = () => number(...PRINTED_BAR_MM, 'mm');

/** A share of light: neither none of it nor all. */
const share = () => number(0.0001, 0.9999);

const oneOf = <const T extends string>(...allowed: readonly T[]) =>
  v.custom<T>((input) => typeof input === 'string' && (allowed as readonly string[]).includes(input), `one of ${allowed.map((word) => `"${word}"`).join(', ')}`);

const localTime = v.custom<string>(
  (input) => typeof input === 'string' && inRange(parseLocalTime(input)),
  'a local time that exists, from 1900 to 2099, like "2026-05-04T08:00"',
);
const clock = v.custom<string>((input) => typeof input === 'string' && parseClock(input) !== null, 'a clock time from "00:00" to "23:59"');

const list = <const S extends v.GenericSchema>(item: S, most: number, least = 0) =>
  v.pipe(
    v.custom<unknown[]>(
      (input) => Array.isArray(input) && input.length >= least && input.length <= most,
      least > 0 ? `a list of ${least} to ${most}` : `a list of at most ${most}`,
    ),
    v.array(item),
  );

const moldCommon = {
  heightMm: size(),
  draftDeg: v.optional(number(0, 45, '°'), 0),
  material: v.optional(oneOf('silicone', 'hdpe', 'acrylic', 'glass', 'wood', 'foam'), 'silicone'),
  wallMm: v.optional(number(0, 1_000, 'mm'), 8),
  keep: v.optional(flag, false),
};
const mold = v.variant(
  'shape',
  [
    v.looseObject({ ...moldCommon, shape: v.literal('box'), lengthMm: size(), widthMm: size(), cornerRadiusMm: v.optional(height(), 0) }),
    v.looseObject({ ...moldCommon, shape: v.literal('round'), diameterMm: size() }),
  ],
  'a mold with "shape" "box" or "round"',
);

const color = v.custom<string>((input) => typeof input === 'string' && /^#[0-9a-fA-F]{6}$/.test(input), 'a color like "#2f6f73"');
const tint = v.looseObject({
  color: v.optional(color, '#2f6f73'),
  percent: v.optional(number(0, 10, '%'), 0),
  swatch: v.optional(v.looseObject({ percent: number(0, 10, '%', true), mm: size(), passes: share() })),
  target: v.optional(v.looseObject({ passes: share(), how: v.optional(oneOf('even', 'deepening'), 'even'), ratio: v.optional(number(1, 10), 2) })),
});

const fill = v.looseObject({ toMm: size(), formula: id, tint: v.optional(tint) });

const sizes = { lengthMm: size(), widthMm: size(), heightMm: size() };
const shape = v.variant(
  'type',
  [
    v.looseObject({ type: v.literal('mesh'), file: text, unit: v.optional(oneOf('mm', 'cm', 'm', 'in')) }),
    v.looseObject({ type: v.literal('library'), name: text }),
    v.looseObject({ type: v.literal('sphere'), radiusMm: size() }),
    v.looseObject({ type: v.literal('ellipsoid'), ...sizes }),
    v.looseObject({ type: v.literal('box'), ...sizes }),
    v.looseObject({ type: v.literal('cylinder'), radiusMm: size(), heightMm: size() }),
    v.looseObject({ type: v.literal('cone'), radiusMm: size(), heightMm: size() }),
    v.looseObject({ type: v.literal('wedge'), ...sizes }),
    v.looseObject({ type: v.literal('cap'), sphereRadiusMm: size(), rimRadiusMm: size() }),
    v.looseObject({ type: v.literal('measured'), volumeMl: number(0, 1e6, 'mL', true), ...sizes }),
  ],
  `a shape with "type" one of ${SHAPE_TYPES.map((word) => `"${word}"`).join(', ')}`,
);

const posed = {
  id,
  name: v.optional(text),
  shape,
  xMm: v.optional(place(), 0),
  yMm: v.optional(place(), 0),
  baseMm: v.optional(place(), 0),
  turnDeg: v.optional(v.strictTuple([turn(), turn(), turn()], 'three turns in degrees, about x, y and z'), [0, 0, 0]),
  scale: v.optional(number(0, 1_000, '', true), 1),
};
const solidCommon = {
  ...posed,
  massG: v.optional(number(0, 1e6, 'g')),
  densityGPerMl: v.optional(density()),
  material: v.optional(text),
  hold: v.optional(oneOf('rests', 'stands', 'fixed', 'rod', 'thread')),
  limitC: v.optional(temperature()),
  porous: v.optional(flag, false),
  sealed: v.optional(flag, false),
};
const art = v.looseObject({
  file: text,
  widthMm: size(),
  xMm: v.optional(place(), 0),
  yMm: v.optional(place(), 0),
  turnDeg: v.optional(turn(), 0),
  mirror: v.optional(flag, false),
});
const placement = v.variant(
  'kind',
  [
    v.looseObject({ ...solidCommon, kind: v.literal('figure') }),
    v.looseObject({ ...solidCommon, kind: v.literal('bed'), voidFraction: v.optional(number(0, 0.99), 0) }),
    v.looseObject({
      kind: v.literal('plane'),
      id,
      name: v.optional(text),
      atMm: height(),
      paintH: v.optional(hoursLong(), 3),
      dryH: v.optional(hoursLong(), 12),
      art: v.optional(art),
      slices: v.optional(list(id, LIMITS.creatures)),
      colors: v.optional(list(color, LIMITS.colors)),
      // It was there before any creature was painted on it, and stays when they go.
      stays: v.optional(flag),
    }),
  ],
  'a placement with "kind" "figure", "bed" or "plane"',
);

// A soft brush fades over 1 to 2 mm (common practice, no source).
const creature = v.looseObject({
  ...posed,
  featherMm: v.optional(number(0, 50, 'mm'), 1.5),
  viewDeg: v.optional(number(0, 80, '°'), 45),
  colors: v.optional(list(color, LIMITS.colors)),
  // Half a meter, as one bends over a piece on a table (common practice, no source).
  read: v.optional(v.looseObject({ eyeMm: v.optional(number(50, LIMITS.lengthMm, 'mm'), 500), eyeXMm: v.optional(place(), 0), eyeYMm: v.optional(place(), 0), stretch: v.optional(flag, false) })),
  // What the figure it was made from had beyond its pose, for the way back.
  wasFigure: v.optional(v.custom<Record<string, unknown>>(isObject, 'an object { … }')),
});

/** One pass over the numbers: a sketch has a hundred times as many as the rest of a scene. */
const strokePoints = v.custom<readonly StrokePoint[]>(
  (input) => Array.isArray(input) && input.length > 0 && input.length <= LIMITS.strokePoints && input.every(isStrokePoint),
  `a list of 1 to ${LIMITS.strokePoints} points like [x, y, pressure], x and y from ${-LIMITS.lengthMm} to ${LIMITS.lengthMm} mm, pressure from 0 to 1`,
);
// A soft brush on a plane of a hand's size (common practice, no source).
const stroke = v.looseObject({ plane: id, ink: color, widthMm: v.optional(number(0.1, LIMITS.brushMm, 'mm'), 2), softMm: v.optional(number(0, LIMITS.brushMm, 'mm'), 0.5), points: strokePoints });

const kitPrice = { kitMl: number(1, 1e7, 'mL'), amount: number(0, 1e9) };
const ratio = v.strictTuple([number(0, 1_000, '', true), number(0, 1_000, '', true)], 'two parts, like [2, 1]');
const formula = v.looseObject({
  id,
  name: v.optional(text),
  family: v.optional(oneOf('general', 'low-viscosity', 'coating', 'deep-pour', 'uv')),
  ratioByVolume: v.optional(ratio),
  ratioByMass: v.optional(ratio),
  densityAGPerMl: v.optional(density()),
  densityBGPerMl: v.optional(density()),
  maxDepthMm: v.optional(number(0.1, LIMITS.lengthMm, 'mm')),
  minDepthMm: v.optional(height()),
  maxBatchG: v.optional(number(0, 1e6, 'g', true)),
  atC: v.optional(temperature()),
  potLifeMin: v.optional(number(0, 1e5, 'min', true)),
  potLifeMassG: v.optional(number(0, 1e6, 'g', true)),
  bondOpensH: v.optional(hoursLong()),
  bondClosesH: v.optional(hoursLong()),
  scuffableH: v.optional(hoursLong()),
  paintableH: v.optional(hoursLong()),
  demoldH: v.optional(hoursLong()),
  fullCureH: v.optional(hoursLong()),
  viscosityMPaS: v.optional(number(0, 1e7, 'mPa·s', true)),
  refractiveIndex: v.optional(number(1, 3)),
  shrinkageFraction: v.optional(number(0, 0.3)),
  price: v.optional(v.looseObject({ ...kitPrice, currency: text, sizes: v.optional(list(v.looseObject(kitPrice), LIMITS.sizes)) })),
});

const days = v.custom<string>((input) => typeof input === 'string' && parseDays(input) !== null, 'days like "Mon", "Mon-Fri" or "Mon,Thu"');
const hours = v.looseObject({ days, from: clock, to: clock });
const humidity = () => number(0, 100, '%');
const room = v.looseObject({
  temperatureC: v.optional(temperature(), 23),
  profile: v.optional(list(v.looseObject({ from: localTime, temperatureC: temperature(), humidity: v.optional(humidity()) }), LIMITS.profile), []),
  sleep: v.optional(list(hours, LIMITS.hours), []),
  humidity: v.optional(humidity()),
  box: v.optional(v.looseObject({ temperatureC: number(10, 60, '°C'), hours: v.optional(list(hours, LIMITS.hours), []) })),
});
const date = v.custom<string>((input) => typeof input === 'string' && /^\d{4}-\d{2}-\d{2}$/.test(input) && inRange(parseLocalTime(`${input}T00:00`)), 'a date that exists, from 1900 to 2099, like "2026-12-24"');
const exception = v.looseObject({ on: date, until: v.optional(date), hours: v.optional(list(v.looseObject({ from: clock, to: clock }), LIMITS.hours), []) });
const bench = v.looseObject({
  start: v.optional(localTime),
  bottlesC: v.optional(number(-10, 60, '°C')),
  hours: v.optional(list(hours, LIMITS.hours, 1), [{ days: 'Mon-Sun', from: '08:00', to: '20:00' }]),
  exceptions: v.optional(list(exception, LIMITS.hours), []),
  readyBy: v.optional(localTime),
  scaleG: v.optional(number(0, 1_000, 'g', true), 0.1),
  dyeScaleG: v.optional(number(0, 1_000, 'g', true)),
  holdUpMl: v.optional(number(0, 1e5, 'mL'), 8),
  allowanceFraction: v.optional(number(0, 10), 0.05),
  pourH: v.optional(hoursLong(), 0.5),
  scuffH: v.optional(hoursLong(), 0.5),
  watchH: v.optional(hoursLong(), 0.5),
  // Two or three minutes a mold and six to mix a cup (common practice, no source).
  mixMin: v.optional(number(0, 1_440, 'min'), 6),
  moldMin: v.optional(number(0, 1_440, 'min'), 2.5),
  printBars: v.optional(v.looseObject({ xMm: v.optional(printedBar(), 100), yMm: v.optional(printedBar(), 100) })),
});

/** A height, or a span of heights. */
const avoided = v.custom<number | { fromMm: number; toMm: number }>(isAvoided, 'a height from 0 mm on, or a span from the lower height to the higher, like { "fromMm": 12, "toMm": 15 }');
const plan = v.looseObject({
  goal: v.optional(oneOf('even', 'fewest', 'soonest', 'coolest', 'cheapest'), 'even'),
  pins: v.optional(list(size(), LIMITS.lines), []),
  avoid: v.optional(list(avoided, LIMITS.lines), []),
  formulas: v.optional(list(id, LIMITS.formulas, 1)),
  cupMin: v.optional(number(0, 1e5, 'min', true)),
  pourCost: v.optional(number(0, 1e9), 0),
  scuffCost: v.optional(number(0, 1e9), 0),
});

const amountMl = () => number(0, 1e7, 'mL');
const stockKit = v.looseObject({
  formula: id,
  ml: v.optional(amountMl()),
  partAMl: v.optional(amountMl()),
  partBMl: v.optional(amountMl()),
  opened: v.optional(date),
  keepsDays: v.optional(number(0, 36_500, 'days')),
  bestBefore: v.optional(date),
  price: v.optional(v.looseObject(kitPrice)),
});
const copies = v.custom<number>((input) => typeof input === 'number' && Number.isInteger(input) && input >= 1 && input <= LIMITS.copies, `a whole number from 1 to ${LIMITS.copies}`);
const students = v.custom<number>((input) => typeof input === 'number' && Number.isInteger(input) && input >= 1 && input <= LIMITS.students, `a whole number from 1 to ${LIMITS.students}`);
const classMeeting = v.looseObject({
  students,
  at: localTime,
  hours: number(0.25, 24, 'h'),
  youngest: v.optional(number(3, 120, 'years'), 18),
  perStudent: v.optional(v.looseObject({ paint: v.optional(list(id, LIMITS.placements)), set: v.optional(list(id, LIMITS.placements)), pour: v.optional(flag, false) }), {}),
});
const labor = v.looseObject({
  currency: v.optional(text),
  perHour: v.optional(number(0, 1e9), 0),
  hours: v.optional(hoursLong()),
  finishH: v.optional(hoursLong()),
  consumables: v.optional(number(0, 1e9), 0),
  other: v.optional(list(v.looseObject({ name: text, amount: number(0, 1e9) }), LIMITS.lines), []),
  lossFraction: v.optional(number(0, 0.9), 0),
  marginFraction: v.optional(number(0, 0.95), 0),
  taxFraction: v.optional(number(0, 1), 0),
});

const face = () => v.optional(oneOf('as-cast', 'sanded', 'polished', 'flood-coat', 'hidden'), 'as-cast');
const spent = () => v.optional(hoursLong());
const finishing = v.looseObject({
  top: face(),
  sides: face(),
  bottom: face(),
  edgeMm: v.optional(number(0, 20, 'mm'), 1),
  base: v.optional(oneOf('none', 'felt', 'wood', 'light'), 'none'),
  coat: v.optional(v.looseObject({ formula: v.optional(id, 'coating'), mm: v.optional(number(0.2, 50, 'mm'), 2) }), {}),
  postCure: v.optional(v.looseObject({ temperatureC: number(25, 120, '°C'), hours: number(0, 200, 'h', true), labelC: v.optional(number(0, 200, '°C')) })),
  hours: v.optional(v.looseObject({ trim: spent(), edges: spent(), sand: spent(), coat: v.optional(number(0, LIMITS.hoursOfTime, 'h', true)), polish: spent(), base: spent() }), {}),
  cost: v.optional(number(0, 1e9), 0),
});

/** Its fields by name; what they may hold is read by core/cure/test-cup.ts. */
const testCup = v.looseObject({ formula: v.optional(v.unknown()), massG: v.optional(v.unknown()), cup: v.optional(v.unknown()), roomC: v.optional(v.unknown()), readings: v.optional(v.unknown()) });

export const SCENE_SCHEMA = v.looseObject({
  format: v.literal('stillpool.scene', '"stillpool.scene"'),
  version: v.literal(1, '1'),
  id: v.optional(id),
  name: v.optional(text, UNTITLED),
  mold,
  cast: v.optional(oneOf('face-up', 'face-down'), 'face-up'),
  fillMm: size(),
  fills: list(fill, LIMITS.fills, 1),
  placements: v.optional(list(placement, LIMITS.placements), []),
  creatures: v.optional(list(creature, LIMITS.creatures), []),
  strokes: v.optional(list(stroke, LIMITS.strokes)),
  formulas: v.optional(list(formula, LIMITS.formulas), []),
  heat: v.optional(v.looseObject({ model: v.optional(oneOf('label', 'simulated'), 'simulated') }), { model: 'simulated' }),
  testCups: v.optional(list(testCup, MOST_CUPS), []),
  room: v.optional(room, {}),
  bench: v.optional(bench, {}),
  plan: v.optional(plan, {}),
  stock: v.optional(list(stockKit, LIMITS.stock), []),
  labor: v.optional(labor),
  finishing: v.optional(finishing),
  copies: v.optional(copies),
  class: v.optional(classMeeting),
  // Lower than 5° most of a lamp's light glances off the face.
  lamp: v.optional(v.looseObject({ fromDeg: v.optional(turn(), 180), aboveDeg: v.optional(number(5, 90, '°'), 45) })),
});

export type SceneDocument = v.InferOutput<typeof SCENE_SCHEMA>;

const DAY_NAMES = ['mon', 'tue', 'wed', 'thu', 'fri', 'sat', 'sun'];

/** Weekdays (0 = Monday) of a name, a span or a list of them; null where it is none. A span may run over the weekend. */
export function parseDays(words: string): number[] | null {
  const days = new Set<number>();
  for (const part of words.toLowerCase().split(',')) {
    const [first, last, ...more] = part.split('-').map((name) => DAY_NAMES.indexOf(name.trim()));
    if (first < 0 || more.length > 0 || (last !== undefined && last < 0)) return null;
    for (let day = first; ; day = (day + 1) % 7) {
      days.add(day);
      if (day === (last ?? first)) break;
    }
  }
  return [...days].sort((a, b) => a - b);
}

function isAvoided(input: unknown): boolean {
  const isHeight = (value: unknown) => typeof value === 'number' && Number.isFinite(value) && value >= 0 && value <= LIMITS.lengthMm;
  if (typeof input !== 'object' || input === null) return isHeight(input);
  const { fromMm, toMm } = input as { fromMm?: unknown; toMm?: unknown };
  return isHeight(fromMm) && isHeight(toMm) && (fromMm as number) <= (toMm as number);
}

function isStrokePoint(point: unknown): boolean {
  if (!Array.isArray(point) || point.length !== 3) return false;
  const [x, y, pressure] = point as unknown[];
  return isWithin(x, LIMITS.lengthMm) && isWithin(y, LIMITS.lengthMm) && isWithin(pressure, 1) && (pressure as number) >= 0;
}

const isWithin = (value: unknown, most: number): boolean => typeof value === 'number' && value >= -most && value <= most;

const EARLIEST_MIN = parseLocalTime('1900-01-01T00:00')!;
const LATEST_MIN = parseLocalTime('2100-01-01T00:00')!;

/** Two centuries: a calendar beyond them is a slip of the finger. */
export function inRange(minutes: number | null): minutes is number {
  return minutes !== null && minutes >= EARLIEST_MIN && minutes < LATEST_MIN;
}
