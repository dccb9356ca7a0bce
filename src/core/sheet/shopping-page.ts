/** What to buy: each formula's parts in mL, fl oz and g, and the small things, counted from the pours. */
import { fixed, listed, plain } from '../units/format.ts';
import type { FinishingPlan } from '../plan/plan.ts';
import type { Finishing } from '../scene/scene.ts';
import type { SheetContext } from './context.ts';
import { formulaOf, headOf } from './context.ts';
import { LIVE_HEIGHT_MM, LIVE_WIDTH_MM } from './document.ts';
import type { Block, Cell, TableColumn } from './flow.ts';
import { costLines, kitLines, missingPrices } from '../plan/shop/shop-words.ts';
import { evenBottom, flow, flowTable, gap, heading, paragraph, tableRow, tickItem } from './flow.ts';
import type { OpenPage } from './frame.ts';
import { fluidOunces } from '../units/imperial.ts';
import type { SheetWords } from './sheet-words.ts';
import type { Words } from './pen.ts';
import { SMALL_PT } from './pen.ts';

const COLUMNS: readonly TableColumn[] = [
  { title: 'formula', widthMm: 79 },
  { title: 'mixed in all', widthMm: 48, align: 'right' },
  { title: 'part A (resin)', widthMm: 66, align: 'right' },
  { title: 'part B (hardener)', widthMm: 66, align: 'right' },
];
const GUTTER_MM = 11;
const WIDTH_MM = (LIVE_WIDTH_MM - GUTTER_MM) / 2;

export function layShoppingPage(sheet: SheetContext): void {
  const { plan, lettering } = sheet;
  const pages: OpenPage[] = [];
  const page = (index: number): OpenPage => (pages[index] ??= sheet.book.open({ kind: 'shopping', title: 'Shopping', subtitle: 'what the pours use up', head: headOf(sheet, `${plan.pours.length} pours`), halts: sheet.halts }));
  const rows = plan.shopping.map((row) => tableRow(COLUMNS, [
    [formulaOf(sheet, row.formula).name],
    [bothVolumes(sheet.words, row.mixMl)],
    amount(sheet.words, row.partA),
    row.partB.g > 0 ? amount(sheet.words, row.partB) : ['none'],
  ] satisfies Cell[], lettering));
  const table = flowTable(COLUMNS, rows, lettering, (index) => ({ pen: page(index).pen, x: 0, top: page(index).top, bottom: LIVE_HEIGHT_MM }));
  const first = table.columns - 1;
  const things = [
    ...shop(sheet),
    heading('And', WIDTH_MM, lettering), gap(1), ...consumables(sheet).map((text) => tickItem([text], WIDTH_MM, lettering)),
    paragraph(['Spare and what stays in the cups are counted in. The test cup is not: it takes 30 to 100\u00a0g more of each formula.' + (plan.shopping.some(({ kits }) => kits.length > 0) ? '' : ' Bottles are sold in kits: buy the next size up.')], WIDTH_MM, lettering, { pt: SMALL_PT }),
  ];
  flow(things, (index) => {
    const at = page(first + Math.floor(index / 2));
    const top = index < 2 ? table.y + 6 : at.top;
    return { pen: at.pen, x: index % 2 === 0 ? 0 : WIDTH_MM + GUTTER_MM, top, bottom: evenBottom(things, 2, top, LIVE_HEIGHT_MM) };
  });
}

/** The chosen unit first. */
function bothVolumes({ units }: SheetWords, ml: number): string {
  const both = [`${fixed(ml, 0)}\u00a0mL`, fluidOunces(ml)];
  return (units.volume === 'floz' ? both.reverse() : both).join(', ');
}

const amount = (words: SheetWords, { ml, g }: { ml: number; g: number }): Cell => [`${bothVolumes(words, ml)}, `, { text: `${fixed(g, 0)}\u00a0g`, face: 'bold' }];

/** Kits on hand and to buy, and the cost, where the scene says anything of them. */
function shop(sheet: SheetContext): Block[] {
  const { plan, lettering } = sheet;
  const kits = plan.shopping.map((row) => ({ name: formulaOf(sheet, row.formula).name, lines: kitLines(row).map(sheet.words.said) })).filter(({ lines }) => lines.length > 0);
  const part = (title: string, lines: readonly Words[][]): Block[] => (lines.length === 0 ? [] : [heading(title, WIDTH_MM, lettering), gap(1), ...lines.map((line) => paragraph(line, WIDTH_MM, lettering)), gap(3)]);
  const missing = plan.cost && missingPrices(plan.cost, (id) => formulaOf(sheet, id).name);
  const cost = plan.cost ? costLines(plan.cost).map(({ what, amount }): Words[] => [`${what}: `, { text: amount, face: 'bold' }]) : [];
  return [...part('Kits', kits.map(({ name, lines }) => [{ text: `${name}. `, face: 'bold' }, lines.join(' ')])), ...part('Cost', [...cost, ...(missing ? [[missing]] : [])])];
}

/** Counts by common practice, no source: two cups and two sticks a batch, two pairs of gloves a pour. */
function consumables({ plan, scene, words }: SheetContext): string[] {
  const poured = [...plan.pours, ...(plan.finishing?.coats ?? [])];
  const batches = poured.reduce((sum, { batches: cups }) => sum + cups.length, 0);
  const scuffs = plan.steps.filter(({ kind, text }) => kind === 'scuff' && text !== 'Goes on.').length;
  const tinted = plan.pours.some(({ batches: cups }) => cups.some(({ tintG }) => tintG > 0));
  const painted = scene.placements.some(({ kind }) => kind === 'plane');
  const largest = Math.max(0, ...poured.flatMap(({ batches: cups }) => cups.map(({ mixMl }) => mixMl)));
  return [
    `${2 * batches} mixing cups, wide and low, the largest at least ${words.volume(Math.ceil((largest * 1.5) / 50) * 50)}; ${2 * batches} stirring sticks`,
    `nitrile gloves, ${2 * poured.length} pairs; long sleeves, eye protection`,
    'paper towels, isopropanol for wiping' + (scene.mold.material === 'acrylic' ? ' tools, never the acrylic' : ''),
    ...(scuffs > 0 ? [`wet abrasive paper, 320 to 600 grit, for ${scuffs} scuffed ${scuffs === 1 ? 'surface' : 'surfaces'}; detergent`] : []),
    ...(painted ? ['thin waterborne acrylic paints, brushes'] : []),
    ...(tinted ? ['dye for the water, and a scale that shows 0.01\u00a0g for it'] : []),
    `scale that shows ${plain(scene.bench.scaleG, 3)}\u00a0g, timer, spirit level and shims, thermometer that keeps lowest and highest`,
    'cover box, tray under the mold, small molds for leftovers and witness coins, metal tray for hot cups outside the door',
    ...(plan.finishing ? finishThings(plan.finishing, scene.finishing?.base ?? 'none') : ['P100 or FFP3 mask for sanding; grits 180 to 3000 and polish, or resin for a flood coat']),
  ];
}

/** What a planned finish uses up. */
function finishThings({ faces, coats }: FinishingPlan, base: Finishing['base']): string[] {
  const grits = [...new Set(faces.flatMap((face) => face.grits))].sort((a, b) => a - b);
  const polish = faces.some((face) => face.polish);
  return [
    ...(grits.length > 0 ? [`P100 or FFP3 mask for sanding; wet abrasive paper, ${listed(grits.map(String))} grit; a flat plate`] : []),
    ...(polish ? ['polishing compound, polish, soft pads'] : []),
    ...(coats.length > 0 ? ['tape for dams around the flood coats, a spreader'] : []),
    ...(base === 'none' ? [] : [{ felt: 'felt for under it', wood: 'a wooden base, glue', light: 'a lit base with a cool lamp, glue' }[base]]),
  ];
}
