/** The printed sheet as another program reads it: paper sizes and the numbers on it. */
import { getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs';
import { projectRoot } from '../../src/cli/library.ts';
import type { Paper } from '../../src/core/sheet/document.ts';
import { readScene } from '../../src/core/scene/read.ts';
import { fontsOnDisk } from '../../src/files/fonts-disk.ts';
import { sheetPdf } from '../../src/files/pdf.ts';
import { openRegions } from '../../src/files/regions.ts';
import { sheetDocument } from '../../src/files/sheet-document.ts';
import { templateFiles } from '../../src/files/template-files.ts';
import { readPdf } from '../files/pdf-lines.ts';
import { planOf, scene } from '../plan/planning.ts';
import type { EvidenceRow } from './evidence-row.ts';

const READER = 'read by pdfjs-dist 5.6.205';
/** Exact: 72 points to the inch of 25.4 mm (ISO 32000-1 §8.3.2.3). */
const MM_PER_POINT = 25.4 / 72;

const MIX_CARD = /partA\(resin\)([\d.]+?\.\d)([\d.]+?\.\d)partB\(hardener\)([\d.]+?\.\d)([\d.]+?\.\d)/;

/** Case 1 of cases.md as a sheet. */
async function sheet(paper: Paper) {
  const input = scene({ fillMm: 6 });
  const reading = readScene(input);
  if (!reading.ok) throw new Error(JSON.stringify(reading.problems));
  const { document, fonts } = await sheetDocument({ scene: reading.scene, meshes: new Map(), plan: planOf(input), paper, readFont: fontsOnDisk(projectRoot()) });
  return getDocument({ data: await sheetPdf(document, fonts), verbosity: 0 }).promise;
}

async function sizeOf(paper: Paper): Promise<string> {
  const [x0, y0, x1, y1] = (await (await sheet(paper)).getPage(1)).view;
  return [x1 - x0, y1 - y0].map((points) => (points * MM_PER_POINT).toFixed(1)).sort().join(' × ');
}

const TEMPLATE_PLANE = { id: 'p1', kind: 'plane', name: 'Ground', atMm: 20 };

/** The template of a plane at 20 mm in a mold of 200 × 120 mm at the floor whose walls lean out by 5°: its lines in true mm as a printer of these bars prints them. */
async function templateLines(bars?: { xMm: number; yMm: number }): Promise<readonly (readonly (readonly [number, number])[])[]> {
  const input = scene({ fillMm: 44, placements: [TEMPLATE_PLANE], mold: { shape: 'box', lengthMm: 200, widthMm: 120, heightMm: 60, draftDeg: 5 } });
  const reading = readScene(input);
  if (!reading.ok) throw new Error(JSON.stringify(reading.problems));
  const files = await templateFiles({ scene: reading.scene, plan: planOf(input), meshes: new Map(), paper: 'a4', bars, readFont: fontsOnDisk(projectRoot()), regions: await openRegions(), file: () => undefined });
  const [{ paths }] = await readPdf(files.find(({ name }) => name.endsWith('.pdf'))!.bytes);
  return paths.map((path) => path.map(([x, y]): [number, number] => [(x * (bars?.xMm ?? 100)) / 100, (y * (bars?.yMm ?? 100)) / 100]));
}

/** Of all lines of so many points, the one whose extent along an axis is nearest to what is looked for. */
async function extent(axis: 0 | 1, near: number, points: number, bars?: { xMm: number; yMm: number }): Promise<number> {
  const spans = (await templateLines(bars)).filter((path) => path.length === points).map((path) => Math.max(...path.map((point) => point[axis])) - Math.min(...path.map((point) => point[axis])));
  return spans.reduce((best, span) => (Math.abs(span - near) < Math.abs(best - near) ? span : best));
}

/** Every page's texts, blanks dropped. */
async function wordsOf(paper: Paper): Promise<string> {
  const pdf = await sheet(paper);
  let words = '';
  for (let page = 1; page <= pdf.numPages; page++) {
    const { items } = await (await pdf.getPage(page)).getTextContent();
    words += items.map((item) => ('str' in item ? item.str : '')).join('').replaceAll(/\s+/g, '');
  }
  return words;
}

export const rows: readonly EvidenceRow[] = [
  { subject: 'page of a sheet for A4, mm to a tenth', source: `ISO 216; ${READER}`, expected: '210.0 × 297.0', tolerance: 0, got: () => sizeOf('a4') },
  { subject: 'page of a sheet for Letter, mm to a tenth', source: `ANSI/ASME Y14.1; ${READER}`, expected: '215.9 × 279.4', tolerance: 0, got: () => sizeOf('letter') },
  { subject: 'mix card of case 1: add and read for part A, add and read for part B, g', source: `cases.md 1, hand arithmetic; ${READER}`, expected: '122.1 122.1 51.5 173.6', tolerance: 0, got: async () => MIX_CARD.exec(await wordsOf('a4'))?.slice(1).join(' ') ?? 'no such card' },
  { subject: 'check bar across on a template, mm', source: `100 mm by definition; ${READER}`, expected: 100, tolerance: 0.01, got: () => extent(0, 100, 2) },
  { subject: 'check bar up on a template, mm', source: `100 mm by definition; ${READER}`, expected: 100, tolerance: 0.01, got: () => extent(1, 100, 2) },
  { subject: 'the same bar across from a printer that draws 100 mm as 99.6, mm', source: `100 mm by definition; ${READER}`, expected: 100, tolerance: 0.01, got: () => extent(0, 100, 2, { xMm: 99.6, yMm: 100.2 }) },
  { subject: 'wall on the template of a plane 20 mm up, floor 200 mm long, walls leaning 5°, mm', source: `200 + 2 · 20 · tan 5°, trigonometry; ${READER}`, expected: 200 + 40 * Math.tan((5 * Math.PI) / 180), tolerance: 0.01, got: () => extent(0, 203.5, 5) },
];
