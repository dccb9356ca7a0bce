/**
 * The fill-mark strip: every level at 1:1, to cut out and tape to the mold. Longer than a page: in parts with register marks.
 * On leaning walls it is stretched along the wall, so that its marks stand at the true heights when it lies on the wall.
 */
import { plain } from '../units/format.ts';
import { inches, SIXTEENTH_MM } from '../units/imperial.ts';
import type { SheetContext } from './context.ts';
import { headOf } from './context.ts';
import { LIVE_HEIGHT_MM, LIVE_WIDTH_MM } from './document.ts';
import type { OpenPage } from './frame.ts';
import { lengthNumber } from '../units/in-units.ts';
import { spread } from './labels.ts';
import type { Pen } from './pen.ts';
import { LINE, SMALL_PT, TICK_PT, fit, wrap, writeLines } from './pen.ts';
import { rectangle } from './polygon.ts';

/** mm. One part of a strip, and how many stand on a page. */
const PART_MM = 130;
const PART_PITCH_MM = 85;
const PART_WIDTH_MM = 81;
const PARTS_ON_PAGE = 3;
/** mm. Where labels start, from the strip's left edge. */
const LABEL_X_MM = 21;
const LABEL_PITCH_MM = 4.6;
/** Labels that a part has room for, and shorter parts for pours so thin that they have more. */
const MOST_LABELS = 28;
const PART_LENGTHS_MM = [PART_MM, 90, 60, 40, 20];
/** mm. The bars that show whether the printer scaled. */
export const CHECK_BAR_MM = 100;

interface Level {
  readonly heightMm: number;
  readonly words: string;
  readonly bold: string;
}

export function layStripPages(sheet: SheetContext): void {
  const { mold } = sheet.scene;
  const stretch = 1 / Math.cos((mold.draftDeg * Math.PI) / 180);
  const partMm = partLength(sheet, stretch);
  const count = Math.max(1, Math.ceil((mold.heightMm * stretch) / partMm));
  // A short strip comes twice, one for each end of the mold.
  const copies = count === 1 ? 2 : 1;
  let page: OpenPage | null = null;
  for (let i = 0; i < count * copies; i++) {
    if (i % PARTS_ON_PAGE === 0) page = openPage(sheet, stretch);
    const x = (i % PARTS_ON_PAGE) * PART_PITCH_MM;
    drawPart(page!.pen, sheet, { part: i % count, count, partMm, x, top: page!.top, stretch });
  }
}

/** The longest part of which none has more labels than it has room for. */
function partLength(sheet: SheetContext, stretch: number): number {
  const heights = levelsOf(sheet).map(({ heightMm }) => heightMm * stretch);
  const fits = (length: number): boolean => {
    const counts = new Map<number, number>();
    for (const height of heights) counts.set(Math.floor(height / length), (counts.get(Math.floor(height / length)) ?? 0) + 1);
    return [...counts.values()].every((count) => count <= MOST_LABELS);
  };
  return PART_LENGTHS_MM.find(fits) ?? PART_LENGTHS_MM[PART_LENGTHS_MM.length - 1];
}

function openPage(sheet: SheetContext, stretch: number): OpenPage {
  const { scene, lettering } = sheet;
  const page = sheet.book.open({ kind: 'strip', title: 'Fill marks', subtitle: 'tape this to the mold', head: headOf(sheet, `rim at ${sheet.words.length(scene.mold.heightMm)}`), halts: sheet.halts });
  const lean = stretch > 1.0001 ? ` The walls lean ${plain(scene.mold.draftDeg)}°: the strip is stretched to lie along the wall.` : '';
  const lines = wrap([
    `Cut it out and tape it to the mold, 0 level with the floor inside, arrow up. Marks are for liquid resin.${lean} `,
    { text: 'Print at 100\u00a0%, without scaling: both bars must measure 100\u00a0mm.', face: 'bold' },
  ], LIVE_WIDTH_MM, lettering, { maxLines: 3 });
  const top = writeLines(page.pen, 0, page.top + 2.4, lines);
  drawBars(page.pen);
  return { pen: page.pen, top };
}

/** 100 mm, along the foot and up the right edge. */
function drawBars(pen: Pen): void {
  const y = LIVE_HEIGHT_MM - 2.4;
  pen.line([[0, y], [CHECK_BAR_MM, y]], LINE.rule);
  for (const x of [0, CHECK_BAR_MM]) pen.line([[x, y - 1.4], [x, y + 1.4]], LINE.rule);
  pen.text(CHECK_BAR_MM + 3, y + 1.3, `100\u00a0mm (${inches(CHECK_BAR_MM)})`, { pt: SMALL_PT });
  const x = LIVE_WIDTH_MM - 1.5;
  const low = LIVE_HEIGHT_MM - 8;
  pen.line([[x, low], [x, low - CHECK_BAR_MM]], LINE.rule);
  for (const at of [low, low - CHECK_BAR_MM]) pen.line([[x - 1.4, at], [x + 1.4, at]], LINE.rule);
  pen.text(x + 1.5, low + 5.2, '100\u00a0mm', { pt: SMALL_PT, align: 'right' });
}

function drawPart(pen: Pen, sheet: SheetContext, { part, count, partMm, x, top, stretch }: { part: number; count: number; partMm: number; x: number; top: number; stretch: number }): void {
  const { mold } = sheet.scene;
  const fromMm = (part * partMm) / stretch;
  const toMm = Math.min(mold.heightMm, ((part + 1) * partMm) / stretch);
  const joinsBelow = part > 0;
  const levels = levelsOf(sheet).filter(({ heightMm }) => heightMm <= toMm + 1e-9 && (joinsBelow ? heightMm > fromMm + 1e-9 : true));
  // Where levels lie closer than their labels can, the strip is made longer over the marks and the labels fan out.
  const spanMm = (toMm - fromMm) * stretch;
  const more = Math.max(0, levels.length * LABEL_PITCH_MM - spanMm - 2);
  const zero = Math.min(LIVE_HEIGHT_MM - 12, top + spanMm + more + 12);
  const yOf = (heightMm: number): number => zero - (heightMm - fromMm) * stretch;
  const [low, high] = [yOf(fromMm) + 4, yOf(toMm) - 6 - more];
  pen.shape([rectangle(x, high, x + PART_WIDTH_MM, low)], { strokeMm: LINE.hair });
  drawTicks(pen, { x, fromMm, toMm, yOf, levels, inInches: sheet.words.unit === 'in' });
  drawArrowUp(pen, x + PART_WIDTH_MM - 5, yOf(toMm) + (part + 1 < count ? 8 : 0), Math.min(14, (toMm - fromMm) * stretch));
  if (part > 0) drawRegister(pen, x, yOf(fromMm), `join ${part}`);
  if (part + 1 < count) drawRegister(pen, x, yOf(toMm), `join ${part + 1}`);

  // Labels keep clear of the words at a join.
  const lowest = part > 0 ? yOf(fromMm) - 4.2 : low - 1.4;
  const highest = part + 1 < count && more === 0 ? yOf(toMm) + 8 : high + 4.4;
  const room = (lowest - highest) / LABEL_PITCH_MM + 1;
  const every = Math.max(1, Math.ceil(levels.length / Math.max(1, room)));
  const wished = levels.map(({ heightMm }) => -yOf(heightMm) - 1.3);
  const at = spread(wished, LABEL_PITCH_MM, -lowest, -highest).map((y) => -y);
  levels.forEach((level, i) => {
    const y = yOf(level.heightMm);
    pen.line([[x, y], [x + 14, y]], LINE.mold);
    if (i % every !== 0) return;
    pen.line([[x + 14, y], [x + LABEL_X_MM - 1, at[i] - 1.3]], LINE.hair);
    const width = pen.text(x + LABEL_X_MM, at[i], level.bold, { face: 'bold', pt: SMALL_PT });
    const left = x + LABEL_X_MM + width + (width > 0 ? 1.8 : 0);
    pen.text(left, at[i], fit(level.words, 'sans', SMALL_PT, x + PART_WIDTH_MM - 8 - left, sheet.lettering), { pt: SMALL_PT });
  });
}

/** Every level from the floor up: what the resin reaches when poured, and how far that is below the rim. */
function levelsOf({ scene, plan, haltedPours, words }: SheetContext): Level[] {
  const { heightMm } = scene.mold;
  // Fractions are long: a strip is narrow.
  const rim = words.unit === 'in' ? 'rim' : 'the rim';
  const pours = plan.pours.map((pour): Level => {
    const level = heightMm - pour.fillMarkFromRimMm;
    return { heightMm: level, bold: haltedPours.has(pour.index) ? `DO NOT POUR ${pour.index}` : `Pour ${pour.index}`, words: `${words.mark(level)} up, ${words.fromRim(pour.fillMarkFromRimMm)} from ${rim}` };
  });
  return [{ heightMm: 0, bold: 'Floor', words: `0 up, ${words.fromRim(heightMm)} from ${rim}` }, ...pours.filter((level) => level.heightMm <= heightMm), { heightMm, bold: 'Rim', words: `${words.bare(heightMm)} up` }];
}

interface Ticks {
  readonly x: number;
  readonly fromMm: number;
  readonly toMm: number;
  readonly yOf: (heightMm: number) => number;
  readonly levels: readonly Level[];
  readonly inInches: boolean;
}

/** A tick a millimeter, numbers every ten; or a tick a sixteenth, numbers every half inch. */
function drawTicks(pen: Pen, { x, fromMm, toMm, yOf, levels, inInches }: Ticks): void {
  const stepMm = inInches ? SIXTEENTH_MM : 1;
  const [numbered, middling] = inInches ? [8, 4] : [10, 5];
  for (let step = Math.ceil(fromMm / stepMm - 1e-9); step * stepMm <= toMm + 1e-9; step++) {
    const height = step * stepMm;
    const long = step % numbered === 0 ? 5 : step % middling === 0 ? 3.4 : 2;
    pen.line([[x, yOf(height)], [x + long, yOf(height)]], LINE.hair);
    // Where a level's line runs through, its label says the height.
    const free = levels.every(({ heightMm }) => Math.abs(heightMm - height) > 1.6);
    if (step % numbered === 0 && free && height > fromMm + 1 && height < toMm - 1) pen.text(x + 6, yOf(height) + 1.1, lengthNumber(height, inInches ? 'in' : 'mm'), { pt: TICK_PT });
  }
}

function drawArrowUp(pen: Pen, x: number, top: number, length: number): void {
  pen.line([[x, top + length], [x, top]], LINE.mold);
  pen.line([[x - 1.4, top + 2.6], [x, top], [x + 1.4, top + 2.6]], LINE.mold);
  if (length > 13) pen.text(x, top + length + 4, 'up', { pt: SMALL_PT, align: 'center' });
}

/** A circle with a cross: lay it on its twin of the neighboring part. */
function drawRegister(pen: Pen, x: number, y: number, words: string): void {
  const [cx, r] = [x + PART_WIDTH_MM - 16, 2];
  const STEPS = 24;
  pen.line([[x, y], [x + PART_WIDTH_MM, y]], LINE.hair, { dash: [1.5, 1] });
  pen.shape([Array.from({ length: STEPS }, (_, i) => [cx + r * Math.cos((2 * Math.PI * i) / STEPS), y + r * Math.sin((2 * Math.PI * i) / STEPS)] as const)], { strokeMm: LINE.rule });
  pen.line([[cx, y - 3], [cx, y + 3]], LINE.rule);
  pen.text(cx + 4, y - 0.8 + 3.6, words, { pt: TICK_PT });
}

