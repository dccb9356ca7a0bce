/** What to paint on a plane of a creature, in words: after its 1:1 pages, on as many as it takes. */
import type { Creature } from '../scene/scene.ts';
import type { PlaneGuide } from '../sight/guide.ts';
import type { SheetPage } from './document.ts';
import type { Block } from './flow.ts';
import { flow, gap, heading, paragraph, tickItem } from './flow.ts';
import type { Lettering, Pen } from './pen.ts';
import { LINE, createPen } from './pen.ts';
import { rectangle } from './polygon.ts';
import { colorBlocks, patch } from './template-colors.ts';
import { FEATHER_HATCH, HIDDEN_HATCH } from './template-drawing.ts';
import type { LineHatch } from './template-hatch.ts';
import { hatchInside } from './template-hatch.ts';
import type { PageFormat, TemplateSheet } from './template-pages.ts';
import { THIN_LINE_MM } from './template-tiles.ts';
import { writeHead } from './template-pages.ts';

/** mm. Longer lines are hard to read. */
const WIDEST_MM = 170;

export interface Told {
  readonly guides: readonly PlaneGuide[];
  /** What to paint for which color: the paint, `#rrggbb`, and a sentence on it. */
  readonly paints: readonly { readonly hex: string; readonly words: string }[];
}

export function layNotePages(sheet: TemplateSheet, told: Told, format: PageFormat, { lettering, before, of, creatures }: { lettering: Lettering; before: number; of: number; creatures: readonly Creature[] }): SheetPage[] {
  const widthMm = Math.min(WIDEST_MM, format.liveWidthMm);
  const pens: Pen[] = [];
  flow(noteBlocks(told, creatures, widthMm, lettering), () => {
    const pen = createPen(lettering);
    pens.push(pen);
    const words = of === 0 ? '' : `page ${before + pens.length} of ${of}`;
    const top = writeHead(pen, { ...sheet, subtitle: 'what to paint', facts: [], printFacts: [] }, { liveWidthMm: format.liveWidthMm, words, lettering });
    return { pen, x: 0, top: top + 3, bottom: format.liveHeightMm };
  });
  return pens.map((pen) => ({ kind: sheet.kind, title: `${sheet.title}, what to paint`, halted: sheet.halts.length > 0, items: pen.items }));
}

function noteBlocks({ guides, paints }: Told, creatures: readonly Creature[], widthMm: number, lettering: Lettering): Block[] {
  let number = 0;
  const said = guides.flatMap((guide): Block[] => [
    heading(creatures.find(({ id }) => id === guide.creatureId)?.name ?? guide.creatureId, widthMm, lettering),
    ...guide.within.map((words) => tickItem([words], widthMm, lettering)),
    ...(guide.shading ? [paragraph([guide.shading], widthMm, lettering, { afterMm: 2.4 })] : []),
    ...guide.hints.map(({ words }) => paragraph([{ text: `${++number}  `, face: 'bold' }, words], widthMm, lettering)),
    ...colorBlocks(guide, widthMm, lettering),
    gap(3),
  ]);
  const colors = paints.length === 0 ? [] : [
    heading('To read in color', widthMm, lettering),
    ...paints.map(({ hex, words }) => patch(hex, words, widthMm, lettering)),
    paragraph(['As seen straight on, by light that goes in and comes out again. Judge paint wet, as it will look under resin.'], widthMm, lettering),
    gap(3),
  ];
  if (guides.length === 0) return colors;
  return [
    ...said,
    ...colors,
    heading('Lines and hatches', widthMm, lettering),
    sample('Paint this: it is seen from the show face.', null, widthMm, lettering),
    sample('Let the paint fade out here, under what is nearer the viewer, so that no bare edge shows from the side.', FEATHER_HATCH, widthMm, lettering),
    sample('Hidden under paint nearer the viewer: needs none, unless a number there asks for it.', HIDDEN_HATCH, widthMm, lettering),
  ];
}

/** A little box drawn like the region, and what it means. */
function sample(words: string, hatch: LineHatch | null, widthMm: number, lettering: Lettering): Block {
  const boxMm = 16;
  const text = paragraph([words], widthMm - boxMm - 4, lettering);
  const heightMm = Math.max(text.heightMm, 9);
  return {
    heightMm: heightMm + 1.6,
    draw(pen, x, y) {
      const box = rectangle(x, y + 0.5, x + boxMm, y + 7.5);
      if (hatch) pen.items.push({ kind: 'path', rings: hatchInside([box], hatch), closed: false, strokeMm: THIN_LINE_MM, fill: null, tone: 'ink' });
      pen.shape([box], { strokeMm: hatch ? THIN_LINE_MM : LINE.heavy });
      text.draw(pen, x + boxMm + 4, y);
    },
  };
}
