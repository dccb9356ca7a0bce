/** The thread that hashes a large file: one file in, its hash out. */
import type { Digested } from './digest.ts';
import { sha256 } from './sha256.ts';

self.addEventListener('message', ({ data: { blob } }: MessageEvent<{ readonly blob: Blob }>) => {
  void digested(blob).then((answer) => self.postMessage(answer));
});

async function digested(blob: Blob): Promise<Digested> {
  try {
    return { hash: await sha256(new Uint8Array(await blob.arrayBuffer())) };
  } catch (error) {
    return { failed: error instanceof Error ? error.message : String(error) };
  }
}
