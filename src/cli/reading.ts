/** What `plan` says of how a piece with painted planes reads through its resin. */
import type { Plan } from '../core/plan/plan.ts';
import type { PlaneArt } from '../core/sheet/template-art.ts';
import { planesUpward } from '../core/sheet/template-planes.ts';
import { artRegions } from '../core/sheet/template-reads.ts';
import { figureMeshes } from '../core/sight/casters.ts';
import { readingOf, type Reading } from '../core/sight/reading.ts';
import { sectionsFrom } from '../core/sight/slices.ts';
import type { SceneFiles } from '../files/bundle.ts';
import { creatureColors } from '../files/creature-colors.ts';
import type { LoadedScene } from '../files/load.ts';
import { openRegions } from '../files/regions.ts';
import { guidesFor } from '../files/template-guides.ts';

/** Null of a scene without painted planes. */
export async function pieceReading({ scene, meshes }: LoadedScene, plan: Plan, files: SceneFiles): Promise<Reading | null> {
  const planes = planesUpward(scene);
  if (planes.length === 0) return null;
  const regions = await openRegions();
  // Only dyed water asks which colors creatures bring.
  const dyed = scene.fills.some(({ tint }) => tint);
  const { guides } = guidesFor(scene, meshes, { regions, straightOnly: true, colors: dyed ? await creatureColors(scene.creatures, (path) => files.file(path)) : undefined });
  const lit = scene.lamp !== undefined;
  // Only shadows ask what is on pictures.
  const art = lit ? (await (await import('../files/template-files.ts')).planeArts(planes, { file: (path) => files.file(path), regions })).art : new Map<string, PlaneArt>();
  return readingOf(scene, { plan, regions, guides, sectionsOf: sectionsFrom(meshes), painted: artRegions(scene, planes, art, regions), figures: lit ? figureMeshes(scene, meshes) : new Map() });
}
