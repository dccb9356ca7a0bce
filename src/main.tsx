/** Starts the page: one worker, one store, and the demo scene to begin with. */
import '@fontsource/alegreya/500.css';
import '@fontsource/alegreya/500-italic.css';
import '@fontsource/alegreya-sans/400.css';
import '@fontsource/alegreya-sans/500.css';
import '@fontsource/alegreya-sans/700.css';
import { createRoot } from 'react-dom/client';
import { App } from './screens/App.tsx';
import { StoreContext } from './screens/shared/store.ts';
import { createSceneStore } from './store/scene-store.ts';
import { PlannerClient } from './work/planner-client.ts';

const store = createSceneStore(new PlannerClient());
void store.getState().openDemo();
createRoot(document.getElementById('page')!).render(
  <StoreContext value={store}>
    <App />
  </StoreContext>,
);
