/** What is done once the piece is out of its mold, and when; nothing where the scene plans no finish. */
import { GOES_ON } from '../../core/plan/step-words.ts';
import { dayAndTime } from '../../core/units/when.ts';
import { useDerived } from '../shared/piece.ts';
import { useWords } from '../shared/words.ts';

export function FinishList() {
  const { plan } = useDerived();
  const words = useWords();
  if (plan.ready === undefined) return null;
  const steps = plan.steps.filter(({ finishing, text }) => finishing && finishing.work !== 'begins' && text !== GOES_ON);
  return (
    <details className="cautions">
      <summary>Finish, done {dayAndTime(plan.ready)}</summary>
      <ul>{steps.map(({ from, text, finishing }, i) => <li key={i}><b>{dayAndTime(from)}.</b> {finishing!.work === 'coat' && plan.finishing!.coatHalt !== null ? <strong>{words.planned(text)}</strong> : words.planned(text)}</li>)}</ul>
    </details>
  );
}
