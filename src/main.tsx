/** Starts the page: one worker, one store, what is kept in the browser, and the piece to begin with. */
import '@fontsource/alegreya/500.css';
import '@fontsource/alegreya/500-italic.css';
import '@fontsource/alegreya-sans/400.css';
import '@fontsource/alegreya-sans/500.css';
import '@fontsource/alegreya-sans/700.css';
import { createRoot } from 'react-dom/client';
import { App } from './screens/App.tsx';
import { PieceContext } from './screens/shared/piece.ts';
import { openKeeping } from './store/keeping/keeping.ts';
import { browserMemories } from './store/piece-memory.ts';
import { createPieceStore } from './store/piece-store.ts';
import { EditorClient } from './work/editor-client.ts';

const store = createPieceStore({ editor: new EditorClient(), keeping: openKeeping(), memories: browserMemories() });
void store.start();
createRoot(document.getElementById('page')!).render(
  <PieceContext value={store}>
    <App />
  </PieceContext>,
);
