/** From a document to all that the page shows of it. What did not change since the last time is not made again. */
import { planGiven, type Given } from '../core/plan/planning.ts';
import type { PlanResult } from '../core/plan/plan.ts';
import type { Telling } from '../core/plan/telling.ts';
import { middleMember } from '../core/cure/family-types.ts';
import type { HeatSeries } from '../core/cure/verdict-series.ts';
import { hasMesh, type MeshShape } from '../core/scene/mesh-shape.ts';
import { readScene, type Problem } from '../core/scene/read.ts';
import type { Formula, Scene, SolidPlacement } from '../core/scene/scene.ts';
import type { Polygon } from '../core/sheet/polygon.ts';
import { SolidError, type Booleans, type MeshReading, type TriangleMesh } from '../core/solid/solid.ts';
import { MeshFileError, SceneFileError } from '../files/fail.ts';
import type { RememberedBooleans } from './live-booleans.ts';
import type { PieceMeshes } from './piece-meshes.ts';
import { PosedSolids } from './posed-solids.ts';
import { HeatPause } from './heat-pause.ts';
import type { RememberedHeat } from './remembered-heat.ts';
import type { Answer, DerivedSolid, Gives, Kind, PlannedScene, Progress, RequestOf, SolidForm } from './protocol.ts';

export interface DeriverSurroundings {
  booleans(): Promise<Booleans>;
  tell(progress: Progress): void;
  /** Lets requests in, and says whether one waits: heat that is being judged is then left for later. */
  overtaken(): Promise<boolean>;
}

export class Deriver {
  readonly #meshes: PieceMeshes;
  readonly #booleans: () => Promise<Booleans>;
  readonly #tell: (progress: Progress) => void;
  readonly #overtaken: () => Promise<boolean>;
  readonly #posed = new PosedSolids();
  #remembered: RememberedBooleans | null = null;
  #telling: Telling | null = null;
  /** Null: the simulation is not here yet. */
  #heat: RememberedHeat | null = null;
  /** Forms that the page has. */
  #sent: ReadonlySet<string> = new Set();

  constructor(meshes: PieceMeshes, { booleans, tell, overtaken }: DeriverSurroundings) {
    this.#meshes = meshes;
    this.#booleans = booleans;
    this.#tell = tell;
    this.#overtaken = overtaken;
  }

  /** Reads a mesh and does what its first planning will ask for, as a figure is set in: upright, at its own size. */
  async prepared(shape: MeshShape): Promise<MeshReading> {
    const reading = await this.#meshes.reading(shape, { shown: true });
    if (reading.volumeErrorFraction !== null) this.#measure({ shape, scale: 1, turnDeg: [0, 0, 0] }, reading);
    return reading;
  }

  async derive({ document, live, heat = live ? 'quick' : 'whole' }: RequestOf<'derive'>): Promise<Answer<'derive'>> {
    const reading = readScene(document);
    if (!reading.ok) return reading;
    const { scene, notes } = reading;
    this.#meshes.begin();
    this.#posed.begin();
    const meshes = new Map<string, MeshReading>();
    const problems: Problem[] = [];
    for (const [i, placement] of scene.placements.entries()) {
      if (!hasMesh(placement)) continue;
      try {
        const reading = await this.#meshes.reading(placement.shape);
        meshes.set(placement.id, reading);
        if (!live && reading.volumeErrorFraction !== null) this.#measure(placement, reading);
      } catch (error) {
        if (!(error instanceof MeshFileError || error instanceof SceneFileError)) throw error;
        problems.push({ path: `placements[${i}].shape`, message: error.message });
      }
    }
    if (problems.length > 0) return { ok: false, problems };
    const planning = (await this.#joining()).forPlanning(live);
    const given: Omit<Given, 'heat' | 'search' | 'telling'> = { meshes, booleans: planning.booleans, notes, pose: (placement, mesh) => this.#posed.pose(placement, mesh) };
    const planned = await this.#planned(scene, given, heat);
    if (planned === null) return { ok: false, overtaken: true, problems: [] };
    const { result, checkingHeat } = planned;
    // Guesses may add up to more than the mold holds; then it takes the time it takes.
    if (!result.ok && planning.about()) return this.derive({ kind: 'derive', document, live: false, heat });
    if (!result.ok) return result;

    const solids: DerivedSolid[] = [];
    const silhouettes = new Map<string, readonly Polygon[]>();
    const forms = new Map<string, SolidForm>();
    const inUse = new Set<string>();
    for (const placement of scene.placements) {
      if (placement.kind === 'plane') continue;
      const mesh = meshes.get(placement.id);
      if (mesh?.volumeErrorFraction !== null) silhouettes.set(placement.id, this.#posed.outline(placement, mesh?.mesh));
      const drawn = this.#drawn(placement, mesh, inUse, forms);
      if (drawn) solids.push(drawn);
    }
    this.#sent = inUse;
    this.#posed.end();
    this.#meshes.end();
    return { ok: true, value: { scene, plan: result.plan, silhouettes, solids, forms, about: planning.about(), checkingHeat } };
  }

  /** The plan of a scene that was derived, beside those of the other goals. */
  async compare({ scene }: RequestOf<'compare'>): Promise<Answer<'compare'>> {
    const result = await this.#again(scene, { compare: true });
    if (!result.ok) return result;
    const { goals, findings } = result.plan;
    return { ok: true, value: { goals: goals ?? [], longer: findings.filter(({ code }) => code === 'longer-day' || code === 'longer-evenings') } };
  }

  async whatIf({ document }: RequestOf<'what if'>): Promise<Answer<'what if'>> {
    const reading = readScene(document);
    if (!reading.ok) return reading;
    const { scene, notes } = reading;
    const result = await this.#again(scene, { notes });
    return result.ok ? { ok: true, value: { scene, plan: result.plan } } : result;
  }

  /** The plan at rest of a scene whose meshes were derived before. */
  async #again(scene: Scene, known: Pick<Given, 'notes' | 'compare'>): Promise<Exclude<PlanResult, { ok: false }> | Extract<Answer<Kind>, { ok: false }>> {
    const meshes = await this.#readings(scene);
    const { booleans } = (await this.#joining()).forPlanning(false);
    const planned = await this.#planned(scene, { ...known, meshes, booleans, pose: (placement, mesh) => this.#posed.pose(placement, mesh) }, 'whole');
    return planned === null ? { ok: false, overtaken: true, problems: [] } : planned.result;
  }

  /** For the chart of one pour. */
  async series({ planned: { scene, plan }, pour }: RequestOf<'heat series'>): Promise<HeatSeries> {
    return (await this.#simulated()).series(scene, plan, pour);
  }

  /** The piece for a look in three dimensions, by the middle member of every family. */
  async heatTask({ scene, plan }: PlannedScene): Promise<Gives['heat task']> {
    const { heatTaskOf } = await import('./heat-task.ts');
    const { hottestC, familyOf } = (await this.#simulated()).middle(scene, plan);
    const meshes = new Map<string, TriangleMesh>([...(await this.#readings(scene))].map(([id, { mesh }]) => [id, mesh]));
    const memberOf = (formula: Formula) => middleMember(familyOf(formula));
    return { task: heatTaskOf(scene, plan, { memberOf, meshes }), hottestC };
  }

  /** The meshes of a scene that was derived. */
  async #readings({ placements }: Scene): Promise<Map<string, MeshReading>> {
    const readings = new Map<string, MeshReading>();
    for (const { id, shape } of placements.filter(hasMesh)) readings.set(id, await this.#meshes.reading(shape));
    return readings;
  }

  /** Null: left for what came in meanwhile. What was judged until then is remembered. */
  async #planned(scene: Scene, known: Omit<Given, 'heat' | 'search' | 'telling'>, how: 'quick' | 'whole'): Promise<{ result: PlanResult; checkingHeat: boolean } | null> {
    const search = scene.plan.goal !== 'even' || known.compare ? (await import('../core/plan/best/goal-search.ts')).GOAL_SEARCH : undefined;
    const byLabel = (telling: Telling | null, checkingHeat: boolean) => ({ result: planGiven(scene, { ...known, search, telling, heat: null }), checkingHeat });
    if (scene.heatModel === 'label') return byLabel(await this.#toldBy(), false);
    if (how === 'quick') {
      // A first look is not kept waiting: the whole plan, which follows, tells the rest.
      const [telling, heat] = [this.#telling, this.#heat];
      return (telling && heat && pausing(() => planGiven(scene, { ...known, search, telling, heat: heat.quick(scene) }), true)) ?? byLabel(telling, true);
    }
    const [telling, heat] = await Promise.all([this.#toldBy(), this.#simulated()]);
    const judge = heat.whole(scene);
    for (;;) {
      const planned = pausing(() => planGiven(scene, { ...known, search, telling, heat: judge() }), false);
      if (planned) return planned;
      if (await this.#overtaken()) return null;
    }
  }

  /** What joins solids, and remembers what it joined. */
  async #joining(): Promise<RememberedBooleans> {
    const [booleans, live] = await Promise.all([this.#booleans(), import('./live-booleans.ts')]);
    return (this.#remembered ??= new live.RememberedBooleans(booleans));
  }

  async #simulated(): Promise<RememberedHeat> {
    return (this.#heat ??= new (await import('./remembered-heat.ts')).RememberedHeat());
  }

  async #toldBy(): Promise<Telling> {
    return (this.#telling ??= (await import('../core/plan/telling.ts')).TELLING);
  }

  /** Of a large mesh, and told: what planning and drawing will ask for. Nothing of one that has been measured so before. */
  #measure(stance: Pick<SolidPlacement, 'scale' | 'turnDeg'> & { readonly shape: MeshShape }, { mesh }: MeshReading): void {
    const told = this.#meshes.told(stance.shape);
    if (!told || this.#posed.knows(stance, mesh)) return;
    this.#posed.prepare(stance, mesh, (share) => this.#tell({ ...told, stage: 'measuring it', share }));
  }

  /** null: the mesh is too broken to be put anywhere. */
  #drawn(placement: SolidPlacement, reading: MeshReading | undefined, inUse: Set<string>, forms: Map<string, SolidForm>): DerivedSolid | null {
    try {
      const { id, kind, name } = placement;
      const { bounds } = this.#posed.pose(placement, reading?.mesh);
      const form = this.#posed.formKey(placement, reading?.mesh);
      if (!this.#sent.has(form) && !forms.has(form)) forms.set(form, this.#posed.form(placement, reading?.mesh));
      inUse.add(form);
      return { id, kind, name, bounds, form };
    } catch (error) {
      if (error instanceof SolidError || reading?.volumeErrorFraction === null) return null;
      throw error;
    }
  }
}

/** Null: broken off. */
function pausing(plan: () => PlanResult, checkingHeat: boolean): { result: PlanResult; checkingHeat: boolean } | null {
  try {
    return { result: plan(), checkingHeat };
  } catch (error) {
    if (error instanceof HeatPause) return null;
    throw error;
  }
}
