/** The page's side of the planning worker. It is started on the first request and again after it broke. */
import type { Paper } from '../core/sheet/document.ts';
import type { Answer, GivenFile, Kind, NumberedAnswer, PlannedScene, Planner, Request } from './protocol.ts';

type Settle = (answer: Answer<Kind>) => void;

export class PlannerClient implements Planner {
  private worker: Worker | null = null;
  private readonly waiting = new Map<number, Settle>();
  private lastId = 0;

  /** The bytes of `files` are moved to the worker and no longer usable here. `null`: the demo scene. */
  load(files: readonly GivenFile[] | null): Promise<Answer<'load'>> {
    return this.ask({ kind: 'load', files }, [...new Set((files ?? []).map(({ bytes }) => bytes.buffer as ArrayBuffer))]) as Promise<Answer<'load'>>;
  }

  sheet(planned: PlannedScene, paper: Paper): Promise<Answer<'sheet'>> {
    return this.ask({ kind: 'sheet', planned, paper }) as Promise<Answer<'sheet'>>;
  }

  pdf(planned: PlannedScene, paper: Paper): Promise<Answer<'pdf'>> {
    return this.ask({ kind: 'pdf', planned, paper }) as Promise<Answer<'pdf'>>;
  }

  /** Ends the worker; what was asked and not answered ends as a problem. */
  dispose(): void {
    this.stop('The page was closed.');
  }

  private ask(request: Request, transfer: ArrayBuffer[] = []): Promise<Answer<Kind>> {
    const id = ++this.lastId;
    return new Promise((settle) => {
      this.waiting.set(id, settle);
      this.started().postMessage({ id, request }, transfer);
    });
  }

  private started(): Worker {
    if (this.worker) return this.worker;
    const worker = new Worker(new URL('./planner.worker.ts', import.meta.url), { type: 'module' });
    worker.addEventListener('message', ({ data: { id, answer } }: MessageEvent<NumberedAnswer>) => {
      this.waiting.get(id)?.(answer);
      this.waiting.delete(id);
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
    for (const settle of this.waiting.values()) settle({ ok: false, problems: [{ path: '', message }] });
    this.waiting.clear();
  }
}
