/** The page's side of the worker. It is started on the first request, and again after it broke or was canceled. */
import type { Answer, Editor, FromWorker, Kind, Progress, Request, RequestOf } from './protocol.ts';

type Settle = (answer: Answer<Kind>) => void;

export class EditorClient implements Editor {
  private worker: Worker | null = null;
  private readonly waiting = new Map<number, Settle>();
  private lastId = 0;
  private tell: (progress: Progress | null) => void = () => {};

  ask<K extends Kind>(request: RequestOf<K>): Promise<Answer<K>> {
    const id = ++this.lastId;
    return new Promise<Answer<Kind>>((settle) => {
      this.waiting.set(id, settle);
      this.started().postMessage({ id, request: request as Request });
    }) as Promise<Answer<K>>;
  }

  cancel(): void {
    this.stop('Stopped. Nothing was changed.');
  }

  onProgress(listener: (progress: Progress | null) => void): void {
    this.tell = listener;
  }

  /** Ends the worker; what was asked and not answered ends as canceled. */
  dispose(): void {
    this.stop('The page was closed.');
  }

  private started(): Worker {
    if (this.worker) return this.worker;
    const worker = new Worker(new URL('./editing.worker.ts', import.meta.url), { type: 'module' });
    worker.addEventListener('message', ({ data }: MessageEvent<FromWorker>) => {
      if ('progress' in data) {
        this.tell(data.progress);
        return;
      }
      this.waiting.get(data.id)?.(data.answer);
      this.waiting.delete(data.id);
    });
    worker.addEventListener('error', (event) => {
      event.preventDefault();
      this.stop(`Planning stopped (${event.message || 'its code could not be fetched'}). Try again; if it happens again, reload the page.`);
    });
    this.worker = worker;
    return worker;
  }

  private stop(message: string): void {
    this.worker?.terminate();
    this.worker = null;
    this.tell(null);
    const waiting = [...this.waiting.values()];
    this.waiting.clear();
    for (const settle of waiting) settle({ ok: false, canceled: true, problems: [{ path: '', message }] });
  }
}
