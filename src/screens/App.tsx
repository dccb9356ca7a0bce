/** The page: top bar, what has to be said, and the screen that the address names. */
import { Suspense, useEffect, useState } from 'react';
import { ComposeScreen } from './compose/ComposeScreen.tsx';
import { useComposeUi } from './compose/ui.ts';
import { FilesDialog } from './files/FilesDialog.tsx';
import { ReadingPanel } from './files/ReadingPanel.tsx';
import { SafetyPanel } from './files/SafetyPanel.tsx';
import { UnitNotice } from './files/UnitNotice.tsx';
import { DropZone } from './shared/DropZone.tsx';
import { fetched } from './shared/fetched.tsx';
import { GaugeColumn } from './shared/GaugeColumn.tsx';
import { usePiece, usePieceStore } from './shared/piece.ts';
import { useScreen, type ScreenName } from './shared/route.ts';
import { TopBar } from './shared/TopBar.tsx';
import { TroublePanel } from './shared/TroublePanel.tsx';
import './page.css';
// Compose's findings are set in it too.
import './pours/pours.css';

// Not needed before the gauge can be used.
const PoursScreen = fetched(async () => (await import('./pours/PoursScreen.tsx')).PoursScreen);
const SheetScreen = fetched(async () => (await import('./sheet/SheetScreen.tsx')).SheetScreen);

export function App() {
  const screen = useScreen();
  const [files, setFiles] = useState(false);
  const name = usePiece((state) => state.document?.name);
  const ready = usePiece((state) => state.derived !== null);
  useEffect(() => {
    document.title = name ? `${name}, Stillpool` : 'Stillpool';
  }, [name]);
  const opening = usePiece((state) => state.opening);
  const letGo = useComposeUi((ui) => ui.letGo);
  useEffect(() => {
    if (opening === null) letGo();
  }, [opening, letGo]);
  useLeaveWarning();
  useUndoKeys(screen !== 'compose');
  return (
    <DropZone>
      <TopBar screen={screen} onFiles={() => setFiles(true)} />
      <div className="said">
        <SafetyPanel />
        <TroublePanel planning={screen !== 'compose' || !ready} />
        {ready && <UnitNotice />}
        <ReadingPanel />
      </div>
      {ready && <Screen screen={screen} />}
      {files && <FilesDialog onClose={() => setFiles(false)} />}
    </DropZone>
  );
}

/** Ctrl or Cmd with Z, and with Shift; Compose has its own keys. In a field they are the field's. */
function useUndoKeys(on: boolean): void {
  const store = usePieceStore();
  useEffect(() => {
    if (!on) return;
    const onKey = (event: KeyboardEvent): void => {
      if (!(event.ctrlKey || event.metaKey) || event.altKey || event.key.toLowerCase() !== 'z') return;
      if (event.target instanceof HTMLElement && event.target.closest('input, textarea, select, dialog')) return;
      event.preventDefault();
      if (event.shiftKey) store.getState().redo();
      else store.getState().undo();
    };
    addEventListener('keydown', onKey);
    return () => removeEventListener('keydown', onKey);
  }, [on, store]);
}

/** The browser asks before the page goes, only where something would go with it. */
function useLeaveWarning(): void {
  const store = usePieceStore();
  useEffect(() => {
    const onLeave = (event: BeforeUnloadEvent): void => {
      const { kept, readOnly } = store.getState();
      if (kept.state === 'failing' && readOnly === null && kept.unsaved) event.preventDefault();
    };
    addEventListener('beforeunload', onLeave);
    return () => removeEventListener('beforeunload', onLeave);
  }, [store]);
}

function Screen({ screen }: { readonly screen: ScreenName }) {
  if (screen === 'compose') return <ComposeScreen />;
  return (
    <div className={screen === 'sheet' ? 'bench-top alone' : 'bench-top'}>
      {screen !== 'sheet' && <GaugeColumn />}
      <main><Suspense fallback={<p className="soft">One moment …</p>}>{screen === 'sheet' ? <SheetScreen /> : <PoursScreen />}</Suspense></main>
    </div>
  );
}
