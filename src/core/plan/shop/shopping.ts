/** What each formula takes, what of it is on hand, what to buy in whole kits, and what is left. */
import { mixOf } from '../../resin/formula.ts';
import type { Scene } from '../../scene/scene.ts';
import { MINUTES_PER_DAY, parseLocalTime } from '../../units/time.ts';
import type { PartAmount, Pour, ShoppingRow } from '../plan.ts';
import { cheapestKits, type KitSize } from './kits.ts';
import { leftoverUse } from './leftovers.ts';
import { money } from './money.ts';
import { drawFrom } from './stock.ts';

type Shop = Pick<Scene, 'formulas' | 'stock' | 'bench'>;
/** Pours and flood coats alike. */
type Poured = Pick<Pour, 'formula' | 'mixMl' | 'partA' | 'partB' | 'starts'>;

/** A row for each formula, in the order they are poured. */
export function shoppingOf(scene: Shop, pours: readonly Poured[]): ShoppingRow[] {
  const formulas = [...new Set(pours.map(({ formula }) => formula))];
  return formulas.map((formula) => rowOf(scene, formula, pours.filter((pour) => pour.formula === formula)));
}

function rowOf({ formulas, stock, bench }: Shop, id: string, pours: readonly Poured[]): ShoppingRow {
  const formula = formulas.get(id)!;
  const { price } = formula;
  const mixMl = pours.reduce((sum, pour) => sum + pour.mixMl, 0);
  const day = Math.max(...pours.map(({ starts }) => Math.floor(parseLocalTime(starts)! / MINUTES_PER_DAY)));
  const drawn = drawFrom(stock, id, { needMl: mixMl, mix: mixOf(formula), day, perMl: price ? price.amount / price.kitMl : null });
  const sizes: readonly KitSize[] = price ? [price, ...(price.sizes ?? [])].map(({ kitMl, amount }) => ({ kitMl, amount })) : [];
  const toBuyMl = mixMl - drawn.usedMl;
  const bought = toBuyMl > 0 && sizes.length > 0 ? cheapestKits(toBuyMl, sizes) : null;
  const leftoverMl = drawn.fitMl - drawn.usedMl + (bought ? bought.ml - toBuyMl : 0);
  return {
    formula: id,
    mixMl,
    partA: sumOf(pours, ({ partA }) => partA),
    partB: sumOf(pours, ({ partB }) => partB),
    onHandMl: drawn.fitMl,
    tooOld: drawn.tooOld,
    fromStock: drawn.used.map(({ stock: place, ml }) => ({ stock: place, ml })),
    toBuyMl,
    kits: bought?.kits ?? [],
    bought: toBuyMl > 0 ? (bought && money(bought.amount)) : 0,
    consumed: consumedOf(drawn.used, toBuyMl, bought),
    currency: price?.currency ?? null,
    leftoverMl,
    leftoverFills: leftoverUse(leftoverMl, formula, bench),
  };
}

/** Price of what is used up: each mL at what its kit cost, those to be bought at the mean of what is bought. */
function consumedOf(used: ReturnType<typeof drawFrom>['used'], toBuyMl: number, bought: ReturnType<typeof cheapestKits> | null): number | null {
  let sum = 0;
  for (const { ml, perMl } of used) {
    if (perMl === null) return null;
    sum += ml * perMl;
  }
  if (toBuyMl <= 0) return money(sum);
  return bought && money(sum + (toBuyMl * bought.amount) / bought.ml);
}

function sumOf(pours: readonly Poured[], of: (pour: Poured) => PartAmount): PartAmount {
  return pours.map(of).reduce((sum, { ml, g }) => ({ ml: sum.ml + ml, g: sum.g + g }), { ml: 0, g: 0 });
}
