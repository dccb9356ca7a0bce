/** What to take from stock, which kits to buy, and the cost line by line; nothing where the scene says nothing of them. */
import { costLines, kitLines, missingPrices } from '../../core/plan/shop/shop-words.ts';
import { useDerived } from '../shared/piece.ts';
import { useWords } from '../shared/words.ts';

export function KitsAndCost() {
  const { scene, plan } = useDerived();
  const words = useWords();
  const nameOf = (formula: string) => scene.formulas.get(formula)?.name ?? formula;
  const kits = plan.shopping.flatMap((row) => {
    const lines = kitLines(row);
    return lines.length === 0 ? [] : [{ formula: row.formula, text: lines.join(' ') }];
  });
  const missing = plan.cost && missingPrices(plan.cost, nameOf);
  if (kits.length === 0 && plan.cost === null) return null;
  return (
    <details className="cautions">
      <summary>Kits and cost</summary>
      <ul>
        {kits.map(({ formula, text }) => <li key={formula}><b>{nameOf(formula)}.</b> {words.planned(text)}</li>)}
        {plan.cost && costLines(plan.cost).map(({ what, amount }, i) => <li key={i}>{what}: <b>{amount}</b></li>)}
        {missing !== null && <li>{missing}</li>}
      </ul>
    </details>
  );
}
