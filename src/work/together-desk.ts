/**
 * Reads pieces and plans them for one bench, as the command does, and lays out their sheets. It knows neither worker nor
 * page, so it runs in Node as well. Meshes that were read stay for the next time.
 */
import { GOAL_SEARCH } from '../core/plan/best/goal-search.ts';
import { simulatedByCups } from '../core/plan/heat-simulated.ts';
import { planTogether } from '../core/plan/runs/together.ts';
import { hasMesh } from '../core/scene/mesh-shape.ts';
import { readScene, type Problem } from '../core/scene/read.ts';
import type { Scene } from '../core/scene/scene.ts';
import type { Finding } from '../core/plan/plan.ts';
import type { Paper } from '../core/sheet/document.ts';
import type { MeshReading } from '../core/solid/solid.ts';
import { counted } from '../core/units/format.ts';
import type { ChosenUnits } from '../core/units/in-units.ts';
import type { Surroundings } from './answers.ts';
import { PieceMeshes } from './piece-meshes.ts';
import type { PieceToPlan, PlannedTogether, TogetherAnswer } from './together-protocol.ts';

interface Loaded {
  readonly scene: Scene;
  readonly meshes: ReadonlyMap<string, MeshReading>;
  readonly notes: readonly Finding[];
}

export class TogetherDesk {
  readonly #around: Pick<Surroundings, 'booleans' | 'library' | 'readFont'>;
  readonly #tell: (doing: string) => void;
  readonly #meshes: PieceMeshes;
  /** By what they were made from: a resin that comes again is not made again. */
  readonly #families = new Map();
  #last: { readonly loaded: readonly Loaded[]; readonly planned: PlannedTogether } | null = null;

  constructor(around: Pick<Surroundings, 'booleans' | 'library' | 'readFont'>, tell: (doing: string) => void) {
    this.#around = around;
    this.#tell = tell;
    this.#meshes = new PieceMeshes({ booleans: around.booleans, library: around.library, tell: ({ name, stage }) => tell(`${name}: ${stage} …`) });
  }

  /** Two pieces at least. Rejects only with faults of the program. */
  async plan(pieces: readonly PieceToPlan[]): Promise<TogetherAnswer<PlannedTogether>> {
    this.#last = null;
    const loaded: Loaded[] = [];
    this.#meshes.begin();
    for (const [piece, given] of pieces.entries()) {
      const reading = await this.#load(given);
      if (!reading.ok) return { ok: false, piece, problems: reading.problems };
      loaded.push(reading.loaded);
    }
    this.#meshes.end();
    const scenes = toldApart(loaded.map(({ scene }) => scene));
    this.#tell(`Planning ${counted(pieces.length, 'piece')} together …`);
    const booleans = await this.#around.booleans();
    const heatOf = simulatedByCups(this.#families);
    const result = planTogether(loaded.map(({ meshes, notes }, i) => ({ scene: scenes[i], given: { meshes, notes, booleans, search: GOAL_SEARCH, heat: heatOf(scenes[i]) } })));
    if (!result.ok) return result;
    const planned = { together: result.together, plans: result.plans, scenes };
    this.#last = { loaded: loaded.map((one, i) => ({ ...one, scene: scenes[i] })), planned };
    return { ok: true, value: planned };
  }

  /** All sheets behind a page with the order at the bench. */
  async pdf(paper: Paper, units: ChosenUnits): Promise<TogetherAnswer<Uint8Array>> {
    if (!this.#last) return { ok: false, piece: null, problems: [{ path: '', message: 'Nothing has been planned together yet. Tick the pieces again.' }] };
    const { loaded, planned: { together, plans } } = this.#last;
    this.#tell('Writing the sheets …');
    const [{ sheetsDocument }, { sheetPdf }] = await Promise.all([import('../files/sheet-document.ts'), import('../files/pdf.ts')]);
    const { document, fonts } = await sheetsDocument(loaded.map((one, i) => ({ ...one, plan: plans[i] })), together, { paper, units, readFont: this.#around.readFont });
    return { ok: true, value: await sheetPdf(document, fonts) };
  }

  async #load({ document, files }: PieceToPlan): Promise<{ readonly ok: true; readonly loaded: Loaded } | { readonly ok: false; readonly problems: readonly Problem[] }> {
    const reading = readScene(document);
    if (!reading.ok) return reading;
    const { scene, notes } = reading;
    this.#tell(`Reading ${scene.name} …`);
    this.#meshes.use(files);
    const { meshes, failed } = await this.#meshes.readings(scene.placements.filter(hasMesh));
    const problems = scene.placements.flatMap(({ id }, i) => (failed.has(id) ? [{ path: `placements[${i}].shape`, message: failed.get(id)! }] : []));
    return problems.length > 0 ? { ok: false, problems } : { ok: true, loaded: { scene, meshes, notes } };
  }
}

function toldApart(scenes: readonly Scene[]): Scene[] {
  return scenes.map((scene, i) => (scenes.every((other, k) => k === i || other.name !== scene.name) ? scene : { ...scene, name: `${scene.name} (${i + 1})` }));
}
