/**
 * Takes tasks of heat one after the other, and looks up from the work every few hundredths of a second, so that a
 * message to stop gets through. The worker's thread is around it; so may a test be.
 */
import { bodyOf } from '../core/cure/body/build.ts';
import { placementSampler } from '../core/cure/body/inside.ts';
import { roundOnAxis } from '../core/cure/body/round.ts';
import { runBody } from '../core/cure/body/run.ts';
import { castInMaterial } from '../core/cure/body/thermal-materials.ts';
import type { Body } from '../core/cure/body/body.ts';
import { poseSolid } from '../core/solid/pose.ts';
import { messageOf } from '../files/fail.ts';
import type { FromHeatWorker, HeatAnswer, HeatTask, ToHeatWorker } from './heat-protocol.ts';

/** ms of work between two looks at the messages. */
const TURN_MS = 40;
const CANCELED: HeatAnswer = { ok: false, canceled: true, message: 'Stopped. Nothing was changed.' };

export interface HeatSurroundings {
  say(message: FromHeatWorker): void;
  /** Lets messages in. */
  pause(): Promise<void>;
  nowMs(): number;
}

export class HeatDesk {
  readonly #around: HeatSurroundings;
  readonly #canceled = new Set<number>();
  readonly #waiting = new Set<number>();
  #last: Promise<void> = Promise.resolve();

  constructor(around: HeatSurroundings) {
    this.#around = around;
  }

  hear(message: ToHeatWorker): void {
    if ('cancel' in message) {
      if (this.#waiting.has(message.cancel)) this.#canceled.add(message.cancel);
      return;
    }
    const { id, task } = message;
    this.#waiting.add(id);
    this.#last = this.#last.then(async () => {
      const answer = await this.#answer(id, task);
      this.#waiting.delete(id);
      this.#canceled.delete(id);
      this.#around.say({ id, answer });
    });
  }

  async #answer(id: number, task: HeatTask): Promise<HeatAnswer> {
    const { say, pause, nowMs } = this.#around;
    try {
      // What was sent to stop it, while the one before was worked on, is heard first.
      await pause();
      if (this.#canceled.has(id)) return CANCELED;
      const run = runBody(bodyOfTask(task), task.run);
      let since = nowMs();
      for (;;) {
        const next = run.next();
        if (next.done) return { ok: true, heat: next.value };
        if (nowMs() - since < TURN_MS) continue;
        say({ id, progress: next.value });
        await pause();
        if (this.#canceled.has(id)) return CANCELED;
        since = nowMs();
      }
    } catch (error) {
      return { ok: false, message: `The heat of this piece could not be followed: ${messageOf(error)}` };
    }
  }
}

function bodyOfTask({ mold, pours, castIn, room, endS, build }: HeatTask): Body {
  return bodyOf({
    mold, pours, room, endS,
    castIn: castIn.map(({ placement, densityGPerMl }) => ({
      material: castInMaterial(placement.material, densityGPerMl),
      voidFraction: placement.kind === 'bed' ? placement.voidFraction : undefined,
    })),
    placementAt: placementSampler(castIn.map(({ placement, mesh }) => poseSolid(placement.shape, placement, mesh).mesh())),
    castInRound: castIn.every(({ placement }) => roundOnAxis(placement)),
  }, build);
}
