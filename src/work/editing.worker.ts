/** The worker's thread: numbered requests in, numbered answers out, one after the other. */
import { Answers } from './answers.ts';
import type { Answer, FromWorker, Kind, Numbered, SolidForm } from './protocol.ts';
import { served } from './served.ts';

const answers = new Answers(served, (progress) => say({ progress }, progress?.lighter ? buffersOf(progress.lighter) : []), async () => {
  await new Promise((go) => setTimeout(go));
  return waiting > 0;
});
/** Requests that came in and are not being answered yet. */
let waiting = 0;
let last: Promise<void> = Promise.resolve();

self.addEventListener('message', ({ data: { id, request } }: MessageEvent<Numbered>) => {
  waiting++;
  last = last.then(async () => {
    waiting--;
    const answer = await answers.answer(request);
    say({ id, answer }, movable(answer));
  });
});

function say(message: FromWorker, transfer: Transferable[]): void {
  self.postMessage(message, { transfer });
}

/** Large arrays that nobody here needs any more. */
function movable(answer: Answer<Kind>): Transferable[] {
  if (!answer.ok || answer.value === null) return [];
  if (answer.value instanceof Uint8Array) return [answer.value.buffer as ArrayBuffer];
  const forms: ReadonlyMap<string, SolidForm> = 'forms' in answer.value ? answer.value.forms : new Map();
  return [...forms.values()].flatMap(buffersOf);
}

function buffersOf({ positions, indices }: SolidForm): Transferable[] {
  return [positions.buffer as ArrayBuffer, indices.buffer as ArrayBuffer];
}
