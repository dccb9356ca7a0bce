/** What a piece's painted creatures look like and what to paint of them on each plane, in the worker. Fetched when a piece has one. */
import type { Creature, Scene } from '../core/scene/scene.ts';
import type { Polygon } from '../core/sheet/polygon.ts';
import { silhouetteOf } from '../core/sheet/silhouette.ts';
import { planesUpward } from '../core/sheet/template-planes.ts';
import { artRegions } from '../core/sheet/template-reads.ts';
import { figureMeshes, unknownShadows } from '../core/sight/casters.ts';
import { builtSections } from '../core/sight/eye.ts';
import type { CreatureColors } from '../core/sight/colors/brought.ts';
import type { ColoredMesh } from '../core/sight/colors/colored-mesh.ts';
import type { PlaneGuide } from '../core/sight/guide.ts';
import { shadowsIn } from '../core/sight/reading.ts';
import type { Region, Regions } from '../core/sight/region.ts';
import { standing } from '../core/sight/standing.ts';
import { strataOf } from '../core/sight/water.ts';
import { orientSolid } from '../core/solid/pose.ts';
import { sliceable, type Sections, type Sliceable } from '../core/solid/section.ts';
import { SolidError, type MeshReading, type TriangleMesh } from '../core/solid/solid.ts';
import { fileColors } from '../files/creature-colors.ts';
import { mayHaveColors } from '../files/mesh/color/may-have.ts';
import { resolveLink } from '../files/scene-text.ts';
import { guidesFor } from '../files/template-guides.ts';
import type { Surroundings } from './answers.ts';
import { linkedBytes } from './linked-bytes.ts';
import type { PieceMeshes } from './piece-meshes.ts';
import type { DrawnCreature, PaintedPlanes } from './protocol.ts';

/** Lines round a creature, evenly up its height, by which the picture shows its form. */
const CONTOURS = 9;
/** Creatures cut and kept: those of the piece, and a turn or size that is taken back. */
const KEPT = 12;

interface Cut {
  readonly slices: Sliceable;
  /** Front outline, x–z, as it is turned: its middle and its lowest point at 0. */
  readonly outline: readonly Polygon[];
}

export class PaintedDesk {
  /** In order of use, the oldest first. */
  readonly #cuts = new Map<string, Cut>();
  readonly #ids = new WeakMap<TriangleMesh, number>();
  #lastId = 0;
  /** Of the files that the piece's creatures come from, by the file and its unit; null: none. */
  #colors = new Map<string, ColoredMesh | string | null>();

  /** A creature that can't be read or cut says why and stops nothing. */
  async painted(scene: Scene, around: Surroundings, pieces: PieceMeshes): Promise<PaintedPlanes> {
    const { meshes, failed } = await pieces.readings(scene.creatures);
    const cutOf = (creature: Creature): Cut => this.#cut(creature, meshes.get(creature.id));
    const sectionsOf = (creature: Creature): Sections => cutOf(creature).slices.placed(creature);
    const regions = await around.regions();
    const { guides, unseen } = guidesFor(scene, meshes, { regions, failed, sectionsOf, colors: await this.#colorsOf(scene, pieces) });
    const thrown = scene.lamp ? await shadowsOn(scene, guides, { regions, pieces }) : { shadows: [], unknownShadows: [] };
    return { guides: [...guides].sort((a, b) => a.order - b.order), unseen, ...thrown, creatures: scene.creatures.map((creature) => drawn(creature, scene, failed.get(creature.id) ?? (() => cutOf(creature)))) };
  }

  /** Outlines from the front, by the creature's id; one that can't be read or cut has none. */
  async outlines(scene: Scene, pieces: PieceMeshes): Promise<Map<string, readonly Polygon[]>> {
    const { meshes, failed } = await pieces.readings(scene.creatures);
    const strata = strataOf(scene);
    const outlines = new Map<string, readonly Polygon[]>();
    for (const creature of scene.creatures) {
      if (failed.has(creature.id)) continue;
      try {
        const { slices, outline } = this.#cut(creature, meshes.get(creature.id));
        outlines.set(creature.id, standing(creature, outline, { tallMm: slices.sizeMm[2], strata }).outline);
      } catch (error) {
        if (!(error instanceof SolidError)) throw error;
      }
    }
    return outlines;
  }

  /** Read once, and kept as long as a creature of the piece is of that file. */
  async #colorsOf({ creatures }: Scene, pieces: PieceMeshes): Promise<CreatureColors> {
    const kept = new Map<string, ColoredMesh | string | null>();
    const found = new Map<string, ColoredMesh | string>();
    for (const { id, shape } of creatures) {
      const file = shape.type === 'mesh' && mayHaveColors(shape.file) ? pieces.file(resolveLink(shape.file)) : undefined;
      if (!file || shape.type !== 'mesh') continue;
      const key = `${file.id} ${shape.unit ?? ''}`;
      const known = kept.get(key) ?? this.#colors.get(key);
      const colors = known === undefined ? await fileColors(shape, async () => new Uint8Array(await file.blob.arrayBuffer())) : known;
      kept.set(key, colors);
      if (colors !== null) found.set(id, colors);
    }
    this.#colors = kept;
    return found;
  }

  #cut({ shape, turnDeg, scale, name }: Creature, reading: MeshReading | undefined): Cut {
    if (reading?.volumeErrorFraction === null) throw new SolidError(`${name} can’t be cut into planes: its mesh is too broken to mend. Repair it, or choose another.`);
    const mesh = reading?.mesh;
    const key = `${mesh ? this.#idOf(mesh) : JSON.stringify(shape)} × ${scale} @ ${turnDeg.join(' ')}`;
    const cut = this.#cuts.get(key) ?? { slices: sliceable({ shape, turnDeg, scale, mesh }), outline: silhouetteOf(orientSolid({ shape, turnDeg, scale, mesh }).mesh()) };
    this.#cuts.delete(key);
    this.#cuts.set(key, cut);
    for (const old of [...this.#cuts.keys()].slice(0, -KEPT)) this.#cuts.delete(old);
    return cut;
  }

  #idOf(mesh: TriangleMesh): number {
    let id = this.#ids.get(mesh);
    if (id === undefined) this.#ids.set(mesh, (id = ++this.#lastId));
    return id;
  }
}

/** Whatever a lamp meets: figures, creatures, sketches, drawings. */
async function shadowsOn(scene: Scene, guides: readonly PlaneGuide[], { regions, pieces }: { readonly regions: Regions; readonly pieces: PieceMeshes }): Promise<Pick<PaintedPlanes, 'shadows' | 'unknownShadows'>> {
  const planes = planesUpward(scene);
  const { planeArts } = await import('../files/template-files.ts');
  const given = await linkedBytes(planes.flatMap(({ art }) => art?.file ?? []), pieces);
  const { art } = await planeArts(planes, { file: (path) => given.get(path), regions });
  const { meshes } = await pieces.readings(scene.placements.filter((placement) => placement.kind === 'figure'));
  const casters = { painted: artRegions(scene, planes, art, regions), figures: figureMeshes(scene, meshes) };
  return { shadows: shadowsIn(scene, { plan: { pours: [] }, regions, guides, ...casters }), unknownShadows: unknownShadows(scene, casters) };
}

function drawn(creature: Creature, scene: Scene, cut: string | (() => Cut)): DrawnCreature {
  const { id, baseMm } = creature;
  const nothing = { id, topMm: baseMm, outline: [], contours: [] };
  if (typeof cut === 'string') return { ...nothing, why: cut };
  try {
    const { slices, outline } = cut();
    const strata = strataOf(scene);
    const stands = standing(creature, outline, { tallMm: slices.sizeMm[2], strata });
    return { id, ...stands, why: null, contours: contoursOf(builtSections(slices.placed(creature), creature, strata), baseMm, stands.topMm) };
  } catch (error) {
    if (!(error instanceof SolidError)) throw error;
    return { ...nothing, why: error.message };
  }
}

function contoursOf(sections: Sections, bottomMm: number, topMm: number): { readonly atMm: number; readonly loops: Region }[] {
  return Array.from({ length: CONTOURS }, (_, n) => {
    const atMm = bottomMm + ((n + 0.5) / CONTOURS) * (topMm - bottomMm);
    return { atMm, loops: sections.at(atMm) };
  });
}
