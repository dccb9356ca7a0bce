/**
 * All templates of a piece, laid out once as data in mm: for each plane its pages for a printer and its drawing on a
 * page of its own size, and the stencils of all of them.
 */
import { haltsFor } from '../plan/halts.ts';
import type { Finding, Plan } from '../plan/plan.ts';
import type { Plane, PrintBars, Scene, Stroke } from '../scene/scene.ts';
import { STOP_TOLERANCE_MM } from '../scene/tolerance.ts';
import type { PlaneGuide } from '../sight/guide.ts';
import type { Region, Regions } from '../sight/region.ts';
import { sketchRegion } from '../sight/sketch/regions.ts';
import { listed, plain } from '../units/format.ts';
import type { ChosenUnits } from '../units/in-units.ts';
import { upAndDeep } from './context.ts';
import type { Measure, Paper, SheetDocument, SheetPage } from './document.ts';
import type { Lettering, Words } from './pen.ts';
import type { SheetWords } from './sheet-words.ts';
import { METRIC, planInUnits, sheetWords } from './sheet-words.ts';
import { CHECK_BAR_MM } from './strip-page.ts';
import type { PlaneArt } from './template-art.ts';
import { drawPlane } from './template-drawing.ts';
import { moldRing, templateFrame } from './template-mold.ts';
import { layNotePages, type Told } from './template-notes.ts';
import { paintedArt, turnedRight } from './template-painted.ts';
import type { PlaneRead } from './template-reads.ts';
import type { PageFormat, TemplateSheet } from './template-pages.ts';
import { bareFormat, bestFormat, layTemplatePages, pagesOf, paperFormats } from './template-pages.ts';
import { STENCILS_STEM, planesUpward, templateStems } from './template-planes.ts';
import { drawSketch } from './template-sketch.ts';
import type { Opening } from './template-stencil.ts';
import { stencilSheets } from './template-stencil.ts';

export interface TemplateInput {
  readonly scene: Scene;
  readonly plan: Plan;
  /** What of creatures to paint on planes; none: planes with art only. */
  readonly guides: readonly PlaneGuide[];
  /** By the plane's id: what of its creatures can't be drawn, in sentences. */
  readonly unseen: ReadonlyMap<string, readonly string[]>;
  /** How planes read through the resin, by the plane's id; left out: nothing is said of it. */
  readonly reads?: ReadonlyMap<string, PlaneRead>;
  /** Art by the plane's id; a plane without is drawn as its wall. */
  readonly art: ReadonlyMap<string, PlaneArt>;
  readonly regions: Regions;
  readonly paper: Paper;
  /** What the printer's bars measured, where it is not the scene's `bench.printBars`. */
  readonly bars?: PrintBars;
  readonly measure: Measure;
  readonly printable?: (text: string) => string;
  readonly units?: ChosenUnits;
}

export interface TemplateFile {
  /** Safe as a file's name, without ending, and no other file of the set has it. */
  readonly stem: string;
  readonly title: string;
  /** For a printer: in parts where it is larger than the paper. */
  readonly pages: SheetDocument;
  /** The same on one page of its own size, uncorrected: for a cutter, a wide printer, a drawing program. */
  readonly whole: readonly SheetDocument[];
}

/**
 * Files of every plane from the floor up, then the stencils. Empty for a scene without planes. Throws a TemplateError (found,
 * expected, what to do) where a drawing takes more pages than anyone would join.
 */
export function layoutTemplates(input: TemplateInput): TemplateFile[] {
  const { scene, measure, printable = (text) => text, units = METRIC } = input;
  const words = sheetWords(scene, units);
  const plan = planInUnits(input.plan, words);
  const lettering = { measure, printable };
  const planes = planesUpward(scene);
  if (planes.length === 0) return [];
  const by: Layout = { ...input, plan, words, lettering, bars: input.bars ?? scene.bench.printBars };
  const frame = templateFrame(scene);
  const stems = templateStems(planes);
  const files = planes.map((plane, i): TemplateFile => {
    const guides = input.guides.filter(({ planeId }) => planeId === plane.id);
    const read = input.reads?.get(plane.id);
    const sketch = drawSketch(sketchOn(scene, plane), { wall: turnedRight(moldRing(scene.mold, plane.atMm)), regions: input.regions, lettering });
    const { items, notes } = drawPlane(scene, frame, { plane, art: input.art.get(plane.id) ?? null, guides, sketch: sketch.items, shadows: read?.shadows }, lettering);
    const sheet: TemplateSheet = {
      kind: 'template',
      title: plane.name,
      subtitle: `plane ${i + 1} of ${planes.length}`,
      piece: scene.name,
      facts: factsOf(plane, [...notes, ...sketch.notes, ...(read?.facts ?? []).map(words.said), ...(input.unseen.get(plane.id) ?? [])], by),
      printFacts: printFacts(by),
      halts: haltsAt([plane], plan),
      bounds: frame.bounds,
      items,
    };
    return fileOf(stems[i], [sheet], by, { guides, paints: (read?.paints ?? []).map((paint) => ({ ...paint, words: words.said(paint.words) })) });
  });
  return [...files, stencilFile(planes, by)];
}

interface Layout extends Omit<TemplateInput, 'measure' | 'printable' | 'units'> {
  readonly words: SheetWords;
  readonly lettering: Lettering;
}

function fileOf(stem: string, sheets: readonly TemplateSheet[], by: Layout, told: Told = { guides: [], paints: [] }): TemplateFile {
  const { lettering } = by;
  const format = bestFormat(sheets, paperFormats(by.paper, by.bars), lettering);
  const notes = (before: number, of: number): SheetPage[] => (told.guides.length + told.paints.length === 0 ? [] : layNotePages(sheets[0], told, format, { lettering, before, of, creatures: by.scene.creatures }));
  const drawn = sheets.reduce((sum, sheet) => sum + pagesOf(sheet, format, lettering), 0);
  const of = drawn + notes(0, 0).length;
  const pages: SheetPage[] = [];
  for (const sheet of sheets) pages.push(...layTemplatePages(sheet, format, { lettering, before: pages.length, of }));
  pages.push(...notes(drawn, of));
  return {
    stem,
    title: sheets[0].title,
    pages: documentOf(pages, format, by),
    whole: sheets.map((sheet) => {
      const unprinted = { ...sheet, printFacts: ['True to size, for no printer in particular: both bars are 100\u00a0mm.'] };
      const bare = bareFormat(unprinted, lettering);
      return documentOf(layTemplatePages(unprinted, bare, { lettering, before: 0, of: 1 }), bare, by);
    }),
  };
}

function documentOf(pages: readonly SheetPage[], { widthMm, heightMm, originMm, scale }: PageFormat, { paper, plan, scene }: Layout): SheetDocument {
  return { title: `${scene.name || 'Piece'}: ${pages[0].title}`, paper, widthMm, heightMm, originXMm: originMm, originYMm: originMm, scale, created: plan.steps[0]?.from ?? null, pages };
}

function factsOf(plane: Plane, notes: readonly string[], by: Layout): Words[] {
  return [{ text: `${upAndDeep(by, plane.atMm)}.`, face: 'bold' }, ` ${whenPainted(plane, by.plan)} `, ...commonFacts(notes, by)];
}

/** How it lies, and what is special of it. */
function commonFacts(notes: readonly string[], { scene }: Layout): Words[] {
  const mirrored: Words[] = scene.cast === 'face-down' ? [{ text: 'Mirrored, as it is cast face-down: the finished piece shows it the other way round.', face: 'bold' }, ' '] : [];
  return [
    'Drawn as you look down into the mold. ',
    ...mirrored,
    ...notes.map((note) => `${note} `),
  ];
}

/** How to print it, which holds for pages and not for a drawing without paper. */
function printFacts({ bars }: Layout): Words[] {
  const corrected = bars && (bars.xMm !== CHECK_BAR_MM || bars.yMm !== CHECK_BAR_MM);
  return [
    { text: 'Print at 100\u00a0%, without scaling: both bars must measure 100\u00a0mm.', face: 'bold' },
    corrected ? ` Drawn for a printer whose bars measured ${plain(bars.xMm, 2)}\u00a0mm across and ${plain(bars.yMm, 2)}\u00a0mm up.` : ' If they don’t, say what they measure, and the pages are drawn to fit.',
  ];
}

function whenPainted({ atMm }: Plane, { pours }: Plan): string {
  const below = pours.find(({ toMm }) => Math.abs(toMm - atMm) <= STOP_TOLERANCE_MM);
  const above = pours.find(({ fromMm }) => Math.abs(fromMm - atMm) <= STOP_TOLERANCE_MM);
  if (!below) return 'Paint it on the mold’s floor, before the first pour.';
  return above ? `Paint it on pour ${below.index} when that is cured and scuffed, before pour ${above.index}.` : 'Paint it on the cured top.';
}

/** Halts of the pours that end or begin at these planes, and of the whole plan. */
function haltsAt(planes: readonly Plane[], { findings, pours }: Plan): Finding[] {
  const touching = pours.filter(({ fromMm, toMm }) => planes.some(({ atMm }) => Math.abs(fromMm - atMm) <= STOP_TOLERANCE_MM || Math.abs(toMm - atMm) <= STOP_TOLERANCE_MM));
  const concerned = new Set(touching.flatMap(({ index }) => haltsFor(findings, index)));
  return findings.filter((finding) => concerned.has(finding));
}

function stencilFile(planes: readonly Plane[], by: Layout): TemplateFile {
  const { scene, regions, lettering } = by;
  const frame = templateFrame(scene);
  const openings = planes.map((plane, i): Opening => ({ plane, number: i + 1, region: openingOf(plane, by) }));
  const without = openings.filter(({ region }) => region.length === 0).map(({ plane }) => plane.name);
  const cut = stencilSheets(scene, openings.filter(({ region }) => region.length > 0), { frame, regions, lettering });
  const drawn = cut.length > 0 ? cut : [{ openings: [], items: drawPlane(scene, frame, { plane: planes[0], art: null, guides: [] }, lettering).items, notes: [] }];
  const sheets = drawn.map(({ openings: members, items, notes }, i): TemplateSheet => {
    const named = members.map(({ number, plane }) => `${number} ${plane.name}`);
    const use = members.length > 1 ? 'Cut along every line and keep the rings; to paint a plane, lay down all that is outside its line.' : members.length === 1 ? 'Cut along the line.' : 'No plane has an outline to cut.';
    const left = without.length > 0 ? [`${listed(without)}: no outline to cut.`] : [];
    return {
      kind: 'stencil',
      title: drawn.length === 1 ? 'Stencils' : `Stencils ${i + 1}`,
      subtitle: drawn.length === 1 ? '' : `sheet ${i + 1} of ${drawn.length}`,
      piece: scene.name,
      facts: [{ text: named.length > 0 ? `${named.join(', ')}.` : '', face: 'bold' }, ` ${use} `, ...commonFacts([...notes, ...left], by)],
      printFacts: printFacts(by),
      halts: haltsAt(members.length > 0 ? members.map(({ plane }) => plane) : planes, by.plan),
      bounds: frame.bounds,
      items,
    };
  });
  return fileOf(STENCILS_STEM, sheets, by);
}

const sketchOn = ({ strokes = [] }: Scene, { id }: Plane): readonly Stroke[] => strokes.filter(({ plane }) => plane === id);

/** What is painted on a plane, within the wall. */
function openingOf(plane: Plane, { scene, art, guides, regions }: Layout): Region {
  const sections = guides.filter(({ planeId }) => planeId === plane.id).map(({ outline }) => outline);
  sections.push(paintedArt(scene, plane, art.get(plane.id), regions), sketchRegion(sketchOn(scene, plane), regions));
  return regions.meet(regions.unite(sections), [turnedRight(moldRing(scene.mold, plane.atMm))]);
}
