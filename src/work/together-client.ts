/** The page's side of the thread that plans pieces together. It is started when it is first asked, and anew after it was broken off. */
import type { Paper } from '../core/sheet/document.ts';
import type { ChosenUnits } from '../core/units/in-units.ts';
import type { FromTogetherWorker, PieceToPlan, PlannedTogether, ToTogetherWorker, TogetherAnswer } from './together-protocol.ts';

type Answered = TogetherAnswer<PlannedTogether | Uint8Array>;
type Asked<A extends ToTogetherWorker = ToTogetherWorker> = A extends unknown ? Omit<A, 'id'> : never;

export class TogetherClient {
  private worker: Worker | null = null;
  private waiting: { readonly id: number; readonly settle: (answer: Answered) => void; readonly tell: (doing: string) => void } | null = null;
  private lastId = 0;

  /** Breaks off whatever was asked before. Never rejects. */
  plan(pieces: readonly PieceToPlan[], tell: (doing: string) => void): Promise<TogetherAnswer<PlannedTogether>> {
    this.stop();
    return this.ask({ kind: 'plan', pieces }, tell) as Promise<TogetherAnswer<PlannedTogether>>;
  }

  /** The sheets of what was planned last, as a PDF. */
  pdf(paper: Paper, units: ChosenUnits, tell: (doing: string) => void): Promise<TogetherAnswer<Uint8Array>> {
    this.stop('Stopped for the sheets. Tick the pieces again.');
    return this.ask({ kind: 'pdf', paper, units }, tell) as Promise<TogetherAnswer<Uint8Array>>;
  }

  /** Breaks off what is being done; it ends as canceled. A thread with nothing to do stays, and what it has read with it. */
  stop(message = 'Broken off for something newer.'): void {
    if (!this.waiting) return;
    this.worker?.terminate();
    this.worker = null;
    const { settle } = this.waiting;
    this.waiting = null;
    settle({ ok: false, piece: null, canceled: true, problems: [{ path: '', message }] });
  }

  dispose(): void {
    this.stop('The page was closed.');
    this.worker?.terminate();
    this.worker = null;
  }

  private ask(asked: Asked, tell: (doing: string) => void): Promise<Answered> {
    const id = ++this.lastId;
    return new Promise((settle) => {
      this.waiting = { id, settle, tell };
      this.started().postMessage({ ...asked, id });
    });
  }

  private started(): Worker {
    if (this.worker) return this.worker;
    const worker = new Worker(new URL('./together.worker.ts', import.meta.url), { type: 'module' });
    worker.addEventListener('message', ({ data }: MessageEvent<FromTogetherWorker>) => {
      if (this.waiting?.id !== data.id) return;
      if ('doing' in data) {
        this.waiting.tell(data.doing);
        return;
      }
      const { settle } = this.waiting;
      this.waiting = null;
      settle(data.answer);
    });
    worker.addEventListener('error', (event) => {
      event.preventDefault();
      if (worker !== this.worker) return;
      this.worker = null;
      worker.terminate();
      const waiting = this.waiting;
      this.waiting = null;
      waiting?.settle({ ok: false, piece: null, problems: [{ path: '', message: `Planning together stopped (${event.message || 'its code could not be fetched'}). Try again; if it happens again, reload the page.` }] });
    });
    this.worker = worker;
    return worker;
  }
}
