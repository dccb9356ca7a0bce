/**
 * Small random stacks for the best plan's checks, as plain numbers, and the same as the search is asked it.
 * Times are whole hours in the even rooms, so that every moment that matters lies on the hour.
 */
import type { BestProblem } from '../../../../src/core/plan/best/problem.ts';
import { paceOf } from '../../../../src/core/plan/schedule.ts';
import { readScene } from '../../../../src/core/scene/read.ts';
import type { Plane, Scene } from '../../../../src/core/scene/scene.ts';
import { parseLocalTime } from '../../../../src/core/units/time.ts';
import type { HoursJson } from '../../../plan/check-types.ts';
import { mulberry32 } from '../../../plan/random-scenes.ts';

export interface StackFormula {
  readonly id: string;
  readonly limitMm: number;
  readonly minMm: number;
  /** Onto a tacky surface; null: as deep as otherwise. */
  readonly wetMm: number | null;
  /** How warm a pour gets, in steps, by its depth in begun half millimeters; left out: no one knows. */
  readonly steps?: { readonly cured: readonly number[]; readonly tacky: readonly number[] };
  readonly opensH: number;
  readonly closesH: number;
  readonly scuffableH: number;
  readonly paintableH: number;
  readonly demoldH: number;
  /** Mixed, g/mL; both parts weigh the same. */
  readonly density: number;
  readonly maxBatchG: number;
  readonly pricePerMl: number | null;
  readonly potLifeMin: number;
}

export interface StackPlane {
  readonly paintH: number;
  readonly dryH: number;
}

export interface Stack {
  readonly formulas: readonly StackFormula[];
  readonly layers: readonly { readonly fromMm: number; readonly toMm: number; readonly options: readonly string[]; readonly planes: readonly StackPlane[] }[];
  readonly floor: readonly StackPlane[];
  readonly floaters: readonly { readonly baseMm: number; readonly safeLockMm: number }[];
  readonly pinsMm: readonly number[];
  readonly avoid: readonly { readonly fromMm: number; readonly toMm: number }[];
  /** Figures' spans and beds' edges, for where a line shows. */
  readonly figures: readonly { readonly fromMm: number; readonly toMm: number }[];
  readonly edgesMm: readonly number[];
  readonly hours: readonly HoursJson[];
  readonly start: string;
  readonly room: { readonly temperatureC: number; readonly profile: readonly { readonly from: string; readonly temperatureC: number }[] };
  readonly pourH: number;
  readonly watchH: number;
  readonly scuffH: number;
  readonly keep: boolean;
  readonly areaMm2: number;
  readonly holdUpMl: number;
  readonly allowance: number;
  readonly perPour: number;
  readonly perScuff: number;
  readonly cupMin: number | null;
}

/** Weekly hours, and how many hours of the week a pour of an hour may start at. */
const HOURS: readonly { readonly hours: readonly HoursJson[]; readonly slots: number }[] = [
  { hours: [{ days: 'Mon-Sun', from: '09:00', to: '12:00' }], slots: 21 },
  { hours: [{ days: 'Mon,Wed,Thu', from: '17:00', to: '20:00' }], slots: 9 },
  { hours: [{ days: 'Tue-Fri', from: '18:00', to: '20:00' }], slots: 8 },
  { hours: [{ days: 'Sat', from: '08:00', to: '12:00' }, { days: 'Wed', from: '19:00', to: '21:00' }], slots: 6 },
  { hours: [{ days: 'Mon,Tue,Sat', from: '22:00', to: '00:00' }], slots: 6 },
  { hours: [{ days: 'Fri-Sun', from: '10:00', to: '12:00' }], slots: 6 },
  { hours: [{ days: 'Mon', from: '08:00', to: '11:00' }], slots: 3 },
  { hours: [{ days: 'Sun', from: '23:00', to: '02:00' }], slots: 3 },
];
/** Plans brute force may have to look at, roughly. */
const MOST_PLANS = 20_000;

/** The same stack for the same seed. `changing`: the room gets warmer and colder, and hours are no longer whole. */
export function randomStack(seed: number, { changing = false, mostPlans = MOST_PLANS }: { readonly changing?: boolean; readonly mostPlans?: number } = {}): Stack {
  const next = mulberry32(Math.imul(seed + 1, 0x9e3779b1));
  const whole = (low: number, high: number) => low + Math.floor(next() * (high - low + 1));
  const chance = (share: number) => next() < share;
  const pick = <T>(from: readonly T[]) => from[whole(0, from.length - 1)];
  const hours = (low: number, high: number) => (changing ? low + Math.round(next() * (high - low) * 20) / 20 : whole(low, high));
  const formulas = Array.from({ length: whole(1, 3) }, (_, i): StackFormula => {
    const opensH = hours(2, 20);
    const scuffableH = opensH + hours(4, 30);
    return {
      id: `F${i}`,
      limitMm: pick([1, 1.5, 2, 2.5]),
      minMm: pick([0.5, 0.5, 1, 1.5]),
      wetMm: chance(0.3) ? pick([0.5, 1]) : null,
      opensH,
      closesH: opensH + hours(-1, 30),
      scuffableH,
      paintableH: hours(10, 40),
      demoldH: scuffableH + hours(0, 60),
      density: pick([1, 1.1, 1.2]),
      maxBatchG: pick([40, 60, 500]),
      pricePerMl: chance(0.85) ? pick([0.01, 0.02, 0.035]) : null,
      potLifeMin: pick([30, 60, 120]),
    };
  });
  const layers: Stack['layers'][number][] = [];
  let at = chance(0.3) ? 0.5 : 0;
  const count = whole(1, 3);
  for (let i = 0; i < count; i++) {
    const toMm = at + pick(count === 1 ? [1.5, 2, 2.5, 3] : count === 2 ? [0.5, 1, 1.5, 2] : [0.5, 1, 1.3]);
    const own = pick(formulas).id;
    const options = chance(0.5) ? formulas.map(({ id }) => id) : [own];
    const planes = chance(0.3) ? Array.from({ length: whole(1, 2) }, () => ({ paintH: whole(1, 2), dryH: whole(2, 14) })) : [];
    layers.push({ fromMm: at, toMm, options, planes });
    at = toMm + (chance(0.1) ? 0.5 : 0);
  }
  const top = layers[layers.length - 1].toMm;
  const inside = () => Math.round(next() * top * 2) / 2;
  const pinsMm = chance(0.15) ? [inside()].filter((pin) => layers.some(({ fromMm, toMm }) => pin > fromMm && pin < toMm)) : [];
  const from = inside();
  const avoid = chance(0.2) ? [{ fromMm: from, toMm: from + pick([0, 0.5, 1]) }].filter((span) => !pinsMm.some((pin) => pin >= span.fromMm && pin <= span.toMm)) : [];
  const { hours: open, slots } = pick(HOURS);
  const stack: Stack = {
    formulas,
    layers,
    floor: chance(0.15) ? [{ paintH: 1, dryH: whole(2, 10) }] : [],
    floaters: chance(0.3) ? [{ baseMm: pick([layers[0].fromMm, inside()]), safeLockMm: pick([0.4, 0.5, 1, 1.2, 2]) }] : [],
    pinsMm,
    avoid,
    figures: chance(0.4) ? [{ fromMm: inside(), toMm: top }] : [],
    edgesMm: chance(0.3) ? [inside()] : [],
    hours: open,
    start: pick(['2026-05-04T08:00', '2026-05-06T19:00', '2026-05-09T11:00', '2026-12-30T20:00']),
    room: { temperatureC: 23, profile: [] },
    pourH: 1,
    watchH: pick([0, 0, 1]),
    scuffH: pick([0, 1, 1]),
    keep: chance(0.3),
    areaMm2: 20_000,
    holdUpMl: pick([0, 5, 8]),
    allowance: pick([0, 0.05]),
    perPour: chance(0.5) ? pick([0.1, 0.5]) : 0,
    perScuff: chance(0.5) ? pick([0.05, 0.3, 1]) : 0,
    cupMin: chance(0.2) ? pick([10, 15, 20, 30]) : null,
  };
  // Brute force goes through every start of every pour: stacks with more plans than it can take are drawn again.
  if (plansOf(stack, slots) > mostPlans) return randomStack(seed + 7_919_000, { changing, mostPlans });
  return changing ? { ...stack, pourH: pick([0.5, 0.75]), scuffH: pick([0.25, 0.5]), watchH: pick([0, 0.4]), room: changingRoom(next, stack.start) } : stack;
}

/** Taller stacks than brute force can take, for the integer solver: no floaters, pins or cups, an even room. */
export function middleStack(seed: number): Stack {
  const small = randomStack(seed, { mostPlans: Infinity });
  const next = mulberry32(Math.imul(seed + 1, 0x85ebca6b));
  const formulas = small.formulas.map((formula) => ({ ...formula, minMm: 0.5, limitMm: Math.max(1, formula.limitMm) }));
  let at = 0;
  const layers = Array.from({ length: 3 + Math.floor(next() * 2) }, (_, i) => {
    const fromMm = at;
    at += 1 + Math.floor(next() * 3) / 2;
    const from = small.layers[i % small.layers.length];
    return { ...from, fromMm, toMm: at, planes: from.planes.slice(0, 1).map((plane) => ({ ...plane, paintH: 1 })) };
  });
  return { ...small, formulas, layers, floor: [], floaters: [], pinsMm: [], avoid: [], cupMin: null };
}

/** About as many as there are plans: the ways to cut, times the starts of each pour. */
function plansOf(stack: Stack, slots: number): number {
  const product = (list: readonly number[]) => list.reduce((all, one) => all * one, 1);
  return product(
    stack.layers.map(({ fromMm, toMm, options }) => {
      const lines = [0, 0.5, 1, 1.5, 2, 2.5, 3, 3.5, 4, 4.5, 5, 5.5].filter((at) => at > fromMm && at < toMm);
      const ways = (at: number, limitMm: number, minMm: number): number =>
        [...lines, toMm].reduce((all, top) => all + (top > at && top - at <= limitMm + 1e-9 && top - at >= minMm - 1e-9 ? slots * (top === toMm ? 1 : ways(top, limitMm, minMm)) : 0), 0);
      return options.reduce((all, id) => all + (ways(fromMm, formulaOf(stack, id).limitMm, formulaOf(stack, id).minMm) || ways(fromMm, formulaOf(stack, id).limitMm, 0)), 0);
    }),
  );
}

function changingRoom(next: () => number, start: string): Stack['room'] {
  const from = parseLocalTime(start)!;
  const at = (hours: number) => {
    const date = new Date(Date.UTC(2000, 0, 1) + (from + Math.round(hours * 60)) * 60_000);
    return date.toISOString().slice(0, 16);
  };
  const profile: { from: string; temperatureC: number }[] = [];
  for (let hours = Math.round(next() * 40), i = 0; i < 4; i++, hours += 5 + Math.round(next() * 30)) profile.push({ from: at(hours), temperatureC: 15 + Math.round(next() * 15) });
  return { temperatureC: 20, profile };
}

export function problemFrom(stack: Stack): BestProblem {
  const scene = sceneOf(stack);
  const planes = (list: readonly StackPlane[], name: string) => list.map(({ paintH, dryH }, i): Plane => ({ kind: 'plane', id: `${name}${i}`, name: '', atMm: 0, paintH, dryH }));
  const priced = [...new Set(stack.layers.flatMap(({ options }) => options))].every((id) => formulaOf(stack, id).pricePerMl !== null);
  return {
    pace: paceOf(scene),
    startMin: parseLocalTime(stack.start)!,
    layers: stack.layers.map(({ fromMm, toMm, options, planes: list }, i) => ({
      fromMm,
      toMm,
      options: options.map((id) => ({ formula: scene.formulas.get(id)!, limitMm: scene.formulas.get(id)!.maxDepthMm, wetMm: formulaOf(stack, id).wetMm ?? undefined, warmth: tableOf(formulaOf(stack, id)) })),
      planes: planes(list, `L${i}-`),
    })),
    floor: planes(stack.floor, 'floor'),
    floaters: stack.floaters.map((floater, i) => ({ id: `f${i}`, ...floater })),
    pinsMm: stack.pinsMm,
    avoid: stack.avoid,
    alsoMm: [],
    netBelowMl: (atMm) => (stack.areaMm2 * atMm) / 1000,
    expenses: {
      perMl: priced ? new Map(stack.formulas.map(({ id, pricePerMl }) => [id, pricePerMl ?? 0])) : null,
      perPour: stack.perPour,
      perScuff: stack.perScuff,
    },
    cupMin: stack.cupMin,
    shows: (atMm) => (stack.edgesMm.includes(atMm) ? 0 : stack.figures.some(({ fromMm, toMm }) => atMm > fromMm && atMm < toMm) ? 2 : 1),
  };
}

function tableOf({ steps }: StackFormula): ((depthMm: number, onTacky: boolean) => number) | undefined {
  return steps && ((depthMm, onTacky) => steps[onTacky ? 'tacky' : 'cured'][Math.ceil(depthMm * 2 - 1e-9) - 1]);
}

/** A stack with a table of heat: deeper pours get no cooler, and on a tacky surface they mostly get warmer. */
export function heatedStack(seed: number): Stack {
  const stack = randomStack(seed);
  const next = mulberry32(Math.imul(seed + 3, 0x27d4eb2f));
  return {
    ...stack,
    formulas: stack.formulas.map((formula) => {
      let warm = 50;
      const cured = Array.from({ length: 12 }, () => (warm += Math.floor(next() * 6)));
      return { ...formula, steps: { cured, tacky: cured.map((step) => step + Math.floor(next() * 9) - 1) } };
    }),
  };
}

export function formulaOf(stack: Stack, id: string): StackFormula {
  return stack.formulas.find((formula) => formula.id === id)!;
}

function sceneOf(stack: Stack): Scene {
  const top = stack.layers[stack.layers.length - 1].toMm;
  const reading = readScene({
    format: 'stillpool.scene',
    version: 1,
    mold: { shape: 'box', lengthMm: 200, widthMm: 100, heightMm: top + 5, keep: stack.keep },
    fillMm: top,
    fills: [{ toMm: top, formula: stack.formulas[0].id }],
    formulas: stack.formulas.map((formula) => ({
      id: formula.id,
      ratioByVolume: [1, 1],
      densityAGPerMl: formula.density,
      densityBGPerMl: formula.density,
      maxDepthMm: formula.limitMm,
      minDepthMm: formula.minMm,
      maxBatchG: formula.maxBatchG,
      atC: 23,
      potLifeMin: formula.potLifeMin,
      potLifeMassG: 100,
      bondOpensH: formula.opensH,
      bondClosesH: Math.max(0, formula.closesH),
      scuffableH: formula.scuffableH,
      paintableH: formula.paintableH,
      demoldH: formula.demoldH,
      shrinkageFraction: 0,
    })),
    room: stack.room,
    bench: { start: stack.start, hours: stack.hours, holdUpMl: stack.holdUpMl, allowanceFraction: stack.allowance, pourH: stack.pourH, watchH: stack.watchH, scuffH: stack.scuffH },
    heat: { model: 'label' },
  });
  if (!reading.ok) throw new Error(JSON.stringify(reading.problems));
  return reading.scene;
}
