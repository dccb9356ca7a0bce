/** Stock, shopping and cost through the whole planner. The numbers are those of the planner's cost case, hand arithmetic. */
import { describe, expect, it } from 'vitest';
import { planOf, problemsOf, scene, TL } from '../../../plan/planning.ts';

const PRICED = { ...TL, maxDepthMm: 10, price: { kitMl: 1500, amount: 48, currency: 'USD' } };
/** Eight pours of 300 mL net, each in one cup: 2,400 mL net, 2,584 mL mixed. */
const EIGHT = { ...scene({ mold: { lengthMm: 200, widthMm: 150, heightMm: 90 }, fillMm: 80, formulas: [PRICED] }), labor: { perHour: 25, hours: 9, consumables: 14, marginFraction: 0.35 } };
const withStock = (...stock: object[]) => planOf({ ...EIGHT, stock });

describe('shopping', () => {
  it('takes what is on hand first, buys whole kits for the rest, and says what is left', () => {
    const [row] = withStock({ formula: 'TL', ml: 600, price: { kitMl: 1000, amount: 20 } }).shopping;
    expect(row).toMatchObject({ onHandMl: 600, fromStock: [{ stock: 0, ml: 600 }], tooOld: [] });
    expect(row.toBuyMl).toBeCloseTo(1984, 6);
    expect(row.kits).toEqual([{ kitMl: 1500, amount: 48, count: 2 }]);
    expect(row.leftoverMl).toBeCloseTo(1016, 6);
    // 600 at 0.02 and 1,984 at 0.032: 75.488.
    expect(row.consumed).toBe(75.49);
  });

  it('uses up first what keeps least long, and leaves out what is too old for its pour', () => {
    const { shopping: [row], pours } = withStock(
      { formula: 'TL', ml: 5000 },
      { formula: 'TL', ml: 700, bestBefore: '2026-12-31' },
      { formula: 'TL', ml: 900, opened: '2025-01-01', keepsDays: 365 },
      { formula: 'TL', ml: 400, opened: '2026-05-01', keepsDays: 60, bestBefore: '2030-01-01' },
    );
    expect(pours[7].starts < '2026-06-30').toBe(true);
    expect(row.tooOld).toEqual([2]);
    expect(row.fromStock.map(({ stock, ml }) => [stock, Math.round(ml)])).toEqual([[3, 400], [1, 700], [0, 1484]]);
    expect(row).toMatchObject({ toBuyMl: 0, kits: [], bought: 0, onHandMl: 6100 });
  });

  it('counts leftovers that are out of ratio by the scarcer part', () => {
    // 2:1: 400 mL of A want 200 mL of B; 100 mL of B allow 200 + 100.
    expect(withStock({ formula: 'TL', partAMl: 400, partBMl: 100 }).shopping[0].onHandMl).toBeCloseTo(300, 9);
    expect(withStock({ formula: 'TL', partAMl: 400, partBMl: 500 }).shopping[0].onHandMl).toBeCloseTo(600, 9);
  });

  it('says what small rounds a leftover fills', () => {
    // 416 mL left; a round of 100 × 10 mm is 78.54 mL net, 90.47 mixed: four of them.
    expect(withStock().shopping[0].leftoverFills).toEqual({ diameterMm: 100, depthMm: 10, count: 4 });
  });

  it.each([
    [{ stock: [{ formula: 'x', ml: 3 }] }, 'stock[0].formula'],
    [{ stock: [{ formula: 'TL' }] }, 'stock[0]'],
    [{ stock: [{ formula: 'TL', ml: 3, partAMl: 1, partBMl: 2 }] }, 'stock[0]'],
    [{ stock: [{ formula: 'TL', partAMl: 1 }] }, 'stock[0]'],
    [{ stock: [{ formula: 'TL', ml: -3 }] }, 'stock[0].ml'],
    [{ stock: [{ formula: 'TL', ml: 3, keepsDays: 30 }] }, 'stock[0].keepsDays'],
    [{ stock: [{ formula: 'TL', ml: 3, opened: '2026-02-30' }] }, 'stock[0].opened'],
    [{ labor: { marginFraction: 1 } }, 'labor.marginFraction'],
    [{ labor: { lossFraction: -0.1 } }, 'labor.lossFraction'],
    [{ labor: { other: [{ name: 'base', amount: Infinity }] } }, 'labor.other[0].amount'],
  ])('refuses %j with its path', (parts, path) => {
    const problems = problemsOf({ ...EIGHT, ...parts });
    expect(problems.map((problem) => problem.split(':')[0])).toEqual([path]);
    expect(problems[0]).toMatch(/found|has no/);
    expect(problems[0]).toContain('expected');
  });
});

describe('the cost', () => {
  it('is null without a price or anything of labor', () => {
    expect(planOf(scene()).cost).toBeNull();
  });

  it('adds up hours of the plan where none are given', () => {
    // Eight pours of half an hour, seven scuffs where no pour fits onto the tacky surface; and three hours of finishing.
    const plan = planOf({ ...EIGHT, labor: { perHour: 10, finishH: 3 } });
    const scuffs = plan.pours.filter(({ route }) => route === 'cure-scuff-wipe').length;
    expect(plan.cost!.labor).toEqual({ hours: 8 * 0.5 + scuffs * 0.5 + 3, perHour: 10, amount: 10 * (8 * 0.5 + scuffs * 0.5 + 3) });
  });

  it('carries lost pieces, tax and what else goes in', () => {
    const { cost } = planOf({ ...EIGHT, labor: { ...EIGHT.labor, other: [{ name: 'base', amount: 10 }], lossFraction: 0.2, taxFraction: 0.1 } });
    // 82.69 + 14 + 225 + 10 = 331.69; a fifth lost: a quarter more, 414.61; / 0.65 = 637.86; a tenth of tax, 63.79.
    expect(cost).toMatchObject({ reserve: 82.92, total: 414.61, quote: 637.86, tax: 63.79, quoteWithTax: 701.65, toSpend: 120 });
  });

  it('gives no sum that a missing price or another currency would make wrong', () => {
    for (const price of [undefined, { kitMl: 1000, amount: 5, currency: 'EUR' }]) {
      const formulas = [PRICED, { ...PRICED, id: 'other', price }];
      const { cost } = planOf({ ...EIGHT, formulas, fills: [{ toMm: 40, formula: 'TL' }, { toMm: 80, formula: 'other' }] });
      expect(cost).toMatchObject({ currency: 'USD', missing: ['other'], resin: null, total: null, quote: null, toSpend: null, consumables: 14 });
    }
  });
});
