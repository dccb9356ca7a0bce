/** What the person asks of the plan and of the calendar: lines, formulas, hours, days that are different. */
import { dayOfDate, parseClock } from '../units/time.ts';
import type { BenchException, BenchHours, Formula, PlanWishes } from './scene.ts';
import { parseDays, type SceneDocument } from './schema.ts';

/** Heights typed in decimals carry noise far below this, mm. */
const ROUNDING_MM = 1e-9;

type Refuse = (path: string, message: string) => void;

export function wishesOf({ plan, fillMm }: SceneDocument, formulas: ReadonlyMap<string, Formula>, refuse: Refuse): PlanWishes {
  const avoid = plan.avoid.map((entry) => (typeof entry === 'number' ? { fromMm: entry, toMm: entry } : { fromMm: entry.fromMm, toMm: entry.toMm }));
  plan.pins.forEach((pin, i) => {
    if (pin >= fillMm) refuse(`plan.pins[${i}]`, `found ${pin} mm; expected less than ${fillMm} mm, the fill’s height. Lower the line.`);
    const against = avoid.find((span) => pin >= span.fromMm - ROUNDING_MM && pin <= span.toMm + ROUNDING_MM);
    if (against) refuse(`plan.pins[${i}]`, `found ${pin} mm, which plan.avoid forbids (${against.fromMm} to ${against.toMm} mm); expected one of the two. Move the line or shorten the span.`);
  });
  const seen = new Set<string>();
  plan.formulas?.forEach((id, i) => {
    if (seen.has(id)) refuse(`plan.formulas[${i}]`, `found "${id}" a second time; expected each formula once.`);
    seen.add(id);
  });
  return {
    goal: plan.goal,
    pinsMm: [...plan.pins].sort((a, b) => a - b),
    avoid,
    formulas: plan.formulas?.filter((id) => formulas.has(id)) ?? null,
    cupMin: plan.cupMin ?? null,
    pourCost: plan.pourCost,
    scuffCost: plan.scuffCost,
  };
}

export function exceptionsOf({ bench }: SceneDocument, refuse: Refuse): BenchException[] {
  return bench.exceptions.map((entry, i) => {
    const fromDay = dayOfDate(entry.on);
    const toDay = dayOfDate(entry.until ?? entry.on);
    if (toDay < fromDay) refuse(`bench.exceptions[${i}].until`, `found ${entry.until}, before ${entry.on}; expected that day or a later one.`);
    return { fromDay, toDay, hours: entry.hours.map(({ from, to }) => ({ fromMin: parseClock(from)!, toMin: parseClock(to)! })) };
  });
}

export function hoursFrom(entry: { readonly days: string; readonly from: string; readonly to: string }): BenchHours {
  return { days: parseDays(entry.days)!, fromMin: parseClock(entry.from)!, toMin: parseClock(entry.to)! };
}
