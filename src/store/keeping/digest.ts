/**
 * The hash by which a file is kept. A large one is read and hashed in a thread of its own: on the page's thread even the
 * handing over of 200 MB to the browser's own hash took over a second.
 */
import { sha256 } from './sha256.ts';

export type Digest = (blob: Blob) => Promise<string>;

/** Bytes that are hashed where they are asked for: some 5 ms. */
const AT_ONCE_BYTES = 2 ** 20;

/** SHA-256, hex. Rejects when the bytes can't be read. */
export async function digestOf(blob: Blob): Promise<string> {
  const here = blob.size <= AT_ONCE_BYTES || typeof Worker === 'undefined';
  return here ? sha256(new Uint8Array(await blob.arrayBuffer())) : digestedApart(blob);
}

/** What the thread answers. */
export type Digested = { readonly hash: string } | { readonly failed: string };

function digestedApart(blob: Blob): Promise<string> {
  const worker = new Worker(new URL('./digest.worker.ts', import.meta.url), { type: 'module' });
  const done = new Promise<string>((resolve, reject) => {
    worker.addEventListener('message', ({ data }: MessageEvent<Digested>) => ('hash' in data ? resolve(data.hash) : reject(new Error(data.failed))));
    worker.addEventListener('error', (event) => {
      event.preventDefault();
      reject(new Error(event.message || 'The thread that hashes files could not be started.'));
    });
    worker.postMessage({ blob });
  });
  return done.finally(() => worker.terminate());
}
