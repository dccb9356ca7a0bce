/** What is said of a pour's heat in its row: how warm it gets, what is safe, what would help, and its chart on asking. */
import { Suspense, useState } from 'react';
import { coolRoom } from '../../core/scene/edit/heat-model.ts';
import { setFormula } from '../../core/scene/edit/fills.ts';
import type { Fix } from '../../core/cure/verdict-types.ts';
import { safeDepth, warmth } from '../../core/plan/heat-words.ts';
import type { Pour, PourHeat } from '../../core/plan/plan.ts';
import type { Formula, Scene } from '../../core/scene/scene.ts';
import { plain } from '../../core/units/format.ts';
import { fetched } from '../shared/fetched.tsx';
import { Rich } from '../shared/Rich.tsx';
import { usePiece } from '../shared/piece.ts';
import { useWords } from '../shared/words.ts';
import { CANT_BE_TOLD, nearness, safeLine, verdictLine } from './heat-words.ts';
import './heat.css';

const HeatChart = fetched(async () => (await import('./HeatChart.tsx')).HeatChart);
const NO_NAMES: readonly string[] = [];

export interface HeatLineProps {
  readonly pour: Pour;
  readonly scene: Scene;
}

export function HeatLine({ pour, scene }: HeatLineProps) {
  const [open, setOpen] = useState(false);
  const { planned } = useWords();
  const checking = usePiece((state) => state.derived?.checkingHeat ?? false);
  const { heat } = pour;
  const formula = scene.formulas.get(pour.formula);
  if (heat === null || !formula) return checking ? <p className="heat-line soft">checking the heat …</p> : null;
  return (
    <div className={`heat-line heat-${nearness(pour)}`}>
      <p>
        <b>{planned(verdictLine(heat))}</b> <Rich text={safeLine({ heat, why: pour.why }, formula, scene.mold)} names={NO_NAMES} />
        {heat.words === "can't be told" && ` ${CANT_BE_TOLD}`}
        {checking && <span className="soft"> checking the heat …</span>}
      </p>
      {heat.fixes.length > 0 && <Fixes pour={pour} heat={heat} formula={formula} scene={scene} />}
      <details className="heat-more" onToggle={(event) => setOpen(event.currentTarget.open)}>
        <summary>How warm it gets<span className="hidden">: pour {pour.index}</span></summary>
        {open && <Suspense fallback={<p className="soft">The chart is being drawn …</p>}><HeatChart pour={pour} /></Suspense>}
        <p className="soft"><Rich text={heat.bubbles.words} names={NO_NAMES} /> <Rich text={heat.softens.words} names={NO_NAMES} /></p>
      </details>
    </div>
  );
}

interface FixesProps extends HeatLineProps {
  readonly heat: PourHeat;
  readonly formula: Formula;
}

function Fixes({ pour, heat, scene }: FixesProps) {
  const { planned } = useWords();
  const readOnly = usePiece((state) => state.readOnly !== null);
  return (
    <ul className="heat-fixes" aria-label={`What would help pour ${pour.index}`}>
      {heat.fixes.map((fix) => (
        <li key={fix.kind}>
          {planned(`${fix.words} Then ${fix.kind === 'split' ? `each gets ${warmth(fix.after.rangeC)}` : `${safeDepth(fix.after)} are safe and it gets ${warmth(fix.after.rangeC)}`}.`)}
          {!readOnly && <FixButton fix={fix} pour={pour} scene={scene} />}
        </li>
      ))}
    </ul>
  );
}

/** Where one press does it: cooling the room, another formula. Splitting the plan has done itself; waiting is the bench's. */
function FixButton({ fix, pour, scene }: HeatLineProps & { readonly fix: Fix }) {
  const edit = usePiece((state) => state.edit);
  if (fix.kind === 'cool' && typeof fix.amount === 'number') {
    const { amount } = fix;
    return <button type="button" className="link" onClick={() => edit((file) => coolRoom(file, amount))}>Set the room to {plain(amount)}{'\u00a0'}°C</button>;
  }
  if (fix.kind === 'formula' && typeof fix.amount === 'string') {
    const { amount } = fix;
    const at = scene.fills.findIndex(({ toMm }) => (pour.fromMm + pour.toMm) / 2 < toMm);
    return <button type="button" className="link" onClick={() => edit((file) => setFormula(file, at, amount))}>Pour it in this fill</button>;
  }
  return null;
}
