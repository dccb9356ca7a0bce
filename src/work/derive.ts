/** From a document to all that the page shows of it. What did not change since the last time is not made again. */
import { planScene } from '../core/plan/plan-scene.ts';
import { readScene, type Problem } from '../core/scene/read.ts';
import type { SolidPlacement } from '../core/scene/scene.ts';
import type { Polygon } from '../core/sheet/polygon.ts';
import { SolidError, type Booleans, type MeshReading } from '../core/solid/solid.ts';
import { MeshFileError, SceneFileError } from '../files/fail.ts';
import { RememberedBooleans } from './live-booleans.ts';
import type { MeshShape, PieceMeshes } from './piece-meshes.ts';
import { PosedSolids } from './posed-solids.ts';
import type { Answer, DerivedSolid, Progress, RequestOf, SolidForm } from './protocol.ts';

export class Deriver {
  readonly #meshes: PieceMeshes;
  readonly #booleans: () => Promise<Booleans>;
  readonly #tell: (progress: Progress) => void;
  readonly #posed = new PosedSolids();
  #remembered: RememberedBooleans | null = null;
  /** Forms that the page has. */
  #sent: ReadonlySet<string> = new Set();

  constructor(meshes: PieceMeshes, booleans: () => Promise<Booleans>, tell: (progress: Progress) => void) {
    this.#meshes = meshes;
    this.#booleans = booleans;
    this.#tell = tell;
  }

  /** Reads a mesh and does what its first planning will ask for, as a figure is set in: upright, at its own size. */
  async prepared(shape: MeshShape): Promise<MeshReading> {
    const reading = await this.#meshes.reading(shape, { shown: true });
    if (reading.volumeErrorFraction !== null) this.#measure({ shape, scale: 1, turnDeg: [0, 0, 0] }, reading);
    return reading;
  }

  async derive({ document, live }: RequestOf<'derive'>): Promise<Answer<'derive'>> {
    const reading = readScene(document);
    if (!reading.ok) return reading;
    const { scene, notes } = reading;
    this.#meshes.begin();
    this.#posed.begin();
    const meshes = new Map<string, MeshReading>();
    const problems: Problem[] = [];
    for (const [i, placement] of scene.placements.entries()) {
      if (placement.kind === 'plane' || (placement.shape.type !== 'mesh' && placement.shape.type !== 'library')) continue;
      try {
        const reading = await this.#meshes.reading(placement.shape);
        meshes.set(placement.id, reading);
        if (!live && reading.volumeErrorFraction !== null) this.#measure({ ...placement, shape: placement.shape }, reading);
      } catch (error) {
        if (!(error instanceof MeshFileError || error instanceof SceneFileError)) throw error;
        problems.push({ path: `placements[${i}].shape`, message: error.message });
      }
    }
    if (problems.length > 0) return { ok: false, problems };
    this.#remembered ??= new RememberedBooleans(await this.#booleans());
    const planning = this.#remembered.forPlanning(live);
    const result = planScene(scene, { meshes, booleans: planning.booleans, notes, heat: null, pose: (placement, mesh) => this.#posed.pose(placement, mesh) });
    // Guesses may add up to more than the mold holds; then it takes the time it takes.
    if (!result.ok && planning.about()) return this.derive({ kind: 'derive', document, live: false });
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
    return { ok: true, value: { scene, plan: result.plan, silhouettes, solids, forms, about: planning.about() } };
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
