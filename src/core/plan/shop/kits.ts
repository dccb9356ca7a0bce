/** Which kits to buy: the cheapest whole ones that hold at least what is needed, exactly. */

export interface KitSize {
  /** Both parts together, mL, at least 1. */
  readonly kitMl: number;
  /** Price of one, in the person's currency. */
  readonly amount: number;
}

export interface KitsBought {
  readonly kits: readonly (KitSize & { readonly count: number })[];
  readonly ml: number;
  readonly amount: number;
}

/** Sizes are told apart to this, mL; a kit is taken as no more than it holds and a need as no less. */
const GRAIN_ML = 0.1;
/** Steps of the search. A need beyond them is met with the kit that is cheapest by volume, then searched. */
const MOST_STEPS = 100_000;
/** Sums of mL carry noise far below this share of a grain. */
const ROUNDING = 1e-6;

/** The cheapest kits for a need in mL; of equal prices the least left over, then the fewest kits. Nothing needed, nothing bought. */
export function cheapestKits(needMl: number, sizes: readonly KitSize[]): KitsBought {
  const grains = sizes.map(({ kitMl }) => Math.floor(kitMl / GRAIN_ML + ROUNDING));
  const unit = grains.reduce(greatestCommonDivisor, 0);
  const steps = Math.max(0, Math.ceil((needMl / GRAIN_ML - ROUNDING) / unit));
  const bulk = sizes.reduce((best, size, i) => (size.amount / grains[i] < sizes[best].amount / grains[best] ? i : best), 0);
  const bulkSteps = grains[bulk] / unit;
  const beforehand = Math.max(0, Math.ceil((steps - MOST_STEPS) / bulkSteps));
  const counts = searched(steps - beforehand * bulkSteps, sizes.map(({ amount }, i) => ({ steps: grains[i] / unit, amount })));
  counts[bulk] += beforehand;
  const kits = sizes.map((size, i) => ({ ...size, count: counts[i] })).filter(({ count }) => count > 0);
  return { kits, ml: kits.reduce((sum, kit) => sum + kit.count * kit.kitMl, 0), amount: kits.reduce((sum, kit) => sum + kit.count * kit.amount, 0) };
}

/** How many of each: over every amount up to the need, the best way to hold at least that much. */
function searched(need: number, sizes: readonly { readonly steps: number; readonly amount: number }[]): number[] {
  const ways: Way[] = [{ amount: 0, steps: 0, kits: 0, last: -1 }];
  for (let at = 1; at <= need; at++) {
    ways[at] = sizes.map((size, last): Way => {
      const rest = ways[Math.max(0, at - size.steps)];
      return { amount: rest.amount + size.amount, steps: rest.steps + size.steps, kits: rest.kits + 1, last };
    }).reduce((best, way) => (better(way, best) ? way : best));
  }
  const counts = sizes.map(() => 0);
  for (let at = Math.max(0, need); at > 0; at = Math.max(0, at - sizes[ways[at].last].steps)) counts[ways[at].last]++;
  return counts;
}

interface Way {
  readonly amount: number;
  readonly steps: number;
  readonly kits: number;
  /** The size bought last. */
  readonly last: number;
}

/** Prices within a millionth are one price. */
const SAME_PRICE = 1e-6;

function better(a: Way, b: Way): boolean {
  if (Math.abs(a.amount - b.amount) > SAME_PRICE) return a.amount < b.amount;
  return a.steps !== b.steps ? a.steps < b.steps : a.kits < b.kits;
}

function greatestCommonDivisor(a: number, b: number): number {
  return b === 0 ? a : greatestCommonDivisor(b, a % b);
}
