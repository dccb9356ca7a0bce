/** Everything in a piece that throws a shadow, and which planes and which back it falls on. */
import { isMesh } from '../scene/mesh-shape.ts';
import type { Scene } from '../scene/scene.ts';
import { STOP_TOLERANCE_MM } from '../scene/tolerance.ts';
import { poseSolid } from '../solid/pose.ts';
import type { MeshReading, TriangleMesh } from '../solid/solid.ts';
import type { PlaneGuide } from './guide.ts';
import { loopArea, type Region, type Regions } from './region.ts';
import { flatShadow, isBefore, litRegion, shadowShift, solidShadow, type LitScene } from './shadow.ts';
import { backMm, faceMm } from './water.ts';

/** mm². A gap in a shadow no wider than a brush. */
const SLIT_MM2 = 4;

/** Paint at one height. */
interface Painted {
  readonly atMm: number;
  readonly region: Region;
}

interface Caster {
  /** Of the creature, the plane with a picture, or the figure. */
  readonly id: string;
  readonly name: string;
  /** From the show face in: what is dark at each painted height, its own paint and the shadows of all before it. */
  readonly dark: readonly Painted[];
  readonly mesh: TriangleMesh | null;
  /** Its mesh's whole shadow at its own deepest height, made on the first call: farther in it is the same, moved. */
  readonly whole: () => Region;
  /** Where it begins, looked at from the show face, and where it ends. */
  readonly nearestMm: number;
  readonly deepestMm: number;
  /** Planes it is painted on: no shadow of itself is to be painted there. */
  readonly onPlanes: readonly string[];
}

export interface CastShadow {
  readonly of: string;
  readonly name: string;
  /** It reaches through this height: its shadow begins where it stands. */
  readonly through: boolean;
  /** How far its deepest part's shadow lies from under it, and which way: degrees counterclockwise from the mold's right. */
  readonly shiftMm: number;
  readonly towardDeg: number;
  /** In mold coordinates, inside the walls. */
  readonly region: Region;
}

export interface Receiver {
  /** A plane's id; null: the back of the piece. */
  readonly planeId: string | null;
  readonly atMm: number;
  readonly shadows: readonly CastShadow[];
}

export interface CastOptions {
  readonly regions: Regions;
  readonly guides: readonly PlaneGuide[];
  /** What else is painted, by the plane's id: pictures whose outline is known. */
  readonly painted: ReadonlyMap<string, Region>;
  /** Of figures, where they stand, by id. */
  readonly figures: ReadonlyMap<string, TriangleMesh>;
}

/** Names of what throws a shadow that is not drawn: pictures of pixels, figures whose mesh is not there. */
export function unknownShadows({ placements }: Pick<Scene, 'placements'>, { painted, figures }: Pick<CastOptions, 'painted' | 'figures'>): string[] {
  return placements.filter((placement) => (placement.kind === 'plane' ? placement.art !== undefined && !painted.has(placement.id) : placement.kind === 'figure' && !figures.has(placement.id))).map(({ name }) => name);
}

/** For every plane and the back, what falls on it; from the floor up, the back last. */
export function castShadows(scene: LitScene & Pick<Scene, 'placements' | 'creatures'>, options: CastOptions): Receiver[] {
  const casters = castersOf(scene, options);
  const planes = scene.placements.flatMap((placement) => (placement.kind === 'plane' ? [{ planeId: placement.id as string | null, atMm: placement.atMm }] : []));
  const back = backMm(scene);
  // Paint on the back itself is where its shadows are painted.
  const receivers = [...planes.sort((a, b) => a.atMm - b.atMm), ...(planes.some(({ atMm }) => near(atMm, back)) ? [] : [{ planeId: null, atMm: back }])];
  return receivers.map(({ planeId, atMm }): Receiver => {
    const lit = litRegion(scene, atMm, options.regions);
    const shadows = casters.flatMap((caster): CastShadow[] => {
      if (planeId !== null && caster.onPlanes.includes(planeId)) return [];
      if (near(caster.nearestMm, atMm) || !isBefore(scene, caster.nearestMm, atMm)) return [];
      const region = withoutSlits(options.regions.meet(shadowOf(scene, caster, atMm), lit));
      if (region.length === 0) return [];
      const through = !near(caster.deepestMm, atMm) && !isBefore(scene, caster.deepestMm, atMm);
      const [dx, dy] = through ? [0, 0] : shadowShift(scene, caster.deepestMm, atMm);
      return [{ of: caster.id, name: caster.name, through, shiftMm: Math.hypot(dx, dy), towardDeg: (((scene.lamp.fromDeg + 180) % 360) + 360) % 360, region }];
    });
    return { planeId, atMm, shadows };
  });
}

/** Of `mesh` and `library` figures, by id. */
export type StandingMeshes = ReadonlyMap<string, Pick<MeshReading, 'mesh'>>;

/** Figures where they stand, by id; one whose mesh is not there is left out. */
export function figureMeshes({ placements }: Pick<Scene, 'placements'>, meshes: StandingMeshes): Map<string, TriangleMesh> {
  return new Map(
    placements.flatMap((placement): [string, TriangleMesh][] => {
      if (placement.kind !== 'figure') return [];
      const mesh = meshes.get(placement.id)?.mesh;
      if (isMesh(placement.shape) && (!mesh || mesh.indices.length === 0)) return [];
      return [[placement.id, poseSolid(placement.shape, placement, mesh).mesh()]];
    }),
  );
}

/** Light through such a gap is lost in a lamp's soft edge. */
function withoutSlits(region: Region): Region {
  return region.filter((loop) => loopArea(loop) < -SLIT_MM2 || loopArea(loop) > 0);
}

const near = (aMm: number, bMm: number): boolean => Math.abs(aMm - bMm) <= STOP_TOLERANCE_MM;

function shadowOf(scene: LitScene, { dark, mesh, whole, deepestMm }: Caster, onMm: number): Region {
  if (mesh) return isBefore(scene, deepestMm, onMm) ? flatShadow(scene, whole(), { atMm: deepestMm, onMm }) : solidShadow(scene, mesh, onMm);
  const last = dark.findLast(({ atMm }) => !near(atMm, onMm) && isBefore(scene, atMm, onMm));
  return last ? flatShadow(scene, last.region, { atMm: last.atMm, onMm }) : [];
}

function castersOf(scene: LitScene & Pick<Scene, 'placements' | 'creatures'>, { regions, guides, painted, figures }: CastOptions): Caster[] {
  const creatures = scene.creatures.flatMap(({ id, name }): Caster[] => {
    const own = guides.filter(({ creatureId }) => creatureId === id);
    // What nearer planes hide is not painted, and lets the light through.
    const parts = own.map(({ atMm, fresh, feather }) => ({ atMm, region: regions.unite([fresh, feather]) }));
    return flatCaster({ id, name }, parts, own.map(({ planeId }) => planeId), { scene, regions });
  });
  const others = scene.placements.flatMap((placement): Caster[] => {
    const { id, name } = placement;
    if (placement.kind === 'plane') {
      const region = painted.get(id);
      return region ? flatCaster({ id, name }, [{ atMm: placement.atMm, region }], [id], { scene, regions }) : [];
    }
    const mesh = placement.kind === 'figure' ? figures.get(id) : undefined;
    if (!mesh) return [];
    const ends = endsOf(reachOf(mesh), scene);
    let whole: Region | undefined;
    return [{ id, name, dark: [], mesh, whole: () => (whole ??= solidShadow(scene, mesh, ends.deepestMm)), onPlanes: [], ...ends }];
  });
  return [...creatures, ...others];
}

/** One, or none where nothing is painted. */
function flatCaster({ id, name }: { readonly id: string; readonly name: string }, parts: readonly Painted[], onPlanes: readonly string[], { scene, regions }: { readonly scene: LitScene; readonly regions: Regions }): Caster[] {
  const painted = parts.filter(({ region }) => region.length > 0).sort((a, b) => Math.abs(a.atMm - faceMm(scene)) - Math.abs(b.atMm - faceMm(scene)));
  if (painted.length === 0) return [];
  const dark: Painted[] = [];
  for (const { atMm, region } of painted) {
    const before = dark.at(-1);
    dark.push({ atMm, region: before ? regions.unite([region, flatShadow(scene, before.region, { atMm: before.atMm, onMm: atMm })]) : region });
  }
  return [{ id, name, dark, mesh: null, whole: () => [], onPlanes, ...endsOf(painted.map(({ atMm }) => atMm), scene) }];
}

function endsOf(heights: readonly number[], scene: LitScene): { deepestMm: number; nearestMm: number } {
  const [low, high] = [Math.min(...heights), Math.max(...heights)];
  return isBefore(scene, low, high) ? { nearestMm: low, deepestMm: high } : { nearestMm: high, deepestMm: low };
}

function reachOf({ positions }: TriangleMesh): [number, number] {
  let [low, high] = [Infinity, -Infinity];
  for (let i = 2; i < positions.length; i += 3) {
    if (positions[i] < low) low = positions[i];
    if (positions[i] > high) high = positions[i];
  }
  return [low, high];
}
