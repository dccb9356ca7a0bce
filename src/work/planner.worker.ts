/** The worker's thread: numbered requests in, numbered answers out, one after the other. */
import { answer } from './answer.ts';
import type { Numbered, NumberedAnswer } from './protocol.ts';
import { served } from './served.ts';

let last: Promise<void> = Promise.resolve();

self.addEventListener('message', ({ data: { id, request } }: MessageEvent<Numbered>) => {
  last = last.then(async () => {
    const reply: NumberedAnswer = { id, answer: await answer(request, served) };
    const transfer = reply.answer.ok && reply.answer.value instanceof Uint8Array ? [reply.answer.value.buffer as ArrayBuffer] : [];
    self.postMessage(reply, { transfer });
  });
});
