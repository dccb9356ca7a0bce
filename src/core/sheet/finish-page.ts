/** After the last pour: out of the mold, edges, faces, care; blanks for what the piece turned out to be. */
import { clearsLeast, softensFirst } from '../plan/heat-words.ts';
import { dayAndTime } from '../units/when.ts';
import type { SheetContext } from './context.ts';
import { headOf } from './context.ts';
import { LIVE_HEIGHT_MM, LIVE_WIDTH_MM } from './document.ts';
import type { Block } from './flow.ts';
import { blank, columnsOn, flow, gap, heading, heightOf, paragraph, tickItem } from './flow.ts';
import { LINE, SMALL_PT } from './pen.ts';
import { rectangle } from './polygon.ts';

const GUTTER_MM = 11;
const LEFT_MM = 150;
const RIGHT_MM = LIVE_WIDTH_MM - LEFT_MM - GUTTER_MM;
/** mm. Between the lines of the lists, the roomiest first. */
const SPACINGS_MM = [2.2, 1.4, 0.7] as const;
/** mm. Free for a photograph. */
const PHOTO_MM = 62;

export function layFinishPage(sheet: SheetContext): void {
  const { plan, scene, lettering, words } = sheet;
  const open = () => sheet.book.open({ kind: 'finish', title: 'Finish', subtitle: scene.mold.keep ? 'it stays in its mold' : 'out of the mold', head: headOf(sheet, dayAndTime(plan.finish)), halts: sheet.halts });
  const first = open();
  const later = columnsOn(open, [0]);
  const steps = plan.steps.filter(({ kind }) => kind === 'demold' || kind === 'finish');
  const softens = softensFirst(plan.pours);
  const clears = clearsLeast(plan.pours);
  const left = (afterMm: number): Block[] => [
    ...steps.flatMap(({ kind, from, text }) => [
      heading(`${kind === 'demold' ? 'Out of the mold' : 'Edges and faces'}, ${dayAndTime(from)}`, LEFT_MM, lettering), gap(1),
      ...text.split(/(?<=\.) (?=[A-Z])/).map((sentence) => tickItem([sentence], LEFT_MM, lettering, { afterMm })), gap(afterMm),
    ]),
    heading('Polishing', LEFT_MM, lettering), gap(1),
    // Common practice, no source.
    tickItem(['180, 240, 320, 400, 600, 800, 1000, 1500, 2000, 3000, compound, polish; start at 400 to 600 on a good face. Wash between grits.'], LEFT_MM, lettering, { afterMm }),
    tickItem(['Or sand to 400, wipe, and flood with ' + words.span(1.5, 3) + ' of coating resin inside a tape dam; cover it.'], LEFT_MM, lettering, { afterMm }),
    gap(afterMm), heading('Care note, for whoever gets it', LEFT_MM, lettering), gap(1),
    ...(softens ? [paragraph([softens], LEFT_MM, lettering)] : []),
    paragraph(['Soft cloth, no ammonia. Not in the sun, not on anything hot: it yellows and softens. Not for food or drink.'], LEFT_MM, lettering),
    ...(clears ? [gap(afterMm), heading('How clear', LEFT_MM, lettering), gap(1), paragraph([clears], LEFT_MM, lettering)] : []),
  ];
  const right: Block[] = [
    heading('What came of it', RIGHT_MM, lettering),
    ...['finished on', 'mass, g', `size, ${words.unit}`, 'hours at the bench', 'lots used', 'next time', ''].map((label) => blank(label, RIGHT_MM, lettering, 8.4)),
    gap(5),
    { heightMm: PHOTO_MM, draw(pen, x, y) {
      pen.shape([rectangle(x, y, x + RIGHT_MM, y + PHOTO_MM)], { strokeMm: LINE.hair });
      pen.text(x + RIGHT_MM / 2, y + PHOTO_MM / 2, 'photograph', { pt: SMALL_PT, align: 'center', tone: 'soft' });
    } },
  ];
  const bottom = LIVE_HEIGHT_MM;
  // A long list stands closer before it goes on on another page.
  const spacing = SPACINGS_MM.find((afterMm) => heightOf(left(afterMm)) <= bottom - first.top) ?? SPACINGS_MM[0];
  flow(left(spacing), (index) => (index === 0 ? { pen: first.pen, x: 0, top: first.top, bottom } : later(index - 1)));
  flow(right, () => ({ pen: first.pen, x: LEFT_MM + GUTTER_MM, top: first.top, bottom: bottom + 60 }));
}
