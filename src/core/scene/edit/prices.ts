/** What kits of a formula cost: one size or several, in the person's currency; and what pours and scuffs cost beside the resin. */
import { plain } from '../../units/format.ts';
import { LIMITS } from '../schema.ts';
import { done, refused, type EditResult, type FormulaFile, type KitSizeFile, type PriceFile, type SceneFile } from './file.ts';
import { formulaIn, setLabelValue } from './formulas.ts';
import { isOurs } from './ours.ts';
import { withParts } from './parts.ts';
import { patched, replacedAt, unlessEmpty } from './replace.ts';

/** Every size that is sold, in the file's order. */
export function kitSizes({ price }: FormulaFile): readonly KitSizeFile[] {
  return price ? [{ kitMl: price.kitMl, amount: price.amount }, ...(price.sizes ?? [])] : [];
}

/** A formula's own, else the piece's; empty while nobody said. */
export function currencyOf(file: SceneFile, formula?: FormulaFile): string {
  const labor = isOurs(file, 'labor') ? file.labor?.currency : undefined;
  return formula?.price?.currency ?? labor ?? (file.formulas ?? []).find(({ price }) => price?.currency)?.price!.currency ?? '';
}

export function addKitSize(file: SceneFile, id: string, size: KitSizeFile): EditResult {
  const formula = formulaIn(file, id);
  if (!formula) return gone();
  const { price } = formula;
  if (!price) return withPrice(file, id, { ...size, currency: currencyOf(file) });
  if ((price.sizes ?? []).length >= LIMITS.sizes) return refused(`A formula is sold in ${LIMITS.sizes + 1} sizes at most here. Take one out first.`);
  return withPrice(file, id, { ...price, sizes: [...(price.sizes ?? []), size] });
}

/** `at` counts as `kitSizes` does. */
export function changeKitSize(file: SceneFile, id: string, at: number, patch: Partial<KitSizeFile>): EditResult {
  const price = formulaIn(file, id)?.price;
  const old = at === 0 ? price : price?.sizes?.[at - 1];
  if (!price || !old) return gone();
  return withPrice(file, id, at === 0 ? patched(price, patch) : patched(price, { sizes: replacedAt(price.sizes!, at - 1, patched(price.sizes![at - 1], patch)) }));
}

/** With the last size the price goes. */
export function removeKitSize(file: SceneFile, id: string, at: number): EditResult {
  const formula = formulaIn(file, id);
  const price = formula?.price;
  if (!formula || !price || !kitSizes(formula)[at]) return gone();
  const [first, ...more] = kitSizes(formula).filter((_, i) => i !== at);
  return first ? withPrice(file, id, patched(price, { ...first, sizes: unlessEmpty(more) })) : setLabelValue(file, id, 'price', null);
}

/** The piece's own, and that of every price that had it. */
export function setCurrency(file: SceneFile, currency: string): EditResult {
  if (!isOurs(file, 'labor')) return refused('The piece holds “labor” in a form this version does not know. Take it out of its file first.');
  const was = currencyOf(file);
  const to = currency.trim().slice(0, CURRENCY_MAX);
  const formulas = file.formulas?.map((formula) => (formula.price && formula.price.currency === was ? patched(formula, { price: patched(formula.price, { currency: to }) }) : formula));
  return done(patched(file, { labor: patched(file.labor ?? {}, { currency: to === '' ? undefined : to }), formulas }), `money in ${to || 'no currency'}`, 'currency');
}

/** Longer than any currency's code or name on a price tag. */
const CURRENCY_MAX = 20;

/** Cup, gloves, stirrer of one pour; paper and wipes of one scuff; `null`: nothing. */
export function setRoundCost(file: SceneFile, which: 'pourCost' | 'scuffCost', amount: number | null): EditResult {
  const words = which === 'pourCost' ? 'cup, gloves and so on for a pour' : 'paper and wipes for a scuff';
  return withParts(file, { plan: { [which]: amount ?? undefined } }, `${words} ${amount === null ? 'not counted' : plain(amount, 2)}`, words);
}

const gone = (): EditResult => refused('That price is no longer in the piece.');

function withPrice(file: SceneFile, id: string, price: PriceFile): EditResult {
  const result = setLabelValue(file, id, 'price', price);
  // One of two numbers was typed; only what a kit holds has a unit.
  return result.ok ? result : refused(result.reason.replace(/^Price: (.* mL)/, 'A kit holds: $1').replace(/^Price:/, 'Price of a kit:'));
}
