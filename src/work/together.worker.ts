/** The thread that plans pieces together, apart from the one that plans the open piece, so that editing never waits for it. */
import { messageOf } from '../files/fail.ts';
import { served } from './served.ts';
import { TogetherDesk } from './together-desk.ts';
import type { FromTogetherWorker, PlannedTogether, ToTogetherWorker, TogetherAnswer } from './together-protocol.ts';

/** Of what is being answered. */
let current = 0;
let last: Promise<void> = Promise.resolve();
const desk = new TogetherDesk(served, (doing) => say({ id: current, doing }));

self.addEventListener('message', ({ data }: MessageEvent<ToTogetherWorker>) => {
  last = last.then(async () => {
    current = data.id;
    say({ id: data.id, answer: await answered(data) });
  });
});

async function answered(asked: ToTogetherWorker): Promise<TogetherAnswer<PlannedTogether | Uint8Array>> {
  try {
    return asked.kind === 'plan' ? await desk.plan(asked.pieces) : await desk.pdf(asked.paper, asked.units);
  } catch (error) {
    return { ok: false, piece: null, problems: [{ path: '', message: `Something went wrong in here, not in your pieces: ${messageOf(error)} Reload the page and try again.` }] };
  }
}

function say(message: FromTogetherWorker): void {
  self.postMessage(message);
}
