/**
 * What the planning worker does with each request: load and plan, lay out the sheet, write its PDF. It knows neither
 * worker nor page, so it runs in Node as well; what differs between them comes in as `Surroundings`.
 */
import { planScene } from '../core/plan/plan-scene.ts';
import type { Problem } from '../core/scene/read.ts';
import type { Scene } from '../core/scene/scene.ts';
import type { Polygon } from '../core/sheet/polygon.ts';
import { silhouetteOf } from '../core/sheet/silhouette.ts';
import { poseSolid } from '../core/solid/pose.ts';
import type { Booleans, MeshReading } from '../core/solid/solid.ts';
import { SceneFileError } from '../files/bundle.ts';
import type { FontReader, SheetFonts } from '../files/fonts.ts';
import { loadScene, type FigureLibrary } from '../files/load.ts';
import { filesGiven } from './given-files.ts';
import type { Answer, Kind, PlannedScene, Request } from './protocol.ts';

export interface Surroundings {
  booleans(): Promise<Booleans>;
  readonly library: FigureLibrary;
  /** The demo scene's JSON. */
  demo(): Promise<string>;
  readonly readFont: FontReader;
}

/** Never rejects: what went wrong is told as problems. */
export async function answer(request: Request, around: Surroundings): Promise<Answer<Kind>> {
  try {
    switch (request.kind) {
      case 'load':
        return await load(request.files, around);
      case 'sheet':
        return { ok: true, value: (await layOut(request, around)).document };
      case 'pdf': {
        const { document, fonts } = await layOut(request, around);
        const { sheetPdf } = await import('../files/pdf.ts');
        return { ok: true, value: await sheetPdf(document, fonts) };
      }
    }
  } catch (error) {
    return refused(error instanceof SceneFileError ? error.message : `Something went wrong in here, not in your file: ${error instanceof Error ? error.message : String(error)} Reload the page and try again.`);
  }
}

async function load(given: Extract<Request, { kind: 'load' }>['files'], around: Surroundings): Promise<Answer<'load'>> {
  const files = given === null ? { sceneText: await around.demo(), file: () => undefined } : filesGiven(given);
  const booleans = await around.booleans();
  const loading = await loadScene(files, around.library, booleans);
  if (!loading.ok) return loading;
  const { scene, document, meshes, notes } = loading.loaded;
  const result = planScene(scene, { meshes, booleans, notes });
  if (!result.ok) return result;
  return { ok: true, value: { scene, document, plan: result.plan, silhouettes: outlinesOf(scene, meshes) } };
}

/** A mesh too broken to be posed has no outline; its finding says so. */
function outlinesOf(scene: Scene, meshes: ReadonlyMap<string, MeshReading>): Map<string, Polygon[]> {
  const outlines = new Map<string, Polygon[]>();
  for (const placement of scene.placements) {
    if (placement.kind === 'plane') continue;
    const reading = meshes.get(placement.id);
    if (reading?.volumeErrorFraction === null) continue;
    outlines.set(placement.id, silhouetteOf(poseSolid(placement.shape, placement, reading?.mesh).mesh()));
  }
  return outlines;
}

/** The typefaces and the layout are a good part of the code and only the sheet needs them, so they are fetched here. */
async function layOut({ planned, paper }: Extract<Request, { kind: 'sheet' | 'pdf' }>, around: Surroundings) {
  const [{ loadSheetFonts }, { layoutSheet }] = await Promise.all([import('../files/fonts.ts'), import('../core/sheet/layout.ts')]);
  const fonts: SheetFonts = await loadSheetFonts(around.readFont, lettersOf(planned));
  const { scene, plan, silhouettes } = planned;
  return { document: layoutSheet({ scene, plan, silhouettes, measure: fonts.measure, printable: fonts.printable }, paper), fonts };
}

const lettersOf = ({ scene, plan }: PlannedScene): string => JSON.stringify([scene.name, scene.placements, [...scene.formulas.values()], plan]);

function refused(message: string): { readonly ok: false; readonly problems: readonly Problem[] } {
  return { ok: false, problems: [{ path: '', message }] };
}
