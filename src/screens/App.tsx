/** The page: top bar, the gauge at the left, and the screen that the address names. */
import { useEffect } from 'react';
import { PoursScreen } from './pours/PoursScreen.tsx';
import { DropZone } from './shared/DropZone.tsx';
import { GaugeColumn } from './shared/GaugeColumn.tsx';
import { useScreen } from './shared/route.ts';
import { useScene } from './shared/store.ts';
import { TopBar } from './shared/TopBar.tsx';
import { TroublePanel } from './shared/TroublePanel.tsx';
import { SheetScreen } from './sheet/SheetScreen.tsx';
import './page.css';

export function App() {
  const screen = useScreen();
  const name = useScene((state) => state.shown?.scene.name);
  const hasScene = useScene((state) => state.shown !== null);
  const opening = useScene((state) => state.opening);
  useEffect(() => {
    document.title = name ? `${name}, Stillpool` : 'Stillpool';
  }, [name]);
  return (
    <DropZone>
      <TopBar screen={screen} />
      <div className={hasScene && screen !== 'sheet' ? 'bench-top' : 'bench-top alone'}>
        {hasScene && screen !== 'sheet' && <GaugeColumn />}
        <main>
          <TroublePanel />
          <p role="status" className={hasScene ? 'opening over' : 'opening'}>{opening !== null && `Reading ${opening} …`}</p>
          {hasScene && (screen === 'sheet' ? <SheetScreen /> : <PoursScreen />)}
        </main>
      </div>
    </DropZone>
  );
}
