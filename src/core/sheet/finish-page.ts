/** After the last pour: out of the mold, edges, faces, care; blanks for what the piece turned out to be. */
import { clearsLeast, softensFirst } from '../plan/heat-words.ts';
import type { FinishingPlan } from '../plan/plan.ts';
import { dayAndTime } from '../units/when.ts';
import type { SheetContext } from './context.ts';
import { headOf } from './context.ts';
import { finishBlocks } from './finish-blocks.ts';
import { LIVE_HEIGHT_MM, LIVE_WIDTH_MM } from './document.ts';
import type { Block } from './flow.ts';
import { blank, columnsOn, flow, gap, heading, heightOf, paragraph, tickItem } from './flow.ts';
import type { OpenPage } from './frame.ts';
import { LINE, SMALL_PT, type Pen } from './pen.ts';
import { rectangle } from './polygon.ts';

const GUTTER_MM = 11;
const LEFT_MM = 150;
const RIGHT_MM = LIVE_WIDTH_MM - LEFT_MM - GUTTER_MM;
const HALF_MM = (LIVE_WIDTH_MM - GUTTER_MM) / 2;
/** mm. Between the lines of the lists, the roomiest first. */
const SPACINGS_MM = [2.2, 1.4, 0.7] as const;
/** mm. Free for a photograph. */
const PHOTO_MM = 62;
const LEAST_PHOTO_MM = 35;
const PHOTO_GAP_MM = 5;

export function layFinishPage(sheet: SheetContext): void {
  const { plan, scene } = sheet;
  const open = () => sheet.book.open({ kind: 'finish', title: 'Finish', subtitle: scene.mold.keep ? 'it stays in its mold' : 'out of the mold', head: headOf(sheet, dayAndTime(plan.ready ?? plan.finish)), halts: sheet.halts });
  if (plan.finishing) layPlanned(sheet, plan.finishing, open);
  else layTold(sheet, open);
}

/** As it is planned: in two columns, what came of it after it, and what is left of the page for a photograph. */
function layPlanned(sheet: SheetContext, finishing: FinishingPlan, open: () => OpenPage): void {
  const list = (afterMm: number): Block[] => [...finishBlocks(sheet, finishing, { widthMm: HALF_MM, afterMm }), ...careNote(sheet, HALF_MM, afterMm), gap(afterMm), ...cameOfIt(sheet, HALF_MM)];
  const first = open();
  const columns = columnsOn((page) => (page === 0 ? first : open()), [0, HALF_MM + GUTTER_MM]);
  const room = LIVE_HEIGHT_MM - first.top;
  const fits = (blocks: readonly Block[]) => heightOf(blocks) + blocks.reduce((tallest, { heightMm }) => Math.max(tallest, heightMm), 0) <= 2 * room;
  const spacing = SPACINGS_MM.find((afterMm) => fits(list(afterMm))) ?? SPACINGS_MM[SPACINGS_MM.length - 1];
  const end = flow(list(spacing), columns);
  const { pen, x } = columns(end.columns - 1);
  const photoMm = Math.min(PHOTO_MM, LIVE_HEIGHT_MM - end.y - PHOTO_GAP_MM);
  if (photoMm >= LEAST_PHOTO_MM) photograph(pen, { x, y: end.y + PHOTO_GAP_MM, widthMm: HALF_MM, heightMm: photoMm });
}

/** As it is done by common practice. */
function layTold(sheet: SheetContext, open: () => OpenPage): void {
  const { plan, lettering, words } = sheet;
  const first = open();
  const later = columnsOn(open, [0]);
  const steps = plan.steps.filter(({ kind }) => kind === 'demold' || kind === 'finish');
  const left = (afterMm: number): Block[] => [
    ...steps.flatMap(({ kind, from, text }) => [
      heading(`${kind === 'demold' ? 'Out of the mold' : 'Edges and faces'}, ${dayAndTime(from)}`, LEFT_MM, lettering), gap(1),
      ...text.split(/(?<=\.) (?=[A-Z])/).map((sentence) => tickItem([sentence], LEFT_MM, lettering, { afterMm })), gap(afterMm),
    ]),
    heading('Polishing', LEFT_MM, lettering), gap(1),
    // Common practice, no source.
    tickItem(['180, 240, 320, 400, 600, 800, 1000, 1500, 2000, 3000, compound, polish; start at 400 to 600 on a good face. Wash between grits.'], LEFT_MM, lettering, { afterMm }),
    tickItem(['Or sand to 400, wipe, and flood with ' + words.span(1.5, 3) + ' of coating resin inside a tape dam; cover it.'], LEFT_MM, lettering, { afterMm }),
    gap(afterMm), ...careNote(sheet, LEFT_MM, afterMm),
  ];
  const right: Block[] = [
    ...cameOfIt(sheet, RIGHT_MM),
    gap(5),
    { heightMm: PHOTO_MM, draw: (pen, x, y) => photograph(pen, { x, y, widthMm: RIGHT_MM, heightMm: PHOTO_MM }) },
  ];
  const bottom = LIVE_HEIGHT_MM;
  // A long list stands closer before it goes on on another page.
  const spacing = SPACINGS_MM.find((afterMm) => heightOf(left(afterMm)) <= bottom - first.top) ?? SPACINGS_MM[0];
  flow(left(spacing), (index) => (index === 0 ? { pen: first.pen, x: 0, top: first.top, bottom } : later(index - 1)));
  flow(right, () => ({ pen: first.pen, x: LEFT_MM + GUTTER_MM, top: first.top, bottom: bottom + 60 }));
}

function careNote({ plan, lettering }: SheetContext, widthMm: number, afterMm: number): Block[] {
  const softens = softensFirst(plan.pours);
  const clears = clearsLeast(plan.pours);
  return [
    heading('Care note, for whoever gets it', widthMm, lettering), gap(1),
    ...(softens ? [paragraph([softens], widthMm, lettering)] : []),
    paragraph(['Soft cloth, no ammonia. Not in the sun, not on anything hot: it yellows and softens. Not for food or drink.'], widthMm, lettering),
    ...(clears ? [gap(afterMm), heading('How clear', widthMm, lettering), gap(1), paragraph([clears], widthMm, lettering)] : []),
  ];
}

function cameOfIt({ lettering, words }: SheetContext, widthMm: number): Block[] {
  return [
    heading('What came of it', widthMm, lettering),
    ...['finished on', 'mass, g', `size, ${words.unit}`, 'hours at the bench', 'lots used', 'next time', ''].map((label) => blank(label, widthMm, lettering, 8.4)),
  ];
}

function photograph(pen: Pen, { x, y, widthMm, heightMm }: { readonly x: number; readonly y: number; readonly widthMm: number; readonly heightMm: number }): void {
  pen.shape([rectangle(x, y, x + widthMm, y + heightMm)], { strokeMm: LINE.hair });
  pen.text(x + widthMm / 2, y + heightMm / 2, 'photograph', { pt: SMALL_PT, align: 'center', tone: 'soft' });
}
