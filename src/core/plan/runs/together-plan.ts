/** What is told of pieces that are poured together: the order at the bench, shared cups, what to buy for all, and what it wins. */
import type { Scene } from '../../scene/scene.ts';
import { counted, listed, plain, span } from '../../units/format.ts';
import { MINUTES_PER_DAY, MINUTES_PER_HOUR, formatLocalTime, parseLocalTime } from '../../units/time.ts';
import { dayAndTime } from '../../units/when.ts';
import { doNotPour } from '../halts.ts';
import type { Batch, Finding, PartAmount, Plan, Pour, ShoppingRow } from '../plan.ts';
import { shoppingOf } from '../shop/shopping.ts';

export interface TogetherPour {
  readonly index: number;
  /** Of the first of its pieces. */
  readonly formula: string;
  readonly starts: string;
  readonly ends: string;
  /** Pieces and pours from 1. */
  readonly of: readonly { readonly piece: number; readonly pour: number; readonly molds: number; readonly mixMl: number }[];
  readonly mixMl: number;
  readonly mixG: number;
  readonly partA: PartAmount;
  readonly partB: PartAmount;
  readonly batches: readonly Batch[];
}

export interface BenchTurn {
  readonly kind: 'scuff' | 'paint' | 'pour';
  /** From 1. */
  readonly pieces: readonly number[];
  /** Of `pours`; null: no pour. */
  readonly pouring: number | null;
  readonly from: string;
  readonly to: string;
}

export interface Totals {
  readonly finish: string;
  /** Pours at the bench: those from shared cups are one. */
  readonly pours: number;
  readonly cups: number;
  readonly mixG: number;
  /** Pouring, scuffing and painting. */
  readonly benchH: number;
}

export interface Together extends Totals {
  readonly pieces: readonly { readonly scene: string; readonly starts: string; readonly finish: string }[];
  readonly poured: readonly TogetherPour[];
  readonly bench: readonly BenchTurn[];
  /** One after the other: each piece begun when the bench is done with the one before. */
  readonly oneAfterTheOther: Totals;
  /** What is won against that. */
  readonly buys: { readonly days: number; readonly pours: number; readonly cups: number; readonly mixG: number; readonly benchH: number };
  readonly words: string;
  /** Every order was tried; else the most promising. */
  readonly whole: boolean;
  /** For all of them; kits on hand are counted once, as the first scene that has any tells of them. */
  readonly shopping: readonly ShoppingRow[];
  readonly findings: readonly Finding[];
}

export interface BenchWork {
  readonly kind: BenchTurn['kind'];
  readonly pour: number | null;
  readonly fromMin: number;
  readonly toMin: number;
}

/** What hands do to a piece until it is poured and painted, in order. */
export function workOf({ steps, pours }: Pick<Plan, 'steps' | 'pours'>): BenchWork[] {
  const last = Math.max(...pours.map(({ index }) => index));
  return steps.flatMap((step): BenchWork[] => {
    if ((step.kind !== 'pour' && step.kind !== 'scuff' && step.kind !== 'paint') || step.finishing || (step.pour ?? 0) > last) return [];
    return [{ kind: step.kind, pour: step.kind === 'pour' ? step.pour : null, fromMin: parseLocalTime(step.from)!, toMin: parseLocalTime(step.to)! }];
  });
}

export function totalsOf(plans: readonly Plan[]): Totals {
  const bench = benchOf(plans);
  const poured = pouredOf(plans);
  return {
    finish: plans.map(({ finish }) => finish).reduce((a, b) => (b > a ? b : a)),
    pours: poured.length,
    cups: poured.reduce((sum, { batches }) => sum + batches.length, 0),
    mixG: poured.reduce((sum, { mixG }) => sum + mixG, 0),
    benchH: bench.reduce((sum, { from, to }) => sum + parseLocalTime(to)! - parseLocalTime(from)!, 0) / MINUTES_PER_HOUR,
  };
}

/** `alone`: the plans one after the other; the same plans where nothing else was found. */
export function togetherOf(scenes: readonly Scene[], plans: readonly Plan[], { alone, whole }: { readonly alone: readonly Plan[]; readonly whole: boolean }): Together {
  const totals = totalsOf(plans);
  const before = totalsOf(alone);
  const buys = {
    days: (parseLocalTime(before.finish)! - parseLocalTime(totals.finish)!) / MINUTES_PER_DAY,
    pours: before.pours - totals.pours,
    cups: before.cups - totals.cups,
    mixG: before.mixG - totals.mixG,
    benchH: before.benchH - totals.benchH,
  };
  return {
    ...totals,
    pieces: plans.map((plan) => ({ scene: plan.scene, starts: formatLocalTime(workOf(plan)[0].fromMin), finish: plan.finish })),
    poured: pouredOf(plans),
    bench: benchOf(plans),
    oneAfterTheOther: before,
    buys,
    words: wordsOf(totals, before, buys),
    whole,
    shopping: shoppingTogether(scenes, plans),
    findings: [...late(scenes, plans), ...finishingMeets(plans), ...boxed(plans)],
  };
}

function pouredOf(plans: readonly Plan[]): TogetherPour[] {
  const all = plans.flatMap((plan, i) => plan.pours.map((pour) => ({ pour, piece: i + 1, copies: plan.copies })));
  const firsts = all.filter(({ pour, piece }) => !pour.shared || !all.some((other) => other.piece < piece && other.pour.shared?.pouring === pour.shared!.pouring));
  firsts.sort((a, b) => (a.pour.starts < b.pour.starts ? -1 : a.pour.starts > b.pour.starts ? 1 : 0));
  return firsts.map(({ pour: first, ...own }, i): TogetherPour => {
    const members = first.shared ? all.filter(({ pour }) => pour.shared?.pouring === first.shared!.pouring) : [{ pour: first, ...own }];
    const part = (of: (pour: Pour) => PartAmount): PartAmount => members.map(({ pour }) => of(pour)).reduce((sum, { ml, g }) => ({ ml: sum.ml + ml, g: sum.g + g }), { ml: 0, g: 0 });
    return {
      index: i + 1,
      formula: first.formula,
      starts: first.starts,
      ends: first.ends,
      of: members.map(({ pour, piece, copies }) => ({ piece, pour: pour.index, molds: copies, mixMl: pour.mixMl })),
      mixMl: first.shared?.mixMl ?? first.mixMl,
      mixG: first.shared?.mixG ?? first.mixG,
      partA: part(({ partA }) => partA),
      partB: part(({ partB }) => partB),
      batches: first.batches,
    };
  });
}

function benchOf(plans: readonly Plan[]): BenchTurn[] {
  const poured = pouredOf(plans);
  const turns = plans.flatMap((plan, i) => workOf(plan).flatMap(({ kind, fromMin, toMin, pour }): BenchTurn[] => {
    const pouring = pour === null ? null : poured.find(({ of }) => of.some((one) => one.piece === i + 1 && one.pour === pour))!;
    if (pouring && pouring.of[0].piece !== i + 1) return [];
    return [{ kind, pieces: pouring ? pouring.of.map(({ piece }) => piece) : [i + 1], pouring: pouring?.index ?? null, from: formatLocalTime(fromMin), to: formatLocalTime(toMin) }];
  }));
  return turns.sort((a, b) => (a.from < b.from ? -1 : a.from > b.from ? 1 : a.to < b.to ? -1 : 1));
}

/** Under this nobody calls it won, hours. */
const LEAST_H = 0.05;

function wordsOf(now: Totals, before: Totals, buys: Together['buys']): string {
  const done = `All done ${dayAndTime(now.finish)}`;
  const minutes = Math.round(buys.days * MINUTES_PER_DAY);
  const sooner = minutes > 0 ? `, ${span(minutes)} sooner than one after the other` : minutes === 0 ? ', no later than one after the other' : `, ${span(-minutes)} later than one after the other`;
  const changes = [
    ...(buys.pours > 0 ? [`${counted(now.pours, 'pour')} at the bench instead of ${plain(before.pours, 0)}`] : []),
    ...(buys.cups !== 0 ? [`${counted(now.cups, 'cup')} instead of ${plain(before.cups, 0)}`] : []),
    ...(buys.benchH > LEAST_H ? [`${plain(buys.benchH)}\u00a0h less at the bench`] : []),
  ];
  if (minutes === 0 && changes.length === 0) return `${done}. Nothing is won by pouring them together: they are poured one after the other.`;
  return `${done}${sooner}.${changes.length > 0 ? ` ${listed(changes)}.` : ''}`;
}

/** One list for one artist: what a formula takes in all pieces. A formula of one id is one formula only where its label is the same. */
function shoppingTogether(scenes: readonly Scene[], plans: readonly Plan[]): ShoppingRow[] {
  const labels = new Map<string, string>();
  const formulas = new Map<string, NonNullable<ReturnType<Scene['formulas']['get']>>>();
  const pours = plans.flatMap((plan, i) => plan.pours.map((pour): Pour => {
    const formula = scenes[i].formulas.get(pour.formula)!;
    const label = JSON.stringify(formula);
    let id = pour.formula;
    while (labels.has(id) && labels.get(id) !== label) id = `${id} (${plan.scene})`;
    labels.set(id, label);
    formulas.set(id, { ...formula, id });
    return { ...pour, formula: id };
  }));
  const stock = scenes.find((scene) => scene.stock.length > 0)?.stock ?? [];
  return shoppingOf({ ...scenes[0], formulas, stock }, pours);
}

function late(scenes: readonly Scene[], plans: readonly Plan[]): Finding[] {
  return plans.flatMap((plan, i): Finding[] => {
    const { readyByMin } = scenes[i].bench;
    const overMin = readyByMin === undefined ? 0 : parseLocalTime(plan.finish)! - readyByMin;
    if (overMin <= 0) return [];
    return [{ code: 'ready-by', severity: 'caution', subject: plan.scene, message: `${plan.scene} is done ${span(overMin)} after you want it.`, remedy: 'Begin earlier, or plan it by itself first.' }];
  });
}

/** Sanding, coats and polish are planned piece by piece: where they meet the bench's work, the pour comes first. */
function finishingMeets(plans: readonly Plan[]): Finding[] {
  const bench = benchOf(plans);
  const names = plans.filter(({ steps }) => steps.some((step) => step.finishing && step.to > step.from && ['sand', 'coat', 'polish', 'edges', 'trim', 'base'].includes(step.finishing.work) && bench.some(({ from, to }) => from < step.to && step.from < to))).map(({ scene }) => scene);
  if (names.length === 0) return [];
  return [{ code: 'finishing-meets', severity: 'caution', subject: 'bench', message: `The finish of ${listed(names)} falls on hours in which another piece is poured, scuffed or painted.`, remedy: 'Do the finish before or after it: sanded dust and a wet pour do not share a room.' }];
}

function boxed(plans: readonly Plan[]): Finding[] {
  const stays = plans.map(({ pours }) => pours.flatMap(({ box }) => box ?? []));
  const count = stays.filter((own, i) => stays.some((others, k) => k !== i && own.some((a) => others.some((b) => a.from < b.to && b.from < a.to)))).length;
  if (count < 2) return [];
  return [{ code: 'box-shared', severity: 'caution', subject: 'room.box', message: `${counted(count, 'piece')} cure in a box on some days at once.`, remedy: 'See that the box holds them all, level, or have one for each.' }];
}

/** Reasons not to pour, piece by piece. */
export function isHalted(plans: readonly Plan[], { of }: Pick<TogetherPour, 'of'>): string | null {
  for (const { piece, pour } of of) {
    const why = doNotPour(plans[piece - 1].findings, pour);
    if (why !== null) return why;
  }
  return null;
}
