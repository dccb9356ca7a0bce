/** A planned finish as a list to tick: what is done when, the grits of each face, the cups of each coat. */
import { cleanForCoat, popBubbles } from '../plan/finishing/finish-words.ts';
import { coatAmounts, faceName } from '../plan/finishing/finish-lines.ts';
import type { FinishingPlan, FinishWork, Step } from '../plan/plan.ts';
import { GOES_ON } from '../plan/step-words.ts';
import { dayAndTime, weekdayAndTime } from '../units/when.ts';
import type { SheetContext } from './context.ts';
import type { Block } from './flow.ts';
import { gap, heading, paragraph, tickItem } from './flow.ts';
import type { Words } from './pen.ts';
import { SMALL_PT, TICK_BOX_MM } from './pen.ts';
import { capital } from '../units/format.ts';

/** mm from one box to the next, and from one row of boxes to the next. */
const BOX_PITCH_MM = 15.2;
const BOX_ROW_MM = 6.2;
/** Stays in the column of its part. */
const AFTER_PART: Block = { heightMm: 1.2, draw: () => {} };

/** The whole of it, in order, for a column so wide. */
export function finishBlocks(sheet: SheetContext, finishing: FinishingPlan, { widthMm, afterMm }: { readonly widthMm: number; readonly afterMm: number }): Block[] {
  const { plan, lettering } = sheet;
  const small = { pt: SMALL_PT, afterMm };
  const of = (...works: FinishWork[]) => plan.steps.filter(({ finishing: work, text }) => work && works.includes(work.work) && text !== GOES_ON);
  const item = ({ from, text }: Pick<Step, 'from' | 'text'>) => tickItem([bold(`${dayAndTime(from)}. `), text], widthMm, lettering, small);
  const part = (title: string, blocks: readonly Block[]): Block[] => (blocks.length === 0 ? [] : [heading(title, widthMm, lettering), gap(0.6), ...blocks, AFTER_PART]);
  const sanded = of('sand').map((step) => {
    const face = finishing.faces.find((each) => each.face === step.finishing!.face)!;
    const polished = of('polish').find((other) => other.finishing!.face === face.face);
    const until = polished ? `, polish ${dayAndTime(polished.from)}` : '';
    return gritRow([bold(`${capital(face.name)}`), `, ${dayAndTime(step.from)}${until}`], [...face.grits.map(String), ...(face.polish ? ['compound', 'polish'] : [])], { sheet, widthMm, afterMm });
  });
  const [firstSanded] = of('sand');
  const care = firstSanded ? [paragraph([afterNumbers(firstSanded.text)], widthMm, lettering, small)] : [];
  return [
    ...part('Out of the mold, and rest', of('warm', 'demold', 'trim', 'rest').map(item)),
    ...part('Edges and sanding', [...of('edges').map(item), ...care, ...sanded]),
    ...part('Flood coats', coatBlocks(sheet, finishing, { widthMm, afterMm })),
    ...part('Last', of('base', 'done').map(item)),
  ];
}

/** Amounts only where they may be poured. */
function coatBlocks(sheet: SheetContext, { coats, coatHalt, faces }: FinishingPlan, { widthMm, afterMm }: { readonly widthMm: number; readonly afterMm: number }): Block[] {
  if (coats.length === 0) return [];
  const { lettering, words, scene } = sheet;
  const small = { pt: SMALL_PT, afterMm };
  if (coatHalt !== null) return [paragraph([bold(words.said(coatHalt))], widthMm, lettering, small)];
  const name = scene.formulas.get(coats[0].formula)!.name;
  // A face that is coated and not sanded is painted.
  const painted = faces.some(({ finish, grits }) => finish === 'flood-coat' && grits.length === 0);
  const clean = painted && coats.length > 1 ? `${cleanForCoat(scene, { painted: false })} The painted top must be dry; don’t wipe it.` : cleanForCoat(scene, { painted });
  const how = `Level, that face up, a dam of tape around it. ${clean} Spread it, ${popBubbles(scene, { painted })}, cover it. Again if it drew back: while it is tacky, or once it is scuffed.`;
  const each = coats.map((coat, i) => {
    const then = i + 1 < coats.length ? `turn it from ${dayAndTime(coat.firm)}` : `hard ${dayAndTime(coat.hard)}`;
    return tickItem([bold(`${capital(faceName(coat))}, ${dayAndTime(coat.starts)}. `), words.said(`${coatAmounts(coat, scene.bench.scaleG)}. Tacky ${weekdayAndTime(coat.opens)} to ${weekdayAndTime(coat.closes)}; ${then}.`)], widthMm, lettering, small);
  });
  return [paragraph([bold(`${name}. `), how], widthMm, lettering, small), ...each];
}

/** What a face is, then a box for each grit. */
function gritRow(title: readonly Words[], grits: readonly string[], { sheet, widthMm, afterMm }: { readonly sheet: SheetContext; readonly widthMm: number; readonly afterMm: number }): Block {
  const named = paragraph(title, widthMm, sheet.lettering, { pt: SMALL_PT, afterMm: 0 });
  const perRow = Math.floor(widthMm / BOX_PITCH_MM);
  // The last words are longer than a pitch.
  const places = grits.map((grit, i) => ({ grit, at: grit === 'polish' ? i + 0.7 : i })).map(({ grit, at }) => ({ grit, row: Math.floor(at / perRow), x: (at % perRow) * BOX_PITCH_MM }));
  const rows = Math.max(...places.map(({ row }) => row)) + 1;
  return {
    heightMm: named.heightMm + rows * BOX_ROW_MM + afterMm,
    draw(pen, x, y) {
      named.draw(pen, x, y);
      for (const place of places) {
        const [left, base] = [x + place.x, y + named.heightMm + place.row * BOX_ROW_MM + 4.4];
        pen.tick(left, base);
        pen.text(left + TICK_BOX_MM + 1.2, base, place.grit, { pt: SMALL_PT });
      }
    },
  };
}

/** The care that the first sanding says, without its grits. */
function afterNumbers(text: string): string {
  return text.slice(text.indexOf(' come off. ') + ' come off. '.length);
}

const bold = (text: string): Words => ({ text, face: 'bold' });
