/**
 * The build sheet, laid out once as data: what someone else could make the piece from.
 * Pages in order: cover, section, get ready, one a pour, figures, shopping, calendar, fill marks, finish.
 */
import { haltedPours } from '../plan/halts.ts';
import type { SheetContext, SheetInput } from './context.ts';
import { layCalendarPages } from './calendar-page.ts';
import { layCover } from './cover-page.ts';
import type { Paper, SheetDocument } from './document.ts';
import { LIVE_HEIGHT_MM, LIVE_WIDTH_MM, PAPER_MM } from './document.ts';
import { layFiguresPage } from './figures-page.ts';
import { layFinishPage } from './finish-page.ts';
import { createBook } from './frame.ts';
import { layPourPage } from './pour-page.ts';
import { layPreparePage } from './prepare-page.ts';
import { sectionOf } from './section.ts';
import { laySectionPages } from './section-page.ts';
import { layShoppingPage } from './shopping-page.ts';
import { METRIC, planInUnits, sheetWords } from './sheet-words.ts';
import { layStripPages } from './strip-page.ts';

export type { SheetInput } from './context.ts';

/** mm. Least margin at the top; the rest goes below, where printers need more. */
const TOP_MARGIN_MM = 10;

/**
 * Pages of drawing primitives in mm. Pure: the same scene, plan and widths give the same document.
 * Time grows with the texts to be set: about 5 ms a page.
 */
export function layoutSheet(input: SheetInput, paper: Paper): SheetDocument {
  const { scene, silhouettes, measure, printable = (text) => text, units = METRIC } = input;
  const words = sheetWords(scene, units);
  const plan = planInUnits(input.plan, words);
  const lettering = { measure, printable };
  const halts = plan.findings.filter(({ severity }) => severity === 'halt');
  const sheet: SheetContext = {
    scene,
    plan,
    words,
    section: sectionOf({ scene, pours: plan.pours, silhouettes }),
    lettering,
    book: createBook(lettering, scene.name),
    halts,
    haltedPours: haltedPours(plan),
  };
  layCover(sheet);
  laySectionPages(sheet);
  layPreparePage(sheet);
  for (const pour of plan.pours) layPourPage(sheet, pour);
  layFiguresPage(sheet);
  layShoppingPage(sheet);
  layCalendarPages(sheet);
  layStripPages(sheet);
  layFinishPage(sheet);
  const [widthMm, heightMm] = PAPER_MM[paper];
  return {
    title: `${scene.name || 'Build sheet'}: build sheet`,
    paper,
    widthMm,
    heightMm,
    originXMm: (widthMm - LIVE_WIDTH_MM) / 2,
    originYMm: TOP_MARGIN_MM + (heightMm - TOP_MARGIN_MM - LIVE_HEIGHT_MM - 15) / 2,
    created: plan.steps[0]?.from ?? null,
    pages: sheet.book.close(),
  };
}
