/** Wordmark, the scene's name, the screens, what the plan comes to, and the way to another scene. */
import { counted, listed } from '../../core/units/format.ts';
import { dayName } from '../../core/units/when.ts';
import { countOf, haltedPours } from '../../store/findings.ts';
import type { ShownScene } from '../../store/scene-store.ts';
import { OpenButton } from './OpenButton.tsx';
import { SCREENS, type ScreenName } from './route.ts';
import { useScene } from './store.ts';

/** Numbers of pours spelled out. */
const MOST_NAMED = 3;

export function TopBar({ screen }: { readonly screen: ScreenName }) {
  const shown = useScene((state) => state.shown);
  return (
    <header className="top-bar">
      <div className="brand">
        <span className="wordmark">Stillpool</span>
        {shown && <h1 className="scene-name">{shown.scene.name || 'A scene without a name'}</h1>}
      </div>
      <nav aria-label="Screens">
        {SCREENS.map(({ hash, title }) => (
          <a key={hash} href={`#${hash}`} aria-current={hash === screen ? 'page' : undefined}>{title}</a>
        ))}
      </nav>
      <div className="top-end">
        {shown && <Summary shown={shown} />}
        <OpenButton />
      </div>
    </header>
  );
}

function Summary({ shown: { plan, scene } }: { readonly shown: ShownScene }) {
  const halted = [...haltedPours(plan)];
  const cautions = countOf(plan, 'caution');
  return (
    <p className="summary">
      <b>{counted(plan.pours.length, 'pour')}</b>, {scene.mold.keep ? 'done' : 'out of the mold'} <b>{dayName(plan.finish)}</b>
      <span aria-hidden="true"> · </span>
      {halted.length > 0 && <><b className="halt-text">do not pour{halted.length < plan.pours.length && ` ${which(halted)}`}</b>, </>}
      <b>{cautions === 0 ? 'no cautions' : counted(cautions, 'caution')}</b>
    </p>
  );
}

const which = (pours: readonly number[]): string => (pours.length <= MOST_NAMED ? listed(pours.map(String)) : `${pours.length} of them`);
