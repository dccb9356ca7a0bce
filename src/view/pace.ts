/**
 * One frame at a time: a new one is asked for when the graphics side has finished the last. Where it is slow, frames
 * that nobody would see in time are left out, and nothing on the page waits behind a queue of them.
 */

/** Between two looks at whether it is done, ms: a part of a frame. */
const LOOK_MS = 5;
/** Longer than this no frame is waited for, ms: some drivers lose the word that it is done. */
const MOST_MS = 5000;

export class Pace {
  readonly #gl: WebGL2RenderingContext;
  readonly #draw: () => void;
  #fence: WebGLSync | null = null;
  #since = 0;
  #owed = false;
  #look: ReturnType<typeof setTimeout> | undefined;
  #waiting: (() => void) | null = null;

  /** `draw` asks for one frame. */
  constructor(gl: WebGL2RenderingContext, draw: () => void) {
    this.#gl = gl;
    this.#draw = draw;
  }

  /** Asks for a frame; of several asked while one is drawn, one comes. */
  ask(): void {
    if (this.#fence) this.#owed = true;
    else this.#draw();
  }

  /** Right after the commands of a frame. */
  drawn(): void {
    this.#forget();
    this.#fence = this.#gl.fenceSync(this.#gl.SYNC_GPU_COMMANDS_COMPLETE, 0);
    this.#gl.flush();
    this.#since = performance.now();
    this.#look = setTimeout(this.#seeIfDone, LOOK_MS);
  }

  /** Does something as soon as the graphics side has nothing to do; the last one asked for, once. What would wait for it then waits for nothing. */
  whenDone(act: () => void): void {
    if (this.#fence) this.#waiting = act;
    else act();
  }

  dispose(): void {
    this.#forget();
    this.#waiting = null;
    this.#owed = false;
  }

  readonly #seeIfDone = (): void => {
    const gl = this.#gl;
    const done = !this.#fence || gl.isContextLost() || gl.getSyncParameter(this.#fence, gl.SYNC_STATUS) === gl.SIGNALED;
    if (!done && performance.now() - this.#since < MOST_MS) {
      this.#look = setTimeout(this.#seeIfDone, LOOK_MS);
      return;
    }
    this.#forget();
    const [waiting, owed] = [this.#waiting, this.#owed];
    this.#waiting = null;
    this.#owed = false;
    waiting?.();
    if (owed) this.ask();
  };

  #forget(): void {
    clearTimeout(this.#look);
    if (this.#fence) this.#gl.deleteSync(this.#fence);
    this.#fence = null;
  }
}
