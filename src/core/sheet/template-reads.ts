/** What templates say and show of how a plane reads: shadows that fall on it, for whom it is drawn, what to paint for which color. */
import type { Plan } from '../plan/plan.ts';
import type { Plane, Scene } from '../scene/scene.ts';
import { figureMeshes, unknownShadows, type StandingMeshes } from '../sight/casters.ts';
import type { PlaneGuide } from '../sight/guide.ts';
import { lightBack, paintWords, planePaints } from '../sight/plane-paints.ts';
import { shadowsIn } from '../sight/reading.ts';
import { linedUpWords, onceWords, unknownWords } from '../sight/reading-words.ts';
import type { Region, Regions } from '../sight/region.ts';
import { sketchRegion } from '../sight/sketch/regions.ts';
import { pouredStrata } from '../sight/water.ts';
import type { TriangleMesh } from '../solid/solid.ts';
import { listed } from '../units/format.ts';
import type { PlaneArt } from './template-art.ts';
import { paintedArt } from './template-painted.ts';
import { planesUpward } from './template-planes.ts';

export interface PlaneRead {
  /** Drawn dotted, each with its name. */
  readonly shadows: readonly { readonly name: string; readonly region: Region }[];
  /** For the head, in sentences. */
  readonly facts: readonly string[];
  /** For the page of what to paint: each paint, `#rrggbb`, and a sentence on it. */
  readonly paints: readonly { readonly hex: string; readonly words: string }[];
}

export interface ReadsInput {
  readonly plan: Pick<Plan, 'pours'>;
  readonly guides: readonly PlaneGuide[];
  readonly art: ReadonlyMap<string, PlaneArt>;
  readonly regions: Regions;
  /** Of `mesh` and `library` figures, by id: without its mesh a figure's shadow is left out. */
  readonly meshes: StandingMeshes;
}

/** By the plane's id; a plane of which there is nothing to say is left out. */
export function planeReads(scene: Scene, { plan, guides, art, regions, meshes }: ReadsInput): ReadonlyMap<string, PlaneRead> {
  const { lamp } = scene;
  const planes = planesUpward(scene);
  const strata = pouredStrata(scene, plan);
  const painted = lamp ? artRegions(scene, planes, art, regions) : new Map<string, Region>();
  const figures = lamp ? figureMeshes(scene, meshes) : new Map<string, TriangleMesh>();
  const receivers = shadowsIn(scene, { plan, guides, painted, figures, regions });
  const unknown = lamp ? unknownShadows(scene, { painted, figures }) : [];
  return new Map(
    planes.flatMap((plane): [string, PlaneRead][] => {
      const shadows = receivers.find(({ planeId }) => planeId === plane.id)?.shadows ?? [];
      const drawn = scene.creatures.filter(({ id, read }) => read && guides.some((guide) => guide.planeId === plane.id && guide.creatureId === id));
      const facts = [
        ...drawn.map(({ name, read }) => linedUpWords(name, read!)),
        ...(lamp && shadows.length > 0 ? [`Dotted: the ${shadows.length === 1 ? 'shadow' : 'shadows'} of ${listed(shadows.map(({ name }) => name))}. ${onceWords(lamp)}`] : []),
        ...(unknown.length > 0 ? [unknownWords(unknown)] : []),
      ];
      const paints = planePaints(scene, plane, { leaves: lightBack(scene, strata, plane.atMm), guides }).map((paint) => ({ hex: paint.paint, words: paintWords(plane.name, paint) }));
      return facts.length + paints.length === 0 ? [] : [[plane.id, { shadows, facts, paints }]];
    }),
  );
}

/** What is painted of the planes' drawings and sketches, by the plane's id, in mold coordinates. */
export function artRegions(scene: Pick<Scene, 'cast' | 'strokes'>, planes: readonly Plane[], art: ReadonlyMap<string, PlaneArt>, regions: Regions): Map<string, Region> {
  return new Map(planes.flatMap((plane): [string, Region][] => {
    const sketched = sketchRegion((scene.strokes ?? []).filter((stroke) => stroke.plane === plane.id), regions);
    const region = regions.unite([paintedArt(scene, plane, art.get(plane.id), regions), sketched]);
    return region.length === 0 ? [] : [[plane.id, region]];
  }));
}
