/** From a loaded scene and its plan to the laid-out sheet with the typefaces it was measured in. */
import type { Plan } from '../core/plan/plan.ts';
import type { Together } from '../core/plan/runs/together-plan.ts';
import type { Scene } from '../core/scene/scene.ts';
import type { Paper, SheetDocument } from '../core/sheet/document.ts';
import { layoutSheet } from '../core/sheet/layout.ts';
import type { Polygon } from '../core/sheet/polygon.ts';
import { silhouetteOf } from '../core/sheet/silhouette.ts';
import { namesIn } from '../core/sheet/sheet-words.ts';
import { layTogetherPages } from '../core/sheet/together-page.ts';
import { standing } from '../core/sight/standing.ts';
import { strataOf } from '../core/sight/water.ts';
import { orientSolid, poseSolid } from '../core/solid/pose.ts';
import type { MeshReading } from '../core/solid/solid.ts';
import type { ChosenUnits } from '../core/units/in-units.ts';
import type { FontReader, SheetFonts } from './fonts.ts';
import { loadSheetFonts } from './fonts.ts';

export interface SheetJob {
  readonly scene: Scene;
  /** Meshes of `mesh` and `library` placements, by placement id: mm, z up, unposed. */
  readonly meshes: ReadonlyMap<string, MeshReading>;
  readonly plan: Plan;
  readonly paper: Paper;
  /** mm and mL without it. */
  readonly units?: ChosenUnits;
  readonly readFont: FontReader;
}

export async function sheetDocument({ scene, meshes, plan, paper, units, readFont }: SheetJob): Promise<{ document: SheetDocument; fonts: SheetFonts }> {
  const fonts = await loadSheetFonts(readFont, lettersOf(scene, plan));
  const silhouettes = silhouettesOf(scene, meshes);
  return { document: layoutSheet({ scene, plan, silhouettes, measure: fonts.measure, printable: fonts.printable, units }, paper), fonts };
}

/** The sheets of several pieces one behind the other, after a page with the order at the bench; every page names its piece. */
export async function sheetsDocument(pieces: readonly Pick<SheetJob, 'scene' | 'meshes' | 'plan'>[], together: Together, { paper, units, readFont }: Pick<SheetJob, 'paper' | 'units' | 'readFont'>): Promise<{ document: SheetDocument; fonts: SheetFonts }> {
  const fonts = await loadSheetFonts(readFont, pieces.map(({ scene, plan }) => lettersOf(scene, plan)).join(' '));
  const lettering = { measure: fonts.measure, printable: fonts.printable };
  const sheets = pieces.map(({ scene, meshes, plan }) => layoutSheet({ scene, plan, silhouettes: silhouettesOf(scene, meshes), units, ...lettering }, paper));
  const order = layTogetherPages(pieces, together, { ...lettering, units });
  return { document: { ...sheets[0], title: 'Poured together: build sheets', pages: [...order, ...sheets.flatMap(({ pages }) => pages)] }, fonts };
}

/** Outlines from the front of every figure, bed and painted creature, by id; a mesh too broken to be posed has none. */
export function silhouettesOf(scene: Scene, meshes: SheetJob['meshes']): Map<string, readonly Polygon[]> {
  const outlines = new Map<string, readonly Polygon[]>();
  for (const placement of scene.placements) {
    if (placement.kind === 'plane') continue;
    const reading = meshes.get(placement.id);
    if (reading?.volumeErrorFraction === null) continue;
    outlines.set(placement.id, silhouetteOf(poseSolid(placement.shape, placement, reading?.mesh).mesh()));
  }
  for (const creature of scene.creatures) {
    const reading = meshes.get(creature.id);
    if (reading?.volumeErrorFraction === null) continue;
    const solid = orientSolid({ ...creature, mesh: reading?.mesh });
    outlines.set(creature.id, standing(creature, silhouetteOf(solid.mesh()), { tallMm: solid.sizeMm[2], strata: strataOf(scene) }).outline);
  }
  return outlines;
}

/** All that the sheet may print of a scene and its plan. */
function lettersOf(scene: Scene, plan: Plan): string {
  const names = [...namesIn(scene), ...scene.placements.map((placement) => (placement.kind === 'plane' ? '' : (placement.material ?? '')))];
  return [...names, JSON.stringify([plan.steps, plan.findings, plan.cautions, plan.pours.map(({ why }) => why)])].join(' ');
}
