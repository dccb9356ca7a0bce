/** Copies that share cups: case 10 of cases.md (hand arithmetic), and what must hold of every run. */
import { describe, expect, it } from 'vitest';
import { planOf, problemsOf, scene, TG } from '../../../plan/planning.ts';

/** Rounds of 100 mm, 8 mm of TG. */
const rounds = (copies: number, more: { bench?: object; formula?: object; placements?: object[] } = {}) => ({
  ...scene({ mold: { shape: 'round', diameterMm: 100, heightMm: 20 }, fillMm: 8, fills: [{ toMm: 8, formula: 'TG' }], formulas: [{ ...TG, ...more.formula }], bench: more.bench, placements: more.placements }),
  copies,
});

describe('a run of copies', () => {
  it('is one piece where there is one', () => {
    const { copies: _one, ...alone } = rounds(1);
    expect(planOf(rounds(1))).toEqual(planOf(alone));
    expect(planOf(alone).pours[0].batches[0]).toMatchObject({ molds: 1, workMin: null });
  });

  it('mixes for all, each cup within its weight and its minutes, with the fewest cups', () => {
    for (const copies of [2, 5, 7, 8, 12, 30]) {
      const { pours: [pour], findings } = planOf(rounds(copies));
      const one = planOf(rounds(1)).pours[0];
      expect(findings.filter(({ severity }) => severity === 'halt')).toEqual([]);
      expect(pour.netMl).toBeCloseTo(one.netMl, 9);
      // Net 62.83 mL each, 5 % spare, 8 mL in each cup.
      expect(pour.mixMl).toBeCloseTo(copies * Math.PI * 2.5 * 8 * 1.05 + 8 * pour.batches.length, 6);
      for (const cup of pour.batches) {
        expect(cup.mixG).toBeLessThanOrEqual(400);
        expect(cup.workMin!).toBeLessThanOrEqual(cup.usableMin);
      }
      const fewer = pour.batches.length - 1;
      if (fewer === 0) continue;
      const cupG = ((copies * Math.PI * 2.5 * 8 * 1.05) / fewer + 8) * 1.08;
      const slow = 6 + 2.5 * Math.ceil(copies / fewer) > 0.7 * 40 * (100 / cupG) ** (1 / 3);
      expect(cupG > 400 || slow, `${copies} copies from ${fewer} cups`).toBe(true);
    }
  });

  it('takes as long at the bench as its cups do, and scuffs and paints each copy', () => {
    const minutes = (from: string, to: string) => (Date.parse(`${to}:00Z`) - Date.parse(`${from}:00Z`)) / 60_000;
    const { pours, steps } = planOf({ ...rounds(8, { placements: [{ id: 'p', kind: 'plane', atMm: 4, paintH: 0.25, dryH: 8 }] }) });
    const work = Math.max(...pours.map(({ batches }) => batches.reduce((sum, { workMin }) => sum + workMin!, 0)));
    expect(minutes(pours[0].starts, pours[0].ends)).toBeGreaterThanOrEqual(Math.max(30, work));
    const spent = (kind: string) => steps.filter((step) => step.kind === kind).reduce((sum, { from, to }) => sum + minutes(from, to), 0);
    expect(spent('paint')).toBe(8 * 15);
    expect(spent('scuff')).toBe(8 * 30);
  });

  it('stops where a cup thickens before it is shared out', () => {
    const { findings } = planOf(rounds(8, { bench: { mixMin: 25, moldMin: 10 } }));
    expect(findings[0]).toMatchObject({ code: 'cup-too-slow', severity: 'halt', pours: [1] });
  });

  it('fills a piece too large for one cup from several', () => {
    const { pours: [pour], findings } = planOf(rounds(3, { formula: { maxBatchG: 40 } }));
    expect(findings.some(({ severity }) => severity === 'halt')).toBe(false);
    expect(pour.batches[0].molds).toBeLessThan(1);
    expect(pour.batches.every(({ mixG }) => mixG <= 40)).toBe(true);
  });

  it('costs for all, and says what one comes to', () => {
    const formula = { price: { kitMl: 1000, amount: 40, currency: 'EUR' } };
    const { cost } = planOf({ ...rounds(8, { formula }), labor: { perHour: 20, hours: 8, marginFraction: 0.5 } });
    // Case 10's 543.79 mL at 0.04: 21.75; and 160 of work: 181.75; twice that to ask, 363.50; an eighth of each.
    expect(cost).toMatchObject({ total: 181.75, quote: 363.5, perPiece: { total: 22.72, quoteWithTax: 45.44 } });
  });

  it.each([0, 1.5, -2, '8', 501])('refuses %j copies', (copies) => {
    expect(problemsOf({ ...rounds(1), copies }).map((problem) => problem.split(':')[0])).toEqual(['copies']);
  });
});
