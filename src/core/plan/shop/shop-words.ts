/** What to take, what to buy and what it costs, in sentences for terminal and paper. */
import { counted, fixed, listed, ml, mm, plain } from '../../units/format.ts';
import type { Cost, ShoppingRow } from '../plan.ts';

const NBSP = '\u00a0';

/** Sentences about a formula's kits; none where nothing is on hand and no price is known. */
export function kitLines(row: ShoppingRow): string[] {
  const lines: string[] = [];
  const fromStock = row.fromStock.reduce((sum, { ml: taken }) => sum + taken, 0);
  if (fromStock > 0) lines.push(`Take ${ml(fromStock)} of the ${ml(row.onHandMl)} on hand${row.fromStock.length > 1 ? ', what keeps least long first' : ''}.`);
  if (row.tooOld.length > 0) lines.push(`${counted(row.tooOld.length, 'kit')} on hand will be past ${row.tooOld.length === 1 ? 'its' : 'their'} day by then and ${row.tooOld.length === 1 ? 'is' : 'are'} not counted.`);
  if (row.kits.length > 0) lines.push(`Buy ${listed(row.kits.map((kit) => `${counted(kit.count, 'kit')} of ${ml(kit.kitMl)}`))}, ${price(row.bought!, row.currency)}.`);
  else if (row.toBuyMl > 0 && row.fromStock.length + row.tooOld.length > 0) lines.push(`Buy kits that hold ${ml(row.toBuyMl)} more.`);
  const sources = row.fromStock.length + row.kits.reduce((sum, { count }) => sum + count, 0);
  if (sources > 1) lines.push('It comes out of more than one kit: pour each layer from one.');
  if (lines.length > 0 && row.leftoverFills) {
    const { count, diameterMm, depthMm } = row.leftoverFills;
    lines.push(`${ml(row.leftoverMl)} will be left, enough for ${counted(count, 'round')} of ${mm(diameterMm)}, ${mm(depthMm)} deep.`);
  }
  return lines;
}

/** The cost line by line, what it is for and how much; the last is what to ask. */
export function costLines(cost: Cost): { readonly what: string; readonly amount: string }[] {
  const { currency, resin, consumables, other, labor, reserve, total, quote, tax, quoteWithTax, toSpend } = cost;
  const rows: [string, number | null, shown?: boolean][] = [
    ['Resin used up', resin?.consumed ?? null],
    ['Consumables', consumables, consumables > 0],
    ...other.map(({ name, amount }): [string, number] => [name, amount]),
    [`Work, ${plain(labor.hours, 2)}${NBSP}h at ${price(labor.perHour, currency)}`, labor.amount, labor.amount > 0],
    ['For pieces that are lost', reserve, reserve !== null && reserve > 0],
    ['In all', total],
    ['To ask, with the margin', quote, quote !== total],
    ['Tax', tax, tax !== null && tax > 0],
    ['To ask, with tax', quoteWithTax, tax !== null && tax > 0],
    ['To pay out: whole kits and all but the work', toSpend],
  ];
  return rows.filter(([, amount, shown]) => amount !== null && shown !== false).map(([what, amount]) => ({ what, amount: price(amount!, currency) }));
}

/** Said where a price is missing; null where none is. */
export function missingPrices({ missing, currency }: Cost, nameOf: (formula: string) => string): string | null {
  if (missing.length === 0) return null;
  return `${listed(missing.map(nameOf))} ${missing.length === 1 ? 'has' : 'have'} no price${currency ? ` in ${currency}` : ''}, so there is no sum. Give the price of a kit.`;
}

function price(amount: number, currency: string | null): string {
  return `${fixed(amount, 2)}${currency ? `${NBSP}${currency}` : ''}`;
}
