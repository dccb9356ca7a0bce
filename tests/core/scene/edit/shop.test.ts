/**
 * What is on hand, what kits cost, work and margin, clarity and formulas to choose from, typed one by one. The cost case and the
 * tint case are those of the planner's acceptance cases, hand arithmetic.
 */
import { describe, expect, it } from 'vitest';
import { chooseFrom, choiceOf, keepOwnFormulas, setCupMin } from '../../../../src/core/scene/edit/choice.ts';
import { setDyeScale, setSwatch, setTarget, swatchOf, targetOf } from '../../../../src/core/scene/edit/clarity.ts';
import { sceneFile, type EditResult, type SceneFile } from '../../../../src/core/scene/edit/file.ts';
import { removeFormula } from '../../../../src/core/scene/edit/formulas.ts';
import { addOther, changeOther, removeOther, setLabor } from '../../../../src/core/scene/edit/labor.ts';
import { addKitSize, changeKitSize, currencyOf, kitSizes, removeKitSize, setCurrency, setRoundCost } from '../../../../src/core/scene/edit/prices.ts';
import { addStock, changeStock, removeStock, stockOf } from '../../../../src/core/scene/edit/stock.ts';
import { planOf, scene, TL } from '../../../plan/planning.ts';
import { frozen, pond } from './made-files.ts';

function made(result: EditResult): SceneFile {
  if (!result.ok) throw new Error(result.reason);
  return frozen(result.file);
}

function all(file: SceneFile, ...edits: ((file: SceneFile) => EditResult)[]): SceneFile {
  return edits.reduce((now, edit) => made(edit(now)), file);
}

const reason = (result: EditResult): string => (result.ok ? 'made' : result.reason);

function opened(document: object): SceneFile {
  const read = sceneFile(document);
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return frozen(read.file);
}

/** Eight pours of 300 mL net, each in one cup: 2,400 mL net, 2,584 mL mixed. */
const EIGHT = opened(scene({ mold: { lengthMm: 200, widthMm: 150, heightMm: 90 }, fillMm: 80, formulas: [{ ...TL, maxDepthMm: 10 }] }));

describe('prices and hours', () => {
  it('come to the cost case when they are typed one by one', () => {
    const typed = all(
      EIGHT,
      (file) => setCurrency(file, ' USD '),
      (file) => addKitSize(file, 'TL', { kitMl: 1500, amount: 48 }),
      (file) => setLabor(file, 'perHour', 25),
      (file) => setLabor(file, 'hours', 9),
      (file) => setLabor(file, 'consumables', 14),
      (file) => setLabor(file, 'marginFraction', 0.35),
    );
    const { cost, shopping } = planOf(typed);
    // 2,584 mL at 32 a liter are 82.69; two kits are 96; 14 and 9 × 25: 321.69; / 0.65 is 494.91.
    expect(cost).toMatchObject({ currency: 'USD', resin: { consumed: 82.69, bought: 96 }, consumables: 14, total: 321.69, quote: 494.91 });
    expect(shopping[0].kits).toEqual([{ kitMl: 1500, amount: 48, count: 2 }]);
    // One of 1,500 and one of 1,100 mL hold 2,600 for 81; two of the large are 96, three of the small 99.
    const sizes = all(typed, (file) => addKitSize(file, 'TL', { kitMl: 1100, amount: 33 }));
    expect(planOf(sizes).shopping[0].kits.map(({ kitMl, count }) => [kitMl, count])).toEqual([[1500, 1], [1100, 1]]);
    // 3 for each pour and 2 for each scuff on top of the 14.
    const rounds = planOf(all(typed, (file) => setRoundCost(file, 'pourCost', 3), (file) => setRoundCost(file, 'scuffCost', 2)));
    const scuffs = rounds.pours.filter(({ route }) => route === 'cure-scuff-wipe').length;
    expect(rounds.cost!.consumables).toBe(14 + 8 * 3 + scuffs * 2);
  });

  it('goes back to a file that says nothing of them', () => {
    const typed = all(EIGHT, (file) => addKitSize(file, 'TL', { kitMl: 1500, amount: 48 }), (file) => addKitSize(file, 'TL', { kitMl: 3000, amount: 90 }), (file) => setLabor(file, 'taxFraction', 0.1), (file) => addOther(file, { name: 'Base', amount: 10 }));
    expect(kitSizes(typed.formulas![0])).toEqual([{ kitMl: 1500, amount: 48 }, { kitMl: 3000, amount: 90 }]);
    expect(typed.formulas![0].price).toMatchObject({ currency: '' });
    const one = all(typed, (file) => removeKitSize(file, 'TL', 0));
    expect(one.formulas![0].price).toEqual({ kitMl: 3000, amount: 90, currency: '' });
    const none = all(one, (file) => removeKitSize(file, 'TL', 0), (file) => setLabor(file, 'taxFraction', null), (file) => removeOther(file, 0));
    expect(none).toEqual(EIGHT);
    expect(planOf(none).cost).toBeNull();
  });

  it('changes the currency of what had it, and no other', () => {
    const priced = opened(scene({ formulas: [{ ...TL, price: { kitMl: 1000, amount: 30, currency: 'USD' } }, { ...TL, id: 'X', price: { kitMl: 1000, amount: 30, currency: 'CAD' } }] }));
    expect(currencyOf(priced)).toBe('USD');
    const euro = all(priced, (file) => setCurrency(file, 'EUR'));
    expect([euro.labor!.currency, ...euro.formulas!.map(({ price }) => price!.currency)]).toEqual(['EUR', 'EUR', 'CAD']);
  });

  it('refuses in words, each field by its own name', () => {
    const priced = all(EIGHT, (file) => addKitSize(file, 'TL', { kitMl: 1500, amount: 48 }), (file) => addOther(file, { name: 'Base', amount: 10 }));
    expect(reason(changeKitSize(priced, 'TL', 0, { kitMl: 0 }))).toMatch(/^A kit holds: found 0; expected .* mL/);
    expect(reason(changeKitSize(priced, 'TL', 0, { amount: -1 }))).toMatch(/^Price of a kit: found -1; expected /);
    expect(reason(changeKitSize(priced, 'TL', 3, { amount: 1 }))).toMatch(/no longer in the piece/);
    expect(reason(setLabor(EIGHT, 'marginFraction', 1))).toMatch(/^Share of the price you keep: found 1; expected a number from 0 to 0.95/);
    expect(reason(changeOther(priced, 0, { amount: Infinity }))).toMatch(/^Base: found Infinity; expected /);
    expect(reason(addOther(priced, { name: ' ', amount: 1 }))).toMatch(/^Found no name/);
    const foreign = opened({ ...EIGHT, labor: 'four hours' });
    expect(reason(setLabor(foreign, 'hours', 3))).toMatch(/in a form this version does not know/);
    expect(reason(setCurrency(foreign, 'USD'))).toMatch(/in a form this version does not know/);
  });
});

describe('what is on hand', () => {
  it('is typed in any order, together or each part by itself, and used first', () => {
    const typed = all(EIGHT, (file) => addStock(file, 'TL', 600), (file) => changeStock(file, 0, { price: { kitMl: 1000 } }), (file) => changeStock(file, 0, { price: { amount: 20 } }), (file) => changeStock(file, 0, { opened: '2026-04-01' }), (file) => changeStock(file, 0, { keepsDays: 365 }));
    expect(typed.stock).toEqual([{ formula: 'TL', ml: 600, price: { kitMl: 1000, amount: 20 }, opened: '2026-04-01', keepsDays: 365 }]);
    expect(planOf(typed).shopping[0]).toMatchObject({ onHandMl: 600, fromStock: [{ stock: 0, ml: 600 }] });
    const parts = all(typed, (file) => changeStock(file, 0, { partAMl: 400 }), (file) => changeStock(file, 0, { partBMl: 100 }));
    // 2:1: 100 mL of B allow 300.
    expect(planOf(parts).shopping[0].onHandMl).toBeCloseTo(300, 9);
    expect(stockOf(parts, 'TL').map(({ kit }) => [kit.ml, kit.partAMl, kit.partBMl])).toEqual([[undefined, 400, 100]]);
    expect(all(parts, (file) => changeStock(file, 0, { ml: 50 })).stock![0]).not.toHaveProperty('partAMl');
    expect(all(typed, (file) => removeStock(file, 0))).toEqual(EIGHT);
  });

  it('refuses in words', () => {
    const typed = all(EIGHT, (file) => addStock(file, 'TL', 600));
    expect(reason(addStock(EIGHT, 'TL', -3))).toMatch(/^On hand: found -3; expected .* mL/);
    expect(reason(addStock(EIGHT, 'zz', 3))).toMatch(/no longer in the scene/);
    expect(reason(changeStock(typed, 0, { keepsDays: 30 }))).toMatch(/^Keeps, once opened: has no day to count from; expected "opened"/);
    expect(reason(changeStock(typed, 0, { opened: '2026-02-30' }))).toMatch(/^Opened: found "2026-02-30"; expected a date that exists/);
    expect(reason(changeStock(typed, 0, { price: { amount: 3 } }))).toMatch(/^The whole kit holds: found 0; expected .* mL/);
    expect(reason(changeStock(typed, 4, { ml: 1 }))).toMatch(/no longer in the piece/);
    const foreign = opened({ ...EIGHT, stock: [{ bottles: 2 }] });
    expect(stockOf(foreign, 'TL')).toEqual([]);
    expect(reason(addStock(foreign, 'TL', 3))).toMatch(/in a form this version does not know/);
  });

  it('goes when its formula is taken out', () => {
    const other = opened(scene({ formulas: [TL, { ...TL, id: 'X', name: 'X' }] }));
    const typed = all(other, (file) => addStock(file, 'X', 500), (file) => chooseFrom(file, 'X', true));
    const left = all(typed, (file) => removeFormula(file, 'X'));
    expect(left.plan).toEqual({ formulas: ['TL'] });
    expect(left).not.toHaveProperty('stock');
  });
});

describe('clarity', () => {
  const FOUR = opened(scene({ fillMm: 40, fills: [{ toMm: 40, formula: 'TL', tint: { color: '#2f6f73', percent: 0.2 } }], formulas: [{ ...TL, maxDepthMm: 10 }] }));
  const chip = { percent: 0.1, mm: 10, passes: 0.9 };

  it('comes to the tint case: half of the light through four layers', () => {
    const even = all(FOUR, (file) => setSwatch(file, 0, chip), (file) => setTarget(file, 0, {}));
    expect(targetOf(even.fills[0].tint)).toEqual({ passes: 0.5, how: 'even', ratio: 2 });
    // ln 2 / (−ln 0.9 / (0.1 · 10) · 40) = 0.1645 %.
    for (const { tint } of planOf(even).pours) expect(tint!.percent).toBeCloseTo(0.1645, 4);
    const deepening = planOf(all(even, (file) => setTarget(file, 0, { how: 'deepening' }), (file) => setDyeScale(file, 0.01))).pours.map(({ tint }) => tint!.percent);
    expect(deepening.map((percent) => Math.round(percent / deepening[3]))).toEqual([8, 4, 2, 1]);
  });

  it('keeps what it does not know of, and goes back', () => {
    const swatched = all(FOUR, (file) => setSwatch(file, 0, chip));
    const noted = opened({ ...swatched, fills: [{ ...swatched.fills[0], tint: { ...swatched.fills[0].tint, swatch: { ...chip, note: 'held to the north window' } } }] });
    expect(all(noted, (file) => setSwatch(file, 0, { ...chip, mm: 12 })).fills[0].tint!.swatch).toEqual({ ...chip, mm: 12, note: 'held to the north window' });
    expect(all(swatched, (file) => setTarget(file, 0, { passes: 0.3 }), (file) => setTarget(file, 0, null))).toEqual(swatched);
    expect(all(swatched, (file) => setTarget(file, 0, {}), (file) => setSwatch(file, 0, null))).toEqual(FOUR);
    expect(all(FOUR, (file) => setDyeScale(file, 0.01), (file) => setDyeScale(file, null)).bench).toEqual(FOUR.bench);
  });

  it('refuses in words', () => {
    expect(reason(setSwatch(pond(), 1, chip))).toBe('This fill is clear. Tint it first.');
    expect(reason(setTarget(FOUR, 0, {}))).toMatch(/^How clear a fill gets is worked out from a chip you poured/);
    expect(reason(setSwatch(FOUR, 0, { ...chip, passes: 1 }))).toMatch(/^Light that passes: found 1; expected a number from 0.0001 to 0.9999/);
    expect(reason(setSwatch(FOUR, 0, { ...chip, mm: 0 }))).toMatch(/^Thickness of the chip: found 0; expected .* mm/);
    const foreign = opened({ ...FOUR, fills: [{ ...FOUR.fills[0], tint: { ...FOUR.fills[0].tint, swatch: { seen: 'blue' } } }] });
    expect(swatchOf(foreign.fills[0].tint)).toBeNull();
    expect(reason(setSwatch(foreign, 0, chip))).toMatch(/in a form this version does not know/);
    expect(reason(setDyeScale(FOUR, 0))).toMatch(/^One step of the scale for dye: found 0; expected .* g/);
  });
});

describe('formulas to choose from', () => {
  it('begin with those that are poured, and end with each fill’s own', () => {
    const two = all(pond(), (file) => chooseFrom(file, 'deep-pour', true));
    expect(choiceOf(two)).toEqual(['low-viscosity', 'general', 'deep-pour']);
    const less = all(two, (file) => chooseFrom(file, 'general', false), (file) => chooseFrom(file, 'deep-pour', false));
    expect(choiceOf(less)).toEqual(['low-viscosity']);
    expect(reason(chooseFrom(less, 'low-viscosity', false))).toMatch(/^Nothing would be left to pour/);
    expect(choiceOf(all(less, keepOwnFormulas))).toBeNull();
    expect(all(pond(), (file) => setCupMin(file, 20)).plan).toEqual({ cupMin: 20 });
    expect(reason(setCupMin(pond(), 0))).toMatch(/^To mix and pour out one cup: found 0; expected .* min/);
  });
});
