/** Whether something in the picture moves, or has until a moment ago: then it is drawn lighter and keeps its size. */

/** Stillness after which everything is drawn whole again, ms. Without a graphics card a whole frame takes longer than a key takes to come again. */
const REST_MS = { card: 180, software: 500 } as const;

export class Motion {
  readonly #onChange: (moving: boolean) => void;
  /** Something is in hand: it moves even while it is held still. */
  readonly #inHand: () => boolean;
  #timer: ReturnType<typeof setTimeout> | undefined;
  #moving = false;
  #restMs: number = REST_MS.card;
  #still: (() => void) | null = null;

  constructor(inHand: () => boolean, onChange: (moving: boolean) => void) {
    this.#inHand = inHand;
    this.#onChange = onChange;
  }

  get moving(): boolean {
    return this.#moving;
  }

  drawnInSoftware(software: boolean): void {
    this.#restMs = software ? REST_MS.software : REST_MS.card;
  }

  stir(): void {
    clearTimeout(this.#timer);
    this.#timer = setTimeout(this.#rest, this.#restMs);
    if (this.#moving) return;
    this.#moving = true;
    this.#onChange(true);
  }

  /** Does something once nothing moves, at once if so now; the last one asked for, once. */
  whenStill(act: () => void): void {
    if (this.#moving) this.#still = act;
    else act();
  }

  /** Waits no longer for stillness. */
  restNow(): void {
    if (!this.#moving) return;
    clearTimeout(this.#timer);
    this.#rest();
  }

  /** For good: nothing asked for is done any more. */
  stop(): void {
    clearTimeout(this.#timer);
    this.#moving = false;
    this.#still = null;
  }

  readonly #rest = (): void => {
    if (this.#inHand()) return; // letting go stirs once more
    this.#moving = false;
    this.#onChange(false);
    const still = this.#still;
    this.#still = null;
    still?.();
  };
}
