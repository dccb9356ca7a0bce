/** The whole section, true to scale, with heights and depths; under or beside it what each pour is, and how deep things look. */
import type { Pour } from '../plan/plan.ts';
import { capital, plain } from '../units/format.ts';
import { dayAndTime } from '../units/when.ts';
import type { SheetContext } from './context.ts';
import { formulaOf, headOf } from './context.ts';
import { LIVE_HEIGHT_MM, LIVE_WIDTH_MM } from './document.ts';
import type { Block, Column } from './flow.ts';
import { evenBottom, flow, heading } from './flow.ts';
import type { OpenPage } from './frame.ts';
import { inches } from '../units/imperial.ts';
import { MM_PER_INCH } from '../units/quantity.ts';
import { spread } from './labels.ts';
import type { Pen } from './pen.ts';
import { LINE, SMALL_PT, leading, wrap, writeLines } from './pen.ts';
import { rectangle } from './polygon.ts';
import { depthAt } from '../scene/depth.ts';
import { hatchOf } from './section.ts';
import type { SectionView } from './section-view.ts';
import { viewOf } from './section-view.ts';
import { seenDepths } from './seen-depths.ts';
import { drawWholeSection } from './section-drawing.ts';

/** mm. Left of the section for depths, right of it for the pours' tags. */
const DEPTHS_MM = 12;
const TAGS_MM = 30;
/** mm. Tallest section that leaves room for the list under it. */
const LOW_SECTION_MM = 84;
/** mm between two tags' baselines. */
const TAG_PITCH_MM = 5;
const SWATCH_MM = 10;
const LIST_GUTTER_MM = 8;

export function laySectionPages(sheet: SheetContext): void {
  const open = (index: number): OpenPage =>
    sheet.book.open({ kind: 'section', title: 'Section', subtitle: index === 0 ? 'every pour, true to scale' : 'what each pour is', head: headOf(sheet, `fill ${sheet.words.length(sheet.scene.fillMm)}`), halts: sheet.halts });
  const first = open(0);
  const { section, lettering, words } = sheet;
  const top = first.top + 8;
  const room = { x: DEPTHS_MM, y: top, widthMm: LIVE_WIDTH_MM - DEPTHS_MM - TAGS_MM, heightMm: LIVE_HEIGHT_MM - top - 10 };
  const low = viewOf(section, { ...room, heightMm: Math.min(room.heightMm, LOW_SECTION_MM) });
  // A tall, narrow piece stands at the left with the list beside it; any other lies over the list.
  const tall = low.scale < 1 ? viewOf(section, { ...room, widthMm: 118 }) : low;
  const beside = low.scale < 1 && tall.scale > low.scale;
  const view = beside ? tall : low;
  drawWholeSection(first.pen, { section, view, lettering, words, halted: sheet.haltedPours });
  labelEdges(first.pen, sheet, view, first.top + 5.4);
  writeTags(first.pen, sheet, view);
  const foot = writeStatements(first.pen, sheet, view);

  const blocks = (width: number): Block[] => [heading('What each pour is', width, lettering), ...sheet.plan.pours.map((pour) => pourBlock(sheet, pour, width)), ...seenDepths(sheet, width)];
  if (beside) {
    const left = view.right + TAGS_MM + 6;
    const width = LIVE_WIDTH_MM - left;
    const later: OpenPage[] = [];
    flow(blocks(width), (index): Column => {
      if (index === 0) return { pen: first.pen, x: left, top: first.top, bottom: LIVE_HEIGHT_MM };
      later[Math.floor((index - 1) / 2)] ??= open(index);
      const page = later[Math.floor((index - 1) / 2)];
      return { pen: page.pen, x: index % 2 === 1 ? 0 : LIVE_WIDTH_MM - width, top: page.top, bottom: LIVE_HEIGHT_MM };
    });
    return;
  }
  const COLUMNS = 3;
  const width = (LIVE_WIDTH_MM - (COLUMNS - 1) * LIST_GUTTER_MM) / COLUMNS;
  const pages: OpenPage[] = [{ ...first, top: foot + 4 }];
  const all = blocks(width);
  flow(all, (index): Column => {
    const number = Math.floor(index / COLUMNS);
    pages[number] ??= open(number);
    return { pen: pages[number].pen, x: (index % COLUMNS) * (width + LIST_GUTTER_MM), top: pages[number].top, bottom: evenBottom(all, COLUMNS, pages[number].top, LIVE_HEIGHT_MM) };
  });
}

function labelEdges(pen: Pen, { section, words }: SheetContext, view: SectionView, y: number): void {
  const left = Math.min(view.pageX(-section.halfRimMm), view.pageX(-section.halfFloorMm));
  pen.text(0, y, 'depth', { pt: SMALL_PT, tone: 'soft' });
  pen.text(left, y, `height, ${words.unit}`, { pt: SMALL_PT, tone: 'soft' });
  pen.text(view.right + 4, y, 'pours', { pt: SMALL_PT, tone: 'soft' });
  // Show face: a small triangle over a level line, where the finished face is.
  const faceMm = section.cast === 'face-down' ? 0 : section.fillMm;
  const [x, faceY] = [view.pageX(section.halfFloorMm) - 14, view.pageY(faceMm)];
  if (section.cast === 'face-up' && faceY - view.top > 3) pen.shape([[[x - 1.8, faceY - 3.1], [x + 1.8, faceY - 3.1], [x, faceY - 0.3]]], { strokeMm: LINE.rule, fill: 'paper' });
}

/** Number and depth of each pour at the right, pulled apart where pours are thin. */
function writeTags(pen: Pen, { plan: { pours }, words }: SheetContext, view: SectionView): void {
  // Under the column's heading, over the scale bar's words.
  const [first, last] = [view.top + 2.2, view.bottom + 2];
  // More tags than the edge holds: every second or third is written, the uppermost always; the list has them all.
  const every = Math.ceil(pours.length / (1 + Math.floor((last - first) / TAG_PITCH_MM)));
  const tagged = pours.filter(({ index }) => (pours.length - index) % every === 0).reverse();
  const middleOf = ({ fromMm, toMm }: Pour): number => view.pageY((fromMm + toMm) / 2);
  const at = spread(tagged.map((pour) => middleOf(pour) + 1.4), TAG_PITCH_MM, first, last);
  const wall = view.right;
  tagged.forEach((pour, i) => {
    const [low, high] = [view.pageY(pour.fromMm), view.pageY(pour.toMm)];
    pen.line([[wall + 0.8, low - 0.3], [wall + 1.8, low - 0.3], [wall + 1.8, high + 0.3], [wall + 0.8, high + 0.3]], LINE.hair);
    pen.line([[wall + 1.8, middleOf(pour)], [wall + 4.2, at[i] - 1.4]], LINE.hair);
    const width = pen.text(wall + 5, at[i], String(pour.index), { face: 'bold', pt: 13 });
    pen.text(wall + 5 + width + 2, at[i], words.length(pour.depthMm), { pt: SMALL_PT, tone: 'soft' });
  });
}

/** Scale bar and what the drawing says of itself; returns the first free y. */
function writeStatements(pen: Pen, sheet: SheetContext, view: SectionView): number {
  return writeScaleBar(pen, view, view.bottom + 4.5, sheet, LIVE_WIDTH_MM);
}

/** A bar of round length in section mm, then the statements, wrapped before `right`. Returns the first free y. */
export function writeScaleBar(pen: Pen, view: SectionView, y: number, { lettering, words }: Pick<SheetContext, 'lettering' | 'words'>, right: number): number {
  const rounds = words.unit === 'in' ? [1, 2, 4, 8, 20, 40].map((inch) => inch * MM_PER_INCH) : [50, 20, 100, 200, 500, 1000];
  const length = rounds.find((step) => step * view.scale >= 15 && step * view.scale <= 51) ?? 50 / view.scale;
  const x = view.left + view.wallMm;
  const end = x + length * view.scale;
  pen.line([[x, y], [end, y]], 0.4);
  for (const at of [x, end]) pen.line([[at, y - 1], [at, y + 1]], 0.4);
  const lines = wrap([`${words.unit === 'in' ? `${inches(length)}${words.beside(length)}` : `${plain(length)}\u00a0mm (${inches(length)})`}. ${words.said(view.statements.join(' '))}`], right - end - 3, lettering, { pt: SMALL_PT, maxLines: 3 });
  return writeLines(pen, end + 2.5, y + 1.3, lines, { pt: SMALL_PT });
}

/** Hatch swatch with its number; span up and deep; formula; why; when. */
function pourBlock(sheet: SheetContext, pour: Pour, widthMm: number): Block {
  const { lettering, scene, words } = sheet;
  const halted = sheet.haltedPours.has(pour.index);
  const text = widthMm - SWATCH_MM - 3.5;
  const span = `${words.span(pour.fromMm, pour.toMm)} up`;
  const deepMm = [depthAt(scene, pour.fromMm), depthAt(scene, pour.toMm)] as const;
  const deep = `${deepMm.map((mm) => words.number(mm)).join(' to ')} deep`;
  const lines = [
    ...wrap([{ text: span, face: 'bold' }, ` ${deep}`], text, lettering, { pt: SMALL_PT }),
    ...wrap([...(halted ? [{ text: 'DO NOT POUR ', face: 'bold' as const }] : []), pour.why], text, lettering, { pt: SMALL_PT, maxLines: 5 }),
    ...wrap([formulaOf(sheet, pour.formula).name, '. ', capital(dayAndTime(pour.starts))], text, lettering, { pt: SMALL_PT, maxLines: 2 }),
  ];
  return {
    heightMm: Math.max(SWATCH_MM, lines.length * leading(SMALL_PT)) + 3.4,
    draw(pen, x, y) {
      const box = rectangle(x, y + 0.6, x + SWATCH_MM, y + 0.6 + SWATCH_MM);
      pen.hatch([{ outer: box, holes: [] }], hatchOf(pour.index) as 1);
      pen.shape([box], { strokeMm: LINE.rule });
      pen.text(x + SWATCH_MM / 2, y + 0.6 + SWATCH_MM / 2 + 2, String(pour.index), { face: 'bold', pt: 15, align: 'center', halo: true });
      writeLines(pen, x + SWATCH_MM + 3.5, y + 4, lines, { pt: SMALL_PT });
    },
  };
}

