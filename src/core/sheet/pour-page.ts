/** One page a pour: this pour in the section, what to do, the mix card, what comes before and after, blanks for what happened. */
import { blushOn } from '../plan/air/air.ts';
import { atItsLimit, heatLevel, safeDepth, tooWarmRoom } from '../plan/heat-words.ts';
import type { Finding, Pour, PourHeat, Step } from '../plan/plan.ts';
import { classTimeOf } from '../plan/runs/class-marks.ts';
import type { Scene, SolidPlacement } from '../scene/scene.ts';
import { STOP_TOLERANCE_MM } from '../scene/tolerance.ts';
import { counted, listed, plain, span } from '../units/format.ts';
import { formatLocalTime, MINUTES_PER_HOUR, parseLocalTime } from '../units/time.ts';
import { clockOf, dayAndTime, weekdayAndTime } from '../units/when.ts';
import type { SheetContext } from './context.ts';
import { formulaOf, haltsOfPour, headOf, middleOf, nameOf, solidsOf } from './context.ts';
import { LIVE_HEIGHT_MM, LIVE_WIDTH_MM } from './document.ts';
import type { Block, Column } from './flow.ts';
import { blank, flow, gap, heading, heightOf, paragraph, tickItem } from './flow.ts';
import type { OpenPage } from './frame.ts';
import { mixCard } from './mix-card.ts';
import type { Line, Pen, Words } from './pen.ts';
import { HEADING_PT, LINE, SMALL_PT, leading, wrap, writeLines } from './pen.ts';
import { rectangle } from './polygon.ts';
import { drawPourSection } from './section-drawing.ts';
import { writeScaleBar } from './section-page.ts';
import { viewOf } from './section-view.ts';

/** mm. Columns under the section: Do, mix card, what really happened. */
const DO = { x: 0, width: 111 };
const MIX = { x: 118, width: 80 };
const REAL = { x: 205, width: LIVE_WIDTH_MM - 205 };
/** mm. Column beside the section. */
const SIDE_MM = 45;
const SIDE_GAP_MM = 4;
/** mm. What the columns under the section need, and what a page without a mix card needs. */
const LOWER_MM = 65;
/** A mix card of many rows takes up to this much, a second line under the section counted in: the section of a tall mold is cut shorter for it. */
const MOST_LOWER_MM = 90;
const LOWER_HALTED_MM = 44;
const SCALE_BAR_MM = 11;
/** Lines of cautions at the foot; the cover has all of them. */
const MOST_CAUTION_LINES = 4;

export function layPourPage(sheet: SheetContext, pour: Pour): void {
  const halts = haltsOfPour(sheet, pour.index);
  const halted = halts.length > 0;
  const open = (more: boolean): OpenPage => sheet.book.open({
    kind: 'pour', title: `Pour ${pour.index}`, subtitle: more ? 'goes on' : withClass(sheet, pour, subtitleOf(sheet, pour)), pour: pour.index, head: headOf(sheet, dayAndTime(pour.starts)), halts,
  });
  const page = open(false);
  const stripTop = writeCautions(page.pen, sheet, pour);
  const lowest = stripTop - 3;

  const card = halted ? [] : mixCard(sheet, pour, MIX.width);
  const lowerMm = halted ? LOWER_HALTED_MM : Math.min(MOST_LOWER_MM, Math.max(LOWER_MM, heightOf(card) + 1 + leading(SMALL_PT)));

  const room = { x: 0, y: page.top, widthMm: LIVE_WIDTH_MM - SIDE_MM - SIDE_GAP_MM, heightMm: lowest - page.top - SCALE_BAR_MM - lowerMm };
  const view = viewOf(sheet.section, room, pour);
  drawPourSection(page.pen, { section: sheet.section, view, lettering: sheet.lettering, words: sheet.words, halted: sheet.haltedPours }, pour);
  const foot = writeScaleBar(page.pen, view, view.bottom + 4.2, sheet, LIVE_WIDTH_MM - SIDE_MM - SIDE_GAP_MM);
  // A low section leaves the column beside it as much height as the lower half can spare.
  const side = sideBlocks(sheet, pour);
  const sideMm = heightOf(side);
  const lower = Math.max(foot + 1, Math.min(page.top + sideMm + 3, lowest - lowerMm));

  let rest: OpenPage | null = null;
  const later = (x: number) => (): Column => {
    rest ??= open(true);
    return { pen: rest.pen, x, top: rest.top, bottom: LIVE_HEIGHT_MM };
  };
  const set = (blocks: readonly Block[], x: number, top: number, bottom: number): void => {
    flow(blocks, (index) => (index === 0 ? { pen: page.pen, x, top, bottom } : later(x)()));
  };
  set(side, LIVE_WIDTH_MM - SIDE_MM, page.top, lower - 1);
  if (halted) {
    set([heading('First put this right', DO.width + MIX.width, sheet.lettering), ...halts.map(({ remedy }) => tickItem([remedy], DO.width + MIX.width, sheet.lettering))], DO.x, lower, lowest);
    set([heading('No mix card', REAL.width, sheet.lettering), paragraph([{ text: 'Do not pour', face: 'bold' }, ' until the sheet has been made again without this board.'], REAL.width, sheet.lettering)], REAL.x, lower, lowest);
    return;
  }
  const todo = (spacingMm: number): Block[] => [heading('Do', DO.width, sheet.lettering), gap(1.2), ...doBlocks(sheet, pour, spacingMm)];
  // A long list stands closer before it goes on on another page.
  const spacing = DO_SPACINGS_MM.find((spacingMm) => heightOf(todo(spacingMm)) <= lowest - lower) ?? DO_SPACINGS_MM[0];
  set(todo(spacing), DO.x, lower, lowest);
  set(card, MIX.x, lower, lowest);
  set(reallyBlocks(sheet, pour, lowest - lower), REAL.x, lower, lowest + 2);
}

const TO_CLASS = { before: 'before the class', in: 'in the class', after: 'after the class' } as const;

function withClass({ plan }: SheetContext, { index }: Pour, subtitle: string | undefined): string | undefined {
  const when = plan.class ? classTimeOf(plan.class, index) : null;
  return when === null ? subtitle : [subtitle, TO_CLASS[when]].filter(Boolean).join(', ');
}

function subtitleOf(sheet: SheetContext, pour: Pour): string | undefined {
  if (pour.locks.length > 0) return `locks ${listed(pour.locks.map((id) => nameOf(sheet, id)))}`;
  const above = sheet.plan.layers.find(({ index }) => index === pour.layer);
  if (above && Math.abs(above.toMm - pour.toMm) < 1e-6) {
    const planes = above.stops.filter(({ kind, id }) => kind === 'plane' && id).map(({ id }) => nameOf(sheet, id!));
    if (planes.length > 0) return `up to ${listed(planes)}`;
  }
  if (pour.index === sheet.plan.pours.length) return sheet.scene.cast === 'face-up' ? 'to the show face' : 'to the back';
  const covered = solidsOf(sheet).filter(({ id, kind }) => kind === 'figure' && isCovered(sheet, id, pour));
  if (covered.length > 0) return `covers ${listed(covered.map(({ name }) => name))}`;
  return pour.index === 1 ? 'on the floor' : `${sheet.words.span(pour.fromMm, pour.toMm)} up`;
}

const isCovered = ({ plan }: SheetContext, id: string, { fromMm, toMm }: Pour): boolean =>
  plan.placements.some((result) => result.id === id && result.topMm > fromMm && result.topMm <= toMm);

/** Formula and lots, what must be true before, when to go on after. */
function sideBlocks(sheet: SheetContext, pour: Pour): Block[] {
  const { lettering } = sheet;
  const formula = formulaOf(sheet, pour.formula);
  const ratio = formula.ratioByMass ?? formula.ratioByVolume;
  const small = { pt: SMALL_PT, afterMm: 0.4 };
  const italic = (text: string): Block => ({ ...paragraph([{ text, face: 'italic' }], SIDE_MM, lettering, { pt: HEADING_PT, afterMm: 0.2 }), keepWithNext: true });
  return [
    paragraph([{ text: formula.name, face: 'bold' }], SIDE_MM, lettering, { maxLines: 3, afterMm: 0.4 }),
    paragraph([ratio ? `${ratio.map((part) => plain(part, 2)).join(' : ')} by ${formula.ratioByMass ? 'weight' : 'volume'}` : 'one part'], SIDE_MM, lettering, small),
    blank('lot A', SIDE_MM, lettering, 6.4),
    blank('lot B', SIDE_MM, lettering, 6.4),
    gap(1.6),
    italic('Before'),
    paragraph([beforeWords(sheet, pour)], SIDE_MM, lettering, { ...small, afterMm: 2 }),
    italic('After'),
    paragraph([`Bubbles at 5, 15, 25 min: ${surfaceBubbles(sheet.scene, pour)}.`], SIDE_MM, lettering, small),
    ...afterWords(sheet, pour).map((words) => paragraph(words, SIDE_MM, lettering, small)),
  ];
}

/** How warm, when, what is safe there, and which room would be too much. */
function heatWords({ words }: SheetContext, pour: Pour, heat: PourHeat): Words[] {
  const warmestAt = formatLocalTime(parseLocalTime(pour.starts)! + heat.afterH * MINUTES_PER_HOUR);
  const room = atItsLimit(heat) ? 'Don’t let the room get any warmer.' : `Keep the room under ${tooWarmRoom(heat)}.`;
  return [`${room} Warmest about ${weekdayAndTime(warmestAt)}: `, { text: heatLevel(heat), face: 'bold' }, `. Safe here to ${words.unit === 'in' ? words.limit(heat.safeDepthMm) : safeDepth(heat)}.`];
}

function beforeWords(sheet: SheetContext, pour: Pour): string {
  const below = sheet.plan.pours[pour.index - 2];
  const planes = stepsBefore(sheet, pour).filter(({ kind }) => kind === 'dry').flatMap(({ placements }) => placements);
  if (planes.length > 0) return 'Paint dry; no longer cool to the lip.';
  if (!below) return 'Mold level, dry and clean.';
  if (pour.route === 'wet-on-tacky') return `Pour ${below.index} tacky, nothing comes off on the glove. ${weekdayAndTime(below.opens)} to ${tillClock(below.opens, below.closes)}, not later.`;
  return `Pour ${below.index} hard, scuffed, wiped and dry.`;
}

function afterWords(sheet: SheetContext, pour: Pour): Words[][] {
  const next = sheet.plan.pours[pour.index];
  const bold = (text: string): Words => ({ text, face: 'bold' });
  if (pour.box) {
    const c = plain(sheet.scene.room.box!.temperatureC);
    const cured: Words[] = next ? ['Powder from ', bold(weekdayAndTime(pour.scuffable))] : ['In there until ', bold(dayAndTime(pour.demold))];
    return [[`Tacky and cool, into the box, ${c}\u00a0°C: `, bold(weekdayAndTime(pour.box.from))], cured, ...(next ? [[`Next pour ${dayAndTime(next.starts)}`]] : [])];
  }
  if (!next) return [[`Cover. ${sheet.scene.mold.keep ? 'Leave it to cure until' : 'Leave it in the mold until'} `, bold(dayAndTime(pour.demold))]];
  if (next.route === 'wet-on-tacky') return [['Cover, leave until tacky: ', bold(`${weekdayAndTime(pour.opens)} to ${tillClock(pour.opens, pour.closes)}`)]];
  const painted = stepsBefore(sheet, next).some(({ kind }) => kind === 'paint');
  return [
    ['Cover. Sands to powder from ', bold(weekdayAndTime(pour.scuffable))],
    ...(painted ? [['Takes paint from ', bold(weekdayAndTime(pour.paintable))]] : []),
    [`Next pour ${dayAndTime(next.starts)}`],
  ];
}

/** The end of a window: the clock alone on the same day. */
const tillClock = (from: string, to: string): string => (from.slice(0, 10) === to.slice(0, 10) ? clockOf(to) : weekdayAndTime(to));

/** Steps between the pour below and this one. */
function stepsBefore({ plan }: SheetContext, pour: Pour): Step[] {
  const isPour = (index: number) => (step: Step): boolean => step.kind === 'pour' && step.pour === index;
  const from = pour.index > 1 ? plan.steps.findIndex(isPour(pour.index - 1)) + 1 : 0;
  const to = plan.steps.findIndex(isPour(pour.index));
  return plan.steps.slice(from, Math.max(from, to));
}

/** Stir and rest times: common practice, no source. */
const STIR = { smallUnderG: 300, smallMin: 4, largeMin: 6, secondCupMin: 2, restMin: 5, thinRestMin: 10 };

/** mm. Between the lines of the list, the roomiest first. */
const DO_SPACINGS_MM = [1.6, 0.9, 0.4] as const;

function doBlocks(sheet: SheetContext, pour: Pour, spacingMm: number): Block[] {
  const { lettering, scene, words } = sheet;
  const item = (...words: Words[]): Block => tickItem(words, DO.width, lettering, { pt: SMALL_PT, afterMm: spacingMm });
  const bold = (text: string): Words => ({ text, face: 'bold' });
  const formula = formulaOf(sheet, pour.formula);
  const items: Block[] = [];
  const before = stepsBefore(sheet, pour);
  const below = sheet.plan.pours[pour.index - 2];
  for (const step of before) {
    if (step.text === 'Goes on.') continue;
    const names = listed(step.placements.map((id) => nameOf(sheet, id)));
    if (step.kind === 'scuff') items.push(item(bold(weekdayAndTime(step.from)), ` ${below?.box ? 'Out of the box. ' : ''}${below && blushOn(scene, below) ? 'Greasy film likely: wash with detergent and a pad, rinse, dry; then scuff' : 'Wash, scuff'} at 320 to 600, wet; wipe, flash 15 min.`));
    if (step.kind === 'place' && step.class === 'in') items.push(item(bold(weekdayAndTime(step.from)), ` In the class each student sets ${names} in place, dry, on the cured, wiped surface. No resin is out.`));
    if (step.kind === 'paint') items.push(item(bold(weekdayAndTime(step.from)), ` ${step.class === 'in' ? 'In the class each student paints' : 'Paint'} ${names}; dry until ${weekdayAndTime(before.find(({ kind }) => kind === 'dry')?.to ?? step.to)}.`));
  }
  items.push(item(pour.index === 1 ? 'Get ready (page before). Level the mold both ways.' : 'Level the mold both ways.'));
  const batch = pour.batches[0];
  const stir = batch.mixG < STIR.smallUnderG ? STIR.smallMin : STIR.largeMin;
  const rest = formula.viscosityMPaS < 600 ? STIR.thinRestMin : STIR.restMin;
  const { class: meeting } = sheet.plan;
  const own = meeting?.pours === pour.index ? pour.batches.length / meeting.students : 0;
  if (own > 0) items.push(item(bold(weekdayAndTime(meeting!.at)), ` In the class each student mixes and pours ${own === 1 ? 'a cup' : counted(own, 'cup')} of their own.`));
  items.push(item(`Mix by the card: fold ${stir} min, second clean cup ${STIR.secondCupMin} min, rest ${rest}.`));
  const set = placedFor(sheet, pour);
  const bySet = set.filter(({ id }) => before.some((step) => step.kind === 'place' && step.class === 'in' && step.placements.includes(id)));
  if (bySet.length > 0) items.push(item(`Check that ${listed(bySet.map(({ name }) => name))} ${bySet.length === 1 ? 'stands where it should' : 'stand where they should'}.`));
  const placed = set.filter((solid) => !bySet.includes(solid));
  if (placed.length <= MOST_PLACED) for (const solid of placed) items.push(item(setDown(sheet, solid)));
  else items.push(item(`Brush resin on each and set in ${listed(placed.map(({ name }) => name))}; places on the Figures page.`));
  const markMm = scene.mold.heightMm - pour.fillMarkFromRimMm;
  const ceiling = lockCeiling(sheet, pour);
  items.push(item('Pour at the low side to ', bold(`${words.unit === 'mm' ? words.length(markMm) : words.mark(markMm).replace(/\u00a0in$/, '')} up, ${words.fromRim(pour.fillMarkFromRimMm)} from the rim`), ceiling !== null ? `, never over ${words.mark(Math.floor(ceiling * 10) / 10)}.` : '.'));
  const held = pour.locks.map((id) => nameOf(sheet, id));
  if (held.length > 0) items.push(item(`Press ${listed(held)} down until ${held.length > 1 ? 'they stay' : 'it stays'}.`));
  items.push(item(`Witness coin from every cup. Cover. Watch ${span(scene.bench.watchH * 60)}.`));
  if (pour.heat) items.push(item(...heatWords(sheet, pour, pour.heat)));
  return items;
}

/** Hot air only over molds that bear it and clear of wet paint (trade: common practice, no source). */
function surfaceBubbles({ mold, placements }: Scene, { fromMm }: Pour): string {
  const overPaint = placements.some((plane) => plane.kind === 'plane' && Math.abs(plane.atMm - fromMm) <= STOP_TOLERANCE_MM);
  if (overPaint || (mold.material !== 'glass' && mold.material !== 'wood')) return 'prick them; no flame';
  return 'warm air, 10 to 15 cm off, moving, 2 to 3 s; no alcohol near';
}

/** More than these are named together; the figure table says where each goes. */
const MOST_PLACED = 2;

/** What is set down for this pour, by its `place` step. */
function placedFor(sheet: SheetContext, pour: Pour): SolidPlacement[] {
  const ids = new Set(sheet.plan.steps.filter(({ kind, pour: of }) => kind === 'place' && of === pour.index).flatMap(({ placements }) => placements));
  return solidsOf(sheet).filter(({ id }) => ids.has(id));
}

const HOLD_WORDS = { rests: 'set it down', stands: 'stand it', fixed: 'fasten it', rod: 'set it on its rod', thread: 'hang it on its thread' } as const;

function setDown(sheet: SheetContext, solid: SolidPlacement): string {
  if (solid.kind === 'bed') return `${solid.name}: ${HOLD_WORDS[solid.hold]}, base ${sheet.words.bare(solid.baseMm)} up.`;
  return `Brush resin on ${solid.name}, ${HOLD_WORDS[solid.hold]}: ${middleOf(sheet, solid)}, ${sheet.words.bare(solid.baseMm)} up.`;
}

/** Height over which what this pour locks would float, or null. */
function lockCeiling({ plan, scene }: SheetContext, pour: Pour): number | null {
  const heights = pour.locks.flatMap((id) => {
    const result = plan.placements.find((placement) => placement.id === id);
    const base = scene.placements.find((placement) => placement.id === id);
    return result && result.safeLockMm !== null && base && base.kind !== 'plane' ? [base.baseMm + result.safeLockMm] : [];
  });
  const lowest = Math.min(...heights);
  return Number.isFinite(lowest) && lowest >= pour.toMm ? lowest : null;
}

function reallyBlocks({ lettering, words }: SheetContext, pour: Pour, heightMm: number): Block[] {
  const each = pour.batches.length > 1 ? ', each cup' : '';
  const labels = ['date, time', 'room °C, humidity %', `part A g${each}`, `part B g${each}`, `${words.unit} from the rim`, 'tacky at', 'by'];
  const head = heading('What really happened', REAL.width, lettering);
  const pitch = Math.min(8.2, (heightMm - head.heightMm) / labels.length);
  return [head, ...labels.map((label) => blank(label, REAL.width, lettering, pitch))];
}

/** The strip at the foot: this pour's cautions, then the two that stand on every page. Returns its top. */
function writeCautions(pen: Pen, sheet: SheetContext, pour: Pour): number {
  const here = sheet.plan.findings.filter((finding) => finding.severity === 'caution' && concerns(sheet, finding, pour));
  const words: Words[] = [{ text: 'Cautions', face: 'bold' }, ' \u00a0'];
  for (const { message } of here) words.push(` ${message} \u00a0`);
  words.push(' Check which bottle your label calls A. \u00a0', ' Cup hot or smoking: don’t touch it, leave the room. \u00a0', ' Gloves, moving air; nobody sleeps in here tonight.');
  const lines: Line[] = wrap(words, LIVE_WIDTH_MM - 9, sheet.lettering, { pt: SMALL_PT });
  const kept = lines.length > MOST_CAUTION_LINES
    ? wrap([{ text: 'Cautions', face: 'bold' }, ` \u00a0 ${here.length} for this pour: read them all on page 1. \u00a0 Cup hot or smoking: don’t touch it, leave the room. \u00a0 Gloves, moving air; nobody sleeps in here tonight.`], LIVE_WIDTH_MM - 9, sheet.lettering, { pt: SMALL_PT })
    : lines;
  const height = kept.length * leading(SMALL_PT) + 4;
  const top = LIVE_HEIGHT_MM - height - 0.3;
  pen.shape([rectangle(0, top, LIVE_WIDTH_MM, top + height)], { strokeMm: LINE.mold });
  pen.shape([rectangle(0, top, 2.4, top + height)], { fill: 'ink' });
  writeLines(pen, 5.6, top + 5.4, kept, { pt: SMALL_PT });
  return top;
}

function concerns(sheet: SheetContext, { pours, subject }: Finding, pour: Pour): boolean {
  if (pours) return pours.includes(pour.index);
  return subject === `pour ${pour.index}` || subject === `layer ${pour.layer}` || subject === `formula ${pour.formula}` || placedFor(sheet, pour).some(({ id }) => id === subject);
}

