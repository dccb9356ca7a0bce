/** The printed sheet as another program reads it: paper sizes and the numbers on it. */
import { getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs';
import { projectRoot } from '../../src/cli/library.ts';
import type { Paper } from '../../src/core/sheet/document.ts';
import { readScene } from '../../src/core/scene/read.ts';
import { fontsOnDisk } from '../../src/files/fonts-disk.ts';
import { sheetPdf } from '../../src/files/pdf.ts';
import { sheetDocument } from '../../src/files/sheet-document.ts';
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
];
