/** From a scene and its plan to the files of its templates: a PDF and an SVG for each plane, and the stencils of all. */
import type { Plan } from '../core/plan/plan.ts';
import type { Plane, PrintBars, Scene } from '../core/scene/scene.ts';
import type { Paper, SheetPage } from '../core/sheet/document.ts';
import { flatItems } from '../core/sheet/document.ts';
import type { PlaneArt } from '../core/sheet/template-art.ts';
import { layoutTemplates } from '../core/sheet/template-layout.ts';
import { planesUpward } from '../core/sheet/template-planes.ts';
import { planeReads } from '../core/sheet/template-reads.ts';
import type { Regions } from '../core/sight/region.ts';
import type { MeshReading } from '../core/solid/solid.ts';
import type { ChosenUnits } from '../core/units/in-units.ts';
import { creatureColors } from './creature-colors.ts';
import { SceneFileError, sceneFail } from './fail.ts';
import type { FontReader } from './fonts.ts';
import { loadSheetFonts } from './fonts.ts';
import { guidePictures } from './guide-pictures.ts';
import { sheetPdf } from './pdf.ts';
import { canBePrinted } from './pdf-picture.ts';
import { pictureLook } from './picture-size.ts';
import { sheetSvg } from './sheet-svg.ts';
import { readSvgArt } from './svg-art.ts';
import { guidesFor } from './template-guides.ts';
import type { ZipFile } from './zip-write.ts';

/** mm. How far a curve's point may lie from where the art has it. */
const CURVE_MM = 0.005;

export interface TemplateJob {
  readonly scene: Scene;
  readonly plan: Plan;
  /** Of `mesh` and `library` creatures, by the creature's id; under a lamp those of figures too. */
  readonly meshes: ReadonlyMap<string, MeshReading>;
  /** Why a creature's mesh could not be read, by its id. */
  readonly failed?: ReadonlyMap<string, string>;
  readonly paper: Paper;
  readonly bars?: PrintBars;
  readonly units?: ChosenUnits;
  readonly readFont: FontReader;
  readonly regions: Regions;
  /** A file the scene links to; undefined where there is none. May throw SceneFileError. */
  readonly file: (path: string) => Uint8Array | undefined;
}

/** Names are safe for files and differ. Empty without planes. Throws TemplateError where a drawing is too large for paper. */
export async function templateFiles(job: TemplateJob): Promise<ZipFile[]> {
  const { scene, plan } = job;
  const planes = planesUpward(scene);
  if (planes.length === 0) return [];
  const { art, pictures } = await planeArts(planes, job);
  const { guides, unseen } = guidesFor(scene, job.meshes, { ...job, colors: await creatureColors(scene.creatures, job.file) });
  const reads = planeReads(scene, { ...job, guides, art });
  const made = guidePictures(guides, [...reads.values()].flatMap(({ paints }) => paints.map(({ hex }) => hex)));
  for (const [name, bytes] of made) pictures.set(name, bytes);
  const letters = JSON.stringify([scene.name, planes, scene.creatures.map(({ name }) => name), [...art.values()].map((one) => (one.kind === 'unseen' ? one.why : '')), [...unseen.values()], [...reads.values()].map(({ facts, paints }) => [facts, paints]), plan.findings]);
  const fonts = await loadSheetFonts(job.readFont, letters);
  const files: ZipFile[] = [];
  for (const { stem, pages, whole } of layoutTemplates({ ...job, guides, unseen, reads, art, measure: fonts.measure, printable: fonts.printable })) {
    files.push({ name: `${stem}.pdf`, bytes: await sheetPdf(pages, fonts, shownOn(pages.pages, pictures)) });
    whole.forEach((document, i) => files.push({ name: `${stem}${i === 0 ? '' : `-${i + 1}`}.svg`, bytes: new TextEncoder().encode(sheetSvg(document, document.pages[0], made)) }));
  }
  return files;
}

/** What of the planes' art can be drawn, by the plane's id, and the pictures among it that can be printed, by their link. */
export async function planeArts(planes: readonly Plane[], by: Pick<TemplateJob, 'file' | 'regions'>): Promise<{ art: Map<string, PlaneArt>; pictures: Map<string, Uint8Array> }> {
  const art = new Map<string, PlaneArt>();
  const pictures = new Map<string, Uint8Array>();
  for (const plane of planes) if (plane.art) art.set(plane.id, await artOf(plane, { ...by, pictures }));
  return { art, pictures };
}

/** Those pictures that these pages show: a file carries no other. */
function shownOn(pages: readonly SheetPage[], pictures: ReadonlyMap<string, Uint8Array>): Map<string, Uint8Array> {
  const names = new Set(pages.flatMap(({ items }) => flatItems(items)).flatMap((item) => (item.kind === 'picture' ? [item.picture] : [])));
  return new Map([...pictures].filter(([name]) => names.has(name)));
}

/** What of a plane's art can be drawn; what can't be read is told on its template and stops nothing. */
async function artOf({ name, art }: Plane, { file, regions, pictures }: Pick<TemplateJob, 'file' | 'regions'> & { pictures: Map<string, Uint8Array> }): Promise<PlaneArt> {
  const { file: link, widthMm } = art!;
  try {
    const bytes = file(link);
    if (!bytes) return { kind: 'unseen', why: `The picture ${link} of ${name} is not there: only the wall is drawn.` };
    const look = pictureLook(bytes);
    if (look) {
      const printed = pictures.has(link) || (await canBePrinted(bytes));
      if (printed) pictures.set(link, bytes);
      return { kind: 'picture', highPerWide: look.highPerWide, picture: printed ? link : null };
    }
    return readSvgArt(bytes, sceneFail(link), { widthMm, strayMm: CURVE_MM, regions });
  } catch (error) {
    if (error instanceof SceneFileError) return { kind: 'unseen', why: `The picture can’t be drawn: ${error.message}` };
    throw error;
  }
}
