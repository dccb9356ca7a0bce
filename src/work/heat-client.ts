/** The page's side of the thread that follows heat. It is started on the first task, and again after it broke. */
import type { BodyProgress } from '../core/cure/body/body.ts';
import type { FromHeatWorker, HeatAnswer, HeatTask, ToHeatWorker } from './heat-protocol.ts';

export interface HeatJob {
  /** Never rejects. */
  readonly answer: Promise<HeatAnswer>;
  /** Takes effect within about a tenth of a second; the answer then says that it was canceled. Later it does nothing. */
  cancel(): void;
}

interface Waiting {
  readonly settle: (answer: HeatAnswer) => void;
  readonly tell: (progress: BodyProgress) => void;
}

export class HeatClient {
  private worker: Worker | null = null;
  private readonly waiting = new Map<number, Waiting>();
  private lastId = 0;

  /** One task is worked on at a time, in order. `onProgress` is called some twenty times a second while it is. */
  solve(task: HeatTask, onProgress: (progress: BodyProgress) => void = () => {}): HeatJob {
    const id = ++this.lastId;
    const answer = new Promise<HeatAnswer>((settle) => this.waiting.set(id, { settle, tell: onProgress }));
    this.started().postMessage({ id, task } satisfies ToHeatWorker);
    return {
      answer,
      cancel: () => {
        if (this.waiting.has(id)) this.worker?.postMessage({ cancel: id } satisfies ToHeatWorker);
      },
    };
  }

  /** Ends the thread; what was not answered ends as canceled. */
  dispose(): void {
    this.stop('The page was closed.');
  }

  private started(): Worker {
    if (this.worker) return this.worker;
    const worker = new Worker(new URL('./heat.worker.ts', import.meta.url), { type: 'module' });
    worker.addEventListener('message', ({ data }: MessageEvent<FromHeatWorker>) => {
      const waiting = this.waiting.get(data.id);
      if ('progress' in data) {
        waiting?.tell(data.progress);
        return;
      }
      this.waiting.delete(data.id);
      waiting?.settle(data.answer);
    });
    worker.addEventListener('error', (event) => {
      event.preventDefault();
      this.stop(`Following the heat stopped (${event.message || 'its code could not be fetched'}). Try again; if it happens again, reload the page.`);
    });
    this.worker = worker;
    return worker;
  }

  private stop(message: string): void {
    this.worker?.terminate();
    this.worker = null;
    const waiting = [...this.waiting.values()];
    this.waiting.clear();
    for (const { settle } of waiting) settle({ ok: false, canceled: true, message });
  }
}
