/** What the person asks of the plan: what matters most, lines to keep or to leave out, how many are made at once. */
import { plain } from '../../units/format.ts';
import type { PlanGoal } from '../scene.ts';
import { done, refused, type AvoidFile, type EditResult, type PlanFile, type SceneFile } from './file.ts';
import { withParts } from './parts.ts';
import { patched, replacedAt, unlessEmpty, type Patch } from './replace.ts';
import { labelMm, tidy } from './things.ts';

/** In the order they are offered; `even` is what a scene that says nothing gets. */
export const GOAL_CHOICES: readonly { readonly value: PlanGoal; readonly words: string }[] = [
  { value: 'even', words: 'even pours' },
  { value: 'fewest', words: 'fewest pours' },
  { value: 'soonest', words: 'soonest done' },
  { value: 'coolest', words: 'coolest' },
  { value: 'cheapest', words: 'cheapest' },
];

/** A line that is not wanted stays this far away, mm: nearer by, the eye takes it for the same line (common practice, no source). */
export const KEPT_CLEAR_MM = 2;
/** Two heights this near are one line, mm: lines lie on halves of a millimeter or at the even plan's, which may be thirds. */
const SAME_LINE_MM = 0.01;

export interface Span {
  readonly fromMm: number;
  readonly toMm: number;
}

export function goalOf(file: SceneFile): PlanGoal {
  return file.plan?.goal ?? 'even';
}

export function setGoal(file: SceneFile, goal: PlanGoal): EditResult {
  return withPlan(file, { goal }, GOAL_CHOICES.find(({ value }) => value === goal)?.words ?? goal);
}

/** From the top down, as on the gauge. */
export function pinsOf(file: SceneFile): readonly number[] {
  return [...(file.plan?.pins ?? [])].sort((a, b) => b - a);
}

/** In the file's order. */
export function avoidOf(file: SceneFile): readonly Span[] {
  return (file.plan?.avoid ?? []).map(spanOf);
}

export function isPinned(file: SceneFile, atMm: number): boolean {
  return pinsOf(file).some((pin) => sameLine(pin, atMm));
}

/** Keeps a pour line at a height, mm up from the floor; spans that forbid it are given up. */
export function pinLine(file: SceneFile, atMm: number): EditResult {
  if (isPinned(file, atMm)) return { ok: true, file, label: 'line kept' };
  const avoid = (file.plan?.avoid ?? []).filter((entry) => !covers(spanOf(entry), atMm));
  return withPlan(file, { pins: [...(file.plan?.pins ?? []), tidy(atMm)], avoid: unlessEmpty(avoid) }, `line kept at ${labelMm(atMm)}`);
}

export function unpinLine(file: SceneFile, atMm: number): EditResult {
  const pins = (file.plan?.pins ?? []).filter((pin) => !sameLine(pin, atMm));
  if (pins.length === (file.plan?.pins ?? []).length) return refused('That line is not kept any more.');
  return withPlan(file, { pins: unlessEmpty(pins) }, `line at ${labelMm(atMm)} free to move`);
}

/** No pour line near a height; lines kept there are given up. Stops stay: their things ask for them. */
export function avoidLine(file: SceneFile, atMm: number): EditResult {
  const span = { fromMm: tidy(Math.max(0, atMm - KEPT_CLEAR_MM)), toMm: tidy(atMm + KEPT_CLEAR_MM) };
  const pins = (file.plan?.pins ?? []).filter((pin) => !covers(span, pin));
  return withPlan(file, { pins: unlessEmpty(pins), avoid: [...(file.plan?.avoid ?? []), span] }, `no line at ${labelMm(atMm)}`);
}

/** Changes one end or both of what is to be kept clear. */
export function changeAvoided(file: SceneFile, at: number, patch: Partial<Span>): EditResult {
  const old = file.plan?.avoid?.[at];
  if (old === undefined) return refused('That height is no longer kept clear.');
  const span = { ...(typeof old === 'number' ? {} : old), ...spanOf(old), ...patch };
  if (span.fromMm > span.toMm) return refused(`Found ${plain(span.fromMm, 2)} to ${labelMm(span.toMm)}; expected the lower height first. Change the other end first.`);
  return withPlan(file, { avoid: replacedAt(file.plan!.avoid!, at, span) }, `no line from ${plain(span.fromMm, 2)} to ${labelMm(span.toMm)}`);
}

export function allowLine(file: SceneFile, at: number): EditResult {
  if (file.plan?.avoid?.[at] === undefined) return refused('That height is no longer kept clear.');
  return withPlan(file, { avoid: unlessEmpty(file.plan.avoid.filter((_, i) => i !== at)) }, 'lines allowed again');
}

export function copiesOf(file: SceneFile): number {
  return file.copies ?? file.class?.students ?? 1;
}

/** How many are poured side by side from shared cups. */
export function setCopies(file: SceneFile, copies: number): EditResult {
  const students = file.class?.students;
  if (students !== undefined && copies !== students) return refused(`Copies: found ${plain(copies, 2)} with a class of ${students}; expected ${students}, a piece for every student. Change how many students there are.`);
  return done(patched(file, { copies }), copies === 1 ? 'one piece' : `${plain(copies, 2)} copies`, 'copies');
}

function withPlan(file: SceneFile, plan: Patch<PlanFile>, label: string): EditResult {
  return withParts(file, { plan }, label, label);
}

const spanOf = (entry: AvoidFile): Span => (typeof entry === 'number' ? { fromMm: entry, toMm: entry } : { fromMm: entry.fromMm, toMm: entry.toMm });
const covers = ({ fromMm, toMm }: Span, atMm: number): boolean => atMm >= fromMm - SAME_LINE_MM && atMm <= toMm + SAME_LINE_MM;
const sameLine = (a: number, b: number): boolean => Math.abs(a - b) <= SAME_LINE_MM;
