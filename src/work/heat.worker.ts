/** The thread that follows the heat of whole castings, apart from the one that plans, so that planning never waits for it. */
import { HeatDesk } from './heat-desk.ts';
import type { FromHeatWorker, ToHeatWorker } from './heat-protocol.ts';

const desk = new HeatDesk({
  say: (message: FromHeatWorker) => self.postMessage(message),
  pause: () => new Promise((go) => setTimeout(go)),
  nowMs: () => performance.now(),
});

self.addEventListener('message', ({ data }: MessageEvent<ToHeatWorker>) => desk.hear(data));
