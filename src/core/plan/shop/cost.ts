/**
 * What a piece costs and what to ask for it: resin as it is used up and as it must be bought, consumables, hours,
 * a reserve for pieces that are lost, margin and tax. All in the person's own currency and by their own figures.
 */
import type { Scene } from '../../scene/scene.ts';
import { MINUTES_PER_HOUR, parseLocalTime } from '../../units/time.ts';
import type { Cost, ShoppingRow, Step } from '../plan.ts';
import { GOES_ON } from '../step-words.ts';
import { money } from './money.ts';

export interface CostRequest {
  readonly shopping: readonly ShoppingRow[];
  readonly steps: readonly Step[];
  /** Flood coats among them. */
  readonly pours: number;
  /** Hours of finishing by the plan; 0 where it plans none. */
  readonly finishH: number;
}

/** Null where the scene says neither a price nor anything of labor. A price that is missing leaves the sums that need it null. */
export function costOf({ labor, plan, run, finishing }: Pick<Scene, 'labor' | 'plan' | 'run' | 'finishing'>, { shopping, steps, pours, finishH }: CostRequest): Cost | null {
  const priced = shopping.some(({ currency }) => currency !== null);
  if (!priced && labor === null) return null;
  const currency = labor?.currency ?? shopping.find((row) => row.currency !== null)?.currency ?? null;
  const missing = shopping.filter((row) => row.consumed === null || row.bought === null || row.currency !== currency).map(({ formula }) => formula);
  const resin = missing.length > 0 ? null : { consumed: total(...shopping.map((row) => row.consumed!)), bought: total(...shopping.map((row) => row.bought!)) };
  const scuffs = steps.filter(({ kind, text }) => kind === 'scuff' && text !== GOES_ON).length;
  const consumables = money((labor?.consumables ?? 0) + (finishing?.cost ?? 0) + pours * plan.pourCost + scuffs * plan.scuffCost);
  const other = (labor?.other ?? []).map(({ name, amount }) => ({ name, amount: money(amount) }));
  const things = total(consumables, ...other.map(({ amount }) => amount));
  const work = workOf(labor, steps, finishH);
  const spent = resin && total(resin.consumed, things, work.amount);
  const lost = labor?.lossFraction ?? 0;
  // Of every n pieces a share is lost: each that is sold carries its part of them.
  const reserve = spent === null ? null : money((spent * lost) / (1 - lost));
  const all = spent === null ? null : total(spent, reserve!);
  const quote = all === null ? null : money(all / (1 - (labor?.marginFraction ?? 0)));
  const tax = quote === null ? null : money(quote * (labor?.taxFraction ?? 0));
  return {
    currency, resin, consumables, other, labor: work, reserve, total: all, quote, tax,
    quoteWithTax: quote === null ? null : total(quote, tax!),
    toSpend: resin && total(resin.bought, things),
    perPiece: { total: all === null ? null : money(all / run.copies), quoteWithTax: quote === null ? null : money((quote + tax!) / run.copies) },
    missing,
  };
}

/** Hours as given, else those with hands on the piece in the plan and those for finishing: typed, else the plan’s. */
function workOf(labor: Scene['labor'], steps: readonly Step[], finishH: number): Cost['labor'] {
  const hands = steps.filter(({ kind }) => kind === 'pour' || kind === 'scuff' || kind === 'paint');
  const planned = sum(hands.map(({ from, to }) => parseLocalTime(to)! - parseLocalTime(from)!)) / MINUTES_PER_HOUR;
  const hours = labor?.hours ?? planned + (labor?.finishH ?? finishH);
  const perHour = labor?.perHour ?? 0;
  return { hours, perHour, amount: money(hours * perHour) };
}

const sum = (values: readonly number[]): number => values.reduce((total, value) => total + value, 0);
const total = (...lines: readonly number[]): number => money(sum(lines));
