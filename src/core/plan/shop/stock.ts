/** What is on hand: how much of a kit can be used in its ratio, how long it keeps, and in which order it is used up. */
import type { Mix } from '../../resin/formula.ts';
import type { StockKit } from '../../scene/scene.ts';

export interface Drawn {
  /** Place in the scene's `stock`. */
  readonly stock: number;
  readonly ml: number;
  /** Price of a mL; null: neither the kit nor the formula says. */
  readonly perMl: number | null;
}

export interface Draw {
  /** What is fit to use, mL of both parts in their ratio. */
  readonly fitMl: number;
  readonly used: readonly Drawn[];
  readonly usedMl: number;
  /** Places in the scene's `stock` of what is too old by the day it is wanted. */
  readonly tooOld: readonly number[];
}

export interface DrawRequest {
  readonly needMl: number;
  readonly mix: Pick<Mix, 'bPerAByVolume'>;
  /** The last day it is wanted, counted from 2000-01-01. */
  readonly day: number;
  /** For kits that say no price. */
  readonly perMl: number | null;
}

/** Uses up what keeps least long first; what says no date comes after, in the order it is listed. */
export function drawFrom(stock: readonly StockKit[], formula: string, { needMl, mix, day, perMl }: DrawRequest): Draw {
  const ours = stock.map((kit, index) => ({ kit, index })).filter(({ kit }) => kit.formula === formula);
  const tooOld = ours.filter(({ kit }) => kit.useByDay !== undefined && kit.useByDay < day);
  const fit = ours.filter((entry) => !tooOld.includes(entry)).sort((a, b) => (a.kit.useByDay ?? Infinity) - (b.kit.useByDay ?? Infinity) || a.index - b.index);
  const used: Drawn[] = [];
  let left = needMl;
  for (const { kit, index } of fit) {
    const ml = Math.min(left, usableMl(kit, mix));
    if (ml <= 0) continue;
    used.push({ stock: index, ml, perMl: kit.price ? kit.price.amount / kit.price.kitMl : perMl });
    left -= ml;
  }
  return { fitMl: fit.reduce((sum, { kit }) => sum + usableMl(kit, mix), 0), used, usedMl: needMl - left, tooOld: tooOld.map(({ index }) => index) };
}

/** What the scarcer part allows: leftovers of A and B that are out of ratio can't all be mixed. */
function usableMl({ ml }: StockKit, { bPerAByVolume: ratio }: Pick<Mix, 'bPerAByVolume'>): number {
  if (typeof ml === 'number') return ml;
  return ratio === 0 ? ml.partA : Math.min(ml.partA, ml.partB / ratio) * (1 + ratio);
}
