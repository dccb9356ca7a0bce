/** The mix card of a pour: cumulative scale readings per cup, what to add, where the amount comes from. */
import type { Batch, Pour, SharedCups } from '../plan/plan.ts';
import { counted, divisionDigits, fixed, listed, plain } from '../units/format.ts';
import { bottleWords } from '../plan/air/bottle-words.ts';
import type { SheetContext } from './context.ts';
import { formulaOf } from './context.ts';
import type { Block } from './flow.ts';
import { gap, heading, paragraph } from './flow.ts';
import { fluidOunces } from '../units/imperial.ts';
import { ML_PER_FLUID_OUNCE } from '../units/quantity.ts';
import type { Pen } from './pen.ts';
import { BODY_PT, LINE, SMALL_PT, TICK_BOX_MM } from './pen.ts';

const READING_PT = 18;
const ROW_MM = 7.9;
/** Tick columns that fit before the words; more cups get a row of boxes under the card. */
const MOST_TICK_COLUMNS = 3;
const TICK_PITCH_MM = 5.2;
/** mm. Right edge of the `add` column, from the card's right. */
const READING_MM = 25;
/** mm. Least between a row's words and what to add. */
const APART_MM = 2;

/** Blocks of the card. Cups with the same readings share one set of rows. */
export function mixCard(sheet: SheetContext, pour: Pour, widthMm: number): Block[] {
  const { lettering, scene, words } = sheet;
  const count = pour.batches.length;
  const formula = formulaOf(sheet, pour.formula);
  const groups = alike(pour.batches);
  const title = count === 1 ? `Mix card: one cup, ${words.volume(pour.batches[0].mixMl)}` : `Mix card: ${counted(count, 'cup')}${groups.length === 1 ? `, ${words.volume(pour.batches[0].mixMl)} each` : ''}`;
  const { copies } = scene.run;
  const toTheLine = (copies * pour.netMl) / (1 - formula.shrinkageFraction);
  const spare = toTheLine * scene.bench.allowanceFraction;
  const holdUp = count * scene.bench.holdUpMl;
  const part = (ml: number): string => (words.units.volume === 'floz' ? plain(ml / ML_PER_FLUID_OUNCE, 2) : plain(ml));
  const usable = Math.floor(Math.min(...pour.batches.map(({ usableMin }) => usableMin)));
  return [
    heading(title, widthMm, lettering),
    ...groups.flatMap((group) => cardRows(sheet, group, count, widthMm)),
    gap(1.2),
    ...premix(sheet, pour.batches[0], widthMm),
    paragraph([{ text: `Out of the cup within ${plain(usable, 0)}\u00a0min`, face: 'bold' }, ' of adding part B.'], widthMm, lettering, { pt: SMALL_PT, afterMm: 0.6 }),
    ...(pour.mixC === undefined ? [] : [paragraph([bottleWords(scene, pour)], widthMm, lettering, { pt: SMALL_PT, afterMm: 0.6 })]),
    pour.shared ? sharedBy(sheet, pour, pour.shared, widthMm) : paragraph([`${copies > 1 ? `${plain(copies, 0)} molds, ` : ''}${part(toTheLine)} to the ${copies > 1 ? 'lines' : 'line'}, ${part(spare)} spare, ${part(holdUp)} in the ${count === 1 ? 'cup' : 'cups'}: ${words.units.volume === 'floz' ? fluidOunces(pour.mixMl) : words.bothVolumes(pour.mixMl)}.`], widthMm, lettering, { pt: SMALL_PT, afterMm: 0.6 }),
  ];
}

/** Cups that fill other pieces too: mixed once, whichever sheet one holds. */
function sharedBy({ lettering, words }: SheetContext, pour: Pour, { with: others, molds, mixMl }: SharedCups, widthMm: number): Block {
  return paragraph([{ text: `Mixed once for ${plain(molds, 0)} molds, with ${listed(others)}.`, face: 'bold' }, ` Don’t mix it again from their sheet. ${words.volume(mixMl)} in all; this piece takes ${words.volume(pour.mixMl)}, spare and what stays in the cups within.`], widthMm, lettering, { pt: SMALL_PT, afterMm: 0.6 });
}

/** The readings with the dye premixed, where it is too little to weigh. */
function premix({ lettering, scene }: SheetContext, { premix: mixed }: Batch, widthMm: number): Block[] {
  if (!mixed) return [];
  const digits = divisionDigits(scene.bench.scaleG);
  const [a, withDye, all] = mixed.scaleStopsG.map((reading) => fixed(reading, digits));
  const partB = all === undefined ? '' : `, part B to ${all}`;
  return [paragraph([{ text: `Dye too little to weigh: premix it 1:${mixed.partsA} in part A.`, face: 'bold' }, ` Then part A to ${a}, premix to ${withDye}${partB} g.`], widthMm, lettering, { pt: SMALL_PT, afterMm: 0.6 })];
}

interface Group {
  readonly batch: Batch;
  /** Number of the first cup, and how many there are. */
  readonly first: number;
  readonly cups: number;
}

function alike(batches: readonly Batch[]): Group[] {
  const groups: { batch: Batch; first: number; cups: number }[] = [];
  batches.forEach((batch, i) => {
    const last = groups.at(-1);
    const key = (one: Batch): string => `${one.scaleStopsG.join(' ')} ${one.tintG}`;
    if (last && key(last.batch) === key(batch)) last.cups++;
    else groups.push({ batch, first: i + 1, cups: 1 });
  });
  return groups;
}

function cardRows({ scene, lettering }: SheetContext, { batch, first, cups }: Group, count: number, widthMm: number): Block[] {
  const digits = divisionDigits(scene.bench.scaleG);
  const grams = (value: number): string => fixed(value, digits);
  const [afterA, afterB] = batch.scaleStopsG;
  const pouredIn: [string, string, string][] = afterB === undefined
    ? [['resin', grams(afterA), grams(afterA)]]
    : [['part A (resin)', grams(afterA), grams(afterA)], ['part B (hardener)', grams(afterB - afterA), grams(afterB)]];
  const beside = (columns: number): number => (columns > 0 ? columns * TICK_PITCH_MM + 1.4 : 0);
  const long = (words: string): number => lettering.measure(words, 'sans', BODY_PT);
  const fits = pouredIn.every(([label, add]) => beside(cups) + long(label) + APART_MM + long(add) <= widthMm - READING_MM);
  const columns = cups <= MOST_TICK_COLUMNS && fits ? cups : 0;
  const labelX = beside(columns);
  const head: Block = {
    heightMm: 5.2,
    keepWithNext: true,
    draw(pen, x, y) {
      if (count > 1) for (let i = 0; i < columns; i++) pen.text(x + i * TICK_PITCH_MM + TICK_BOX_MM / 2, y + 4.2, String(first + i), { pt: SMALL_PT, align: 'center', tone: 'soft' });
      if (count > 1) pen.text(x + labelX, y + 4.2, cups > 1 && columns > 0 ? `of ${count} cups` : cups === 1 ? `cup ${first} of ${count}` : `cups ${first} to ${first + cups - 1} of ${count}`, { pt: SMALL_PT, tone: 'soft' });
      pen.text(x + widthMm - READING_MM, y + 4.2, 'add, g', { pt: SMALL_PT, align: 'right', tone: 'soft' });
      pen.text(x + widthMm, y + 4.2, 'scale, g', { pt: SMALL_PT, align: 'right', tone: 'soft' });
    },
  };
  const row = (label: string, add: string, reads: string): Block => ({
    heightMm: ROW_MM,
    keepWithNext: true,
    draw(pen, x, y) {
      const base = y + ROW_MM - 2.4;
      ticks(pen, x, base, columns);
      pen.text(x + labelX, base, label);
      pen.text(x + widthMm - READING_MM, base, add, { align: 'right' });
      pen.text(x + widthMm, base, reads, { face: 'bold', pt: READING_PT, align: 'right' });
      pen.line([[x, y + ROW_MM], [x + widthMm, y + ROW_MM]], LINE.pour);
    },
  });
  const rows = [head, row('empty cup, zero', '', grams(0))];
  rows.push(...pouredIn.map((words) => row(...words)));
  if (batch.tintG > 0) rows.push(row(columns > 1 ? 'dye, apart, last' : 'dye, weighed apart, last', fixed(batch.tintG, batch.tintG < 10 ? 2 : 1), ''));
  if (columns === 0) rows.push(cupBoxes(first, cups, widthMm));
  return rows;
}

function ticks(pen: Pen, x: number, base: number, columns: number): void {
  for (let i = 0; i < columns; i++) pen.tick(x + i * TICK_PITCH_MM, base);
}

/** A numbered box for each cup, in rows. */
function cupBoxes(first: number, cups: number, widthMm: number): Block {
  const pitch = 12;
  const perRow = Math.floor(widthMm / pitch);
  return {
    heightMm: Math.ceil(cups / perRow) * 7 + 1,
    draw(pen, x, y) {
      for (let i = 0; i < cups; i++) {
        const [left, base] = [x + (i % perRow) * pitch, y + 5.4 + Math.floor(i / perRow) * 7];
        pen.tick(left, base);
        pen.text(left + TICK_BOX_MM + 1.2, base, String(first + i), { pt: SMALL_PT });
      }
    },
  };
}
