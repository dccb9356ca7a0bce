/**
 * Solids by how they stand: turned and scaled once, then only shifted. Up and down, a figure of any size costs nothing;
 * what is drawn of it (outline, form) is made once for each way it stands.
 */
import { lighterCopy, type DrawnMesh } from '../core/solid/lighter.ts';
import type { ReachingSolid } from '../core/solid/mold-clip.ts';
import { orientSolid, placeSolid, type OrientedSolid } from '../core/solid/pose.ts';
import type { TriangleMesh } from '../core/solid/solid.ts';
import type { SolidPlacement } from '../core/scene/scene.ts';
import type { Polygon } from '../core/sheet/polygon.ts';
import { silhouetteOf } from '../core/sheet/silhouette.ts';
import type { SolidForm } from './protocol.ts';

/** More triangles than this are drawn as a lighter copy, of so many: its ink and shading are made on the page's own thread, in 0.2 s. */
const MOST_DRAWN = 200_000;
const DRAWN_OF_MORE = 80_000;
/** Ways of standing kept beside those in use, for a turn that is taken back. */
const SPARE = 12;

/** Of the time that a first planning takes of a large mesh. */
const POSE_SHARE = 0.35;
const OUTLINE_SHARE = 0.3;

/** What a solid's standing depends on. */
type Stance = Pick<SolidPlacement, 'shape' | 'scale' | 'turnDeg'>;

interface Standing {
  readonly oriented: OrientedSolid;
  outline?: readonly Polygon[];
  /** Of more triangles than are drawn. */
  lighter?: DrawnMesh;
  placed?: { readonly at: string; readonly solid: ReachingSolid };
}

export class PosedSolids {
  /** In order of use, the oldest first. */
  readonly #standing = new Map<string, Standing>();
  readonly #ids = new WeakMap<TriangleMesh, number>();
  #lastId = 0;
  #used = new Set<string>();

  /** Starts a planning: what is asked for from here on is in use. */
  begin(): void {
    this.#used = new Set();
  }

  /** Ends it: lets go of what has not been in use for long. */
  end(): void {
    let spare = this.#standing.size - this.#used.size - SPARE;
    for (const key of [...this.#standing.keys()]) {
      if (spare <= 0) return;
      if (this.#used.has(key)) continue;
      this.#standing.delete(key);
      spare--;
    }
  }

  /** As `poseSolid`; the same pose gives the same solid. */
  pose(placement: SolidPlacement, mesh: TriangleMesh | undefined): ReachingSolid {
    const standing = this.#standingOf(placement, mesh, placement.turnDeg);
    const at = `${placement.xMm} ${placement.yMm} ${placement.baseMm}`;
    if (standing.placed?.at !== at) standing.placed = { at, solid: placeSolid(standing.oriented, placement) };
    return standing.placed.solid;
  }

  /** Its outline from the front, x–z, mm. */
  outline(placement: SolidPlacement, mesh: TriangleMesh | undefined): readonly Polygon[] {
    const standing = this.#standingOf(placement, mesh, placement.turnDeg);
    standing.outline ??= silhouetteOf(standing.oriented.mesh());
    return standing.outline.map(({ outer, holes }) => ({ outer: moved(outer, placement), holes: holes.map((hole) => moved(hole, placement)) }));
  }

  /** Whether it stood like this before. */
  knows(stance: Stance, mesh: TriangleMesh): boolean {
    return this.#standing.has(this.#keyOf(stance, mesh, stance.turnDeg));
  }

  /** Does beforehand what pose, outline and form would take; `onShare` is told how far that has come. */
  prepare(stance: Stance, mesh: TriangleMesh, onShare: (share: number) => void): void {
    onShare(0);
    const standing = this.#standingOf(stance, mesh, stance.turnDeg);
    onShare(POSE_SHARE);
    standing.outline ??= silhouetteOf(standing.oriented.mesh());
    onShare(POSE_SHARE + OUTLINE_SHARE);
    if (isHeavy(mesh)) lighterOf(this.#standingOf(stance, mesh, withoutZ(stance.turnDeg)));
  }

  /** Names its form: its turn about z, which a drawing can do itself, is not in it. */
  formKey(placement: SolidPlacement, mesh: TriangleMesh | undefined): string {
    return this.#keyOf(placement, mesh, withoutZ(placement.turnDeg));
  }

  form(placement: SolidPlacement, mesh: TriangleMesh | undefined): SolidForm {
    const standing = this.#standingOf(placement, mesh, withoutZ(placement.turnDeg));
    const { positions, indices } = isHeavy(standing.oriented.mesh()) ? lighterOf(standing) : standing.oriented.mesh();
    return { positions: Float32Array.from(positions), indices: indices.slice() };
  }

  #standingOf(placement: Stance, mesh: TriangleMesh | undefined, turnDeg: SolidPlacement['turnDeg']): Standing {
    const key = this.#keyOf(placement, mesh, turnDeg);
    const standing: Standing = this.#standing.get(key) ?? { oriented: orientSolid({ shape: placement.shape, turnDeg, scale: placement.scale, mesh }) };
    this.#standing.delete(key);
    this.#standing.set(key, standing);
    this.#used.add(key);
    return standing;
  }

  #keyOf({ shape, scale }: Stance, mesh: TriangleMesh | undefined, turnDeg: SolidPlacement['turnDeg']): string {
    const of = mesh ? `mesh ${this.#idOf(mesh)}` : JSON.stringify(shape);
    return `${of} × ${scale} @ ${turnDeg.join(' ')}`;
  }

  #idOf(mesh: TriangleMesh): number {
    let id = this.#ids.get(mesh);
    if (id === undefined) this.#ids.set(mesh, (id = ++this.#lastId));
    return id;
  }
}

const isHeavy = ({ indices }: TriangleMesh): boolean => indices.length / 3 > MOST_DRAWN;

function lighterOf(standing: Standing): DrawnMesh {
  const { positions, indices } = standing.oriented.mesh();
  return (standing.lighter ??= lighterCopy(positions, indices, DRAWN_OF_MORE));
}

const withoutZ = ([x, y]: SolidPlacement['turnDeg']): SolidPlacement['turnDeg'] => [x, y, 0];

function moved(ring: Polygon['outer'], { xMm, baseMm }: SolidPlacement): Polygon['outer'] {
  return ring.map(([x, z]) => [x + xMm, z + baseMm] as const);
}
