/** Wordmark, the piece's name, the screens, what the plan comes to and how safe it is, and the way to its files. */
import { isUndated } from '../../core/plan/undated.ts';
import { counted, listed } from '../../core/units/format.ts';
import { dayName } from '../../core/units/when.ts';
import { countOf, haltedPours } from '../../store/findings.ts';
import type { Derived } from '../../store/piece-state.ts';
import { keptWords } from '../files/kept-words.ts';
import { usePiece } from './piece.ts';
import { SCREENS, type ScreenName } from './route.ts';

/** Numbers of pours spelled out. */
const MOST_NAMED = 3;

export interface TopBarProps {
  readonly screen: ScreenName;
  readonly onFiles: () => void;
}

export function TopBar({ screen, onFiles }: TopBarProps) {
  const derived = usePiece((state) => state.derived);
  const name = usePiece((state) => state.document?.name);
  const open = usePiece((state) => state.document !== null);
  return (
    <header className="top-bar">
      <div className="brand">
        <span className="wordmark">Stillpool</span>
        {open && <h1 className="scene-name">{name || 'A piece without a name'}</h1>}
      </div>
      <nav aria-label="Screens">
        {SCREENS.map(({ hash, title }) => (
          <a key={hash} href={`#${hash}`} aria-current={hash === screen ? 'page' : undefined}>{title}</a>
        ))}
      </nav>
      <div className="top-end">
        <div className="bar-words">
          {derived && <Summary derived={derived} />}
          {open && <KeptLine />}
        </div>
        <button type="button" className="button" aria-haspopup="dialog" onClick={onFiles}>Files</button>
      </div>
    </header>
  );
}

function Summary({ derived: { plan, scene, about, checkingHeat } }: { readonly derived: Derived }) {
  const stale = usePiece((state) => state.unplanned.length > 0);
  if (stale) return <p className="summary"><b>Not planned:</b> see what is in the way</p>;
  const halted = [...haltedPours(plan)];
  const cautions = countOf(plan, 'caution');
  const allClear = halted.length === 0 && cautions === 0 && !checkingHeat;
  return (
    <p className="summary">
      {about && 'about '}<b>{counted(plan.pours.length, 'pour')}</b>, {isUndated(plan) ? <b>no first day set</b> : <>{scene.mold.keep ? 'done' : <>out<span className="where-roomy"> of the mold</span></>} <b>{dayName(plan.finish)}</b></>}
      <span className={allClear ? 'where-roomy' : undefined}>
        <span aria-hidden="true"> · </span>
        {halted.length > 0 ? <b className="halt-text">do not pour{halted.length < plan.pours.length && ` ${which(halted)}`}</b> : checkingHeat ? 'checking the heat …' : 'no halts'}, <b>{cautions === 0 ? 'no cautions' : counted(cautions, 'caution')}</b>
      </span>
    </p>
  );
}

function KeptLine() {
  const kept = usePiece((state) => state.kept);
  return <p className="summary soft" role="status" aria-label="Keeping">{keptWords(kept)}</p>;
}

const which = (pours: readonly number[]): string => (pours.length <= MOST_NAMED ? listed(pours.map(String)) : `${pours.length} of them`);
