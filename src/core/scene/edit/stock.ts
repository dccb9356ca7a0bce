/** Bottles on hand of a formula: how much is left, since when and until when it is good, what the whole kit cost. */
import { capital, plain } from '../../units/format.ts';
import { LIMITS } from '../schema.ts';
import { done, refused, type EditResult, type KitSizeFile, type SceneFile, type StockFile } from './file.ts';
import { formulaIn } from './formulas.ts';
import { isOurs } from './ours.ts';
import { patched, replacedAt, unlessEmpty } from './replace.ts';

/** A kit with its place among all of the scene's. */
export interface PlacedStock {
  readonly at: number;
  readonly kit: StockFile;
}

/** `null` takes a value out again. */
export interface StockPatch {
  /** Both parts together; takes the place of parts given each by itself, and these of it. */
  readonly ml?: number;
  readonly partAMl?: number;
  readonly partBMl?: number;
  readonly opened?: string | null;
  readonly keepsDays?: number | null;
  readonly bestBefore?: string | null;
  readonly price?: Partial<KitSizeFile> | null;
}

export function stockOf(file: SceneFile, formula: string): readonly PlacedStock[] {
  return isOurs(file, 'stock') ? (file.stock ?? []).flatMap((kit, at) => (kit.formula === formula ? [{ at, kit }] : [])) : [];
}

/** Some of it, mL of both parts together. */
export function addStock(file: SceneFile, formula: string, ml: number): EditResult {
  if (!formulaIn(file, formula)) return refused('That formula is no longer in the scene.');
  if (!isOurs(file, 'stock')) return refused('The piece holds stock that was written in a form this version does not know. Take “stock” out of its file first.');
  if ((file.stock ?? []).length >= LIMITS.stock) return refused(`A piece holds ${LIMITS.stock} kits at most. Take one out first.`);
  return withStock(file, [...(file.stock ?? []), { formula, ml }], `${plain(ml, 0)}\u00a0mL on hand`);
}

export function changeStock(file: SceneFile, at: number, patch: StockPatch): EditResult {
  const old = file.stock?.[at];
  if (!old) return gone();
  const next = { ...patch, ...amounts(old, patch), price: priceOf(old, patch) };
  return withStock(file, replacedAt(file.stock!, at, patched(old, Object.fromEntries(Object.entries(next).map(([key, value]) => [key, value ?? undefined])))), 'what is on hand');
}

export function removeStock(file: SceneFile, at: number): EditResult {
  if (!file.stock?.[at]) return gone();
  return withStock(file, file.stock.filter((_, i) => i !== at), 'a kit is used up');
}

/** One amount of both parts, or one of each. */
function amounts(old: StockFile, { ml, partAMl, partBMl }: StockPatch): Partial<Record<'ml' | 'partAMl' | 'partBMl', number | null>> {
  if (ml !== undefined) return { ml, partAMl: null, partBMl: null };
  if (partAMl === undefined && partBMl === undefined) return {};
  return { ml: null, partAMl: partAMl ?? old.partAMl ?? 0, partBMl: partBMl ?? old.partBMl ?? 0 };
}

/** A price needs both its numbers: the other is taken as it stands, or as none of it. */
function priceOf(old: StockFile, { price }: StockPatch): StockFile['price'] | null {
  if (price === undefined) return old.price ?? null;
  return price === null ? null : { ...old.price, kitMl: price.kitMl ?? old.price?.kitMl ?? 0, amount: price.amount ?? old.price?.amount ?? 0 };
}

const gone = (): EditResult => refused('That kit is no longer in the piece.');

const FIELD_WORDS: Readonly<Record<string, string>> = { ml: 'on hand', partAMl: 'part A', partBMl: 'part B', opened: 'opened', keepsDays: 'keeps, once opened', bestBefore: 'best before', kitMl: 'the whole kit holds', amount: 'it cost' };

/** The reader names the place in the file; a person has only this one kit in mind. */
function withStock(file: SceneFile, stock: readonly StockFile[], label: string): EditResult {
  const result = done(patched(file, { stock: unlessEmpty(stock) }), label);
  if (result.ok) return result;
  const field = /^stock\[\d+\]\.?(?:price\.)?(\w*):? (.*)$/s.exec(result.reason);
  return field ? refused(`${capital(FIELD_WORDS[field[1]] ?? 'kit')}: ${field[2]}`) : result;
}
