/** What comes before the first pour: test cup, mold, figures, and work on the mold's floor. */
import type { Step } from '../plan/plan.ts';
import { capital } from '../units/format.ts';
import { dayAndTime } from '../units/when.ts';
import type { SheetContext } from './context.ts';
import { headOf } from './context.ts';
import { LIVE_WIDTH_MM } from './document.ts';
import { columnsOn, evenBottom, flow, gap, heading, tickItem } from './flow.ts';

const GUTTER_MM = 11;
const WIDTH_MM = (LIVE_WIDTH_MM - GUTTER_MM) / 2;

export function layPreparePage(sheet: SheetContext): void {
  const { plan, lettering } = sheet;
  const firstPour = plan.steps.findIndex(({ kind }) => kind === 'pour');
  const steps = plan.steps.slice(0, Math.max(0, firstPour)).filter(({ kind }) => kind !== 'place');
  if (steps.length === 0) return;
  const open = () => sheet.book.open({ kind: 'prepare', title: 'Get ready', subtitle: 'before the first pour', head: headOf(sheet, dayAndTime(steps[0].from)), halts: sheet.halts });
  const blocks = steps.flatMap((step, i) => [
    ...(i === 0 || step.from !== steps[i - 1].from ? [gap(i === 0 ? 0 : 2), heading(capital(dayAndTime(step.from)), WIDTH_MM, lettering), gap(1)] : []),
    ...sentences(step).map((sentence) => tickItem([sentence], WIDTH_MM, lettering)),
  ]);
  const next = columnsOn(open, [0, WIDTH_MM + GUTTER_MM]);
  flow(blocks, (index) => {
    const column = next(index);
    return { ...column, bottom: evenBottom(blocks, 2, column.top, column.bottom) };
  });
}

/** One box to tick a sentence. */
function sentences({ text }: Step): string[] {
  return text.split(/(?<=[.:]) (?=[A-Z])/).filter((sentence) => sentence.trim() !== '');
}
