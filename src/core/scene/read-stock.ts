/** What the person has on hand: kits of formulas that the file knows, each with how much is left and until when it is good. */
import { isBuiltIn } from '../resin/formula.ts';
import { dayOfDate } from '../units/time.ts';
import type { Formula, StockKit } from './scene.ts';
import type { SceneDocument } from './schema.ts';

type Refuse = (path: string, message: string) => void;
type Entry = SceneDocument['stock'][number];

export function stockOf({ stock }: SceneDocument, formulas: ReadonlyMap<string, Formula>, refuse: Refuse): StockKit[] {
  return stock.map((entry, i) => {
    const path = `stock[${i}]`;
    if (!formulas.has(entry.formula) && !isBuiltIn(entry.formula)) {
      refuse(`${path}.formula`, `found "${entry.formula}"; expected one of ${[...formulas.keys()].slice(0, 12).map((name) => `"${name}"`).join(', ')}.`);
    }
    const parts = entry.partAMl !== undefined && entry.partBMl !== undefined;
    const half = (entry.partAMl !== undefined) !== (entry.partBMl !== undefined);
    if (half || (entry.ml !== undefined) === parts) refuse(path, 'found no one amount; expected either "ml", of both parts together, or both "partAMl" and "partBMl".');
    return {
      formula: entry.formula,
      ml: entry.ml ?? { partA: entry.partAMl ?? 0, partB: entry.partBMl ?? 0 },
      useByDay: useByDay(entry, path, refuse),
      price: entry.price,
    };
  });
}

function useByDay({ opened, keepsDays, bestBefore }: Entry, path: string, refuse: Refuse): number | undefined {
  if (keepsDays !== undefined && opened === undefined) refuse(`${path}.keepsDays`, 'has no day to count from; expected "opened" beside it, the day the kit was opened, like "2026-03-01".');
  const days = [...(opened !== undefined && keepsDays !== undefined ? [dayOfDate(opened) + Math.floor(keepsDays)] : []), ...(bestBefore !== undefined ? [dayOfDate(bestBefore)] : [])];
  return days.length === 0 ? undefined : Math.min(...days);
}
