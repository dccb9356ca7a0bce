/**
 * Keeps what is to be painted in step with the piece: asked of the worker for a piece with painted creatures or under a lamp, once a drag
 * rests, and again only when something changed that it depends on. One request at a time, the latest wins.
 */
import type { Scene } from '../core/scene/scene.ts';
import type { Answer, PaintedPlanes } from '../work/protocol.ts';

/** What to paint, and of which scene. */
export interface Painted extends PaintedPlanes {
  readonly scene: Scene;
}

export class PiecePainting {
  readonly #ask: (scene: Scene) => Promise<Answer<'painted'>>;
  readonly #show: (painted: Painted | null) => void;
  #wanted: Scene | null = null;
  #key = '';
  #running = false;

  constructor(ask: (scene: Scene) => Promise<Answer<'painted'>>, show: (painted: Painted | null) => void) {
    this.#ask = ask;
    this.#show = show;
  }

  follow(scene: Scene): void {
    const key = scene.creatures.length === 0 && !scene.lamp ? '' : keyOf(scene);
    if (key === this.#key) return;
    this.#key = key;
    this.#wanted = key === '' ? null : scene;
    if (key === '') this.#show(null);
    else if (!this.#running) void this.#run();
  }

  /** Another piece is open. */
  begin(scene: Scene): void {
    this.#key = '';
    this.#wanted = null;
    this.#show(null);
    this.follow(scene);
  }

  async #run(): Promise<void> {
    this.#running = true;
    while (this.#wanted) {
      const scene: Scene = this.#wanted;
      const key = this.#key;
      this.#wanted = null;
      const answer = await this.#ask(scene);
      if (key !== this.#key) continue;
      // Stopped, or the worker broke: the next change of the piece asks again.
      if (!answer.ok) this.#key = '';
      this.#show(answer.ok ? { ...answer.value, scene } : null);
    }
    this.#running = false;
  }
}

function keyOf({ mold, cast, fillMm, fills, formulas, placements, creatures, lamp, strokes }: Scene): string {
  // Under a lamp figures and sketches throw shadows.
  const things = placements.filter(({ kind }) => kind === 'plane' || (lamp && kind === 'figure'));
  return JSON.stringify([mold, cast, fillMm, fills, [...formulas.values()].map(({ id, refractiveIndex }) => [id, refractiveIndex]), things, creatures, lamp && [lamp, strokes]]);
}
