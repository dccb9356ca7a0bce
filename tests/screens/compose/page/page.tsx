/** Compose alone with the page's own store, for looking at it and for its browser checks before it has a page. */
import '@fontsource/alegreya/500.css';
import '@fontsource/alegreya/500-italic.css';
import '@fontsource/alegreya-sans/400.css';
import '@fontsource/alegreya-sans/500.css';
import '@fontsource/alegreya-sans/700.css';
import { createRoot } from 'react-dom/client';
import { ComposeScreen } from '../../../../src/screens/compose/ComposeScreen.tsx';
import { useComposeUi } from '../../../../src/screens/compose/ui.ts';
import { PieceContext } from '../../../../src/screens/shared/piece.ts';
import { openKeeping } from '../../../../src/store/keeping/keeping.ts';
import { browserMemories } from '../../../../src/store/piece-memory.ts';
import { createPieceStore } from '../../../../src/store/piece-store.ts';
import { EditorClient } from '../../../../src/work/editor-client.ts';
import '../../../../src/screens/page.css';

const store = createPieceStore({ editor: new EditorClient(), keeping: openKeeping(), memories: browserMemories() });
Object.assign(window, { piece: store, ui: useComposeUi });
void store.start();
createRoot(document.getElementById('root')!).render(
  <PieceContext value={store}>
    <div className="top-bar" />
    <ComposeScreen />
  </PieceContext>,
);
