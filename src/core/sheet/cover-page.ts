/** Page 1: what must be known before anything is mixed, halts first; what the piece is; the label values it was planned with. */
import { CLASS_FIELDS } from '../resin/classes.ts';
import type { ClassField } from '../resin/classes.ts';
import type { Formula } from '../scene/scene.ts';
import type { Finding } from '../plan/plan.ts';
import { isUndated } from '../plan/undated.ts';
import { counted, divisionDigits, fixed, mm, percent, plain } from '../units/format.ts';
import { atLeastIn, limitIn } from '../units/in-units.ts';
import { formatLocalTime } from '../units/time.ts';
import { dayAndTime } from '../units/when.ts';
import type { SheetContext } from './context.ts';
import { formulaOf, headOf } from './context.ts';
import { LIVE_HEIGHT_MM, LIVE_WIDTH_MM } from './document.ts';
import type { Block, Column } from './flow.ts';
import { blank, fact, flow, gap, heading, paragraph, warning } from './flow.ts';
import type { OpenPage } from './frame.ts';
import { SMALL_PT } from './pen.ts';
import { halfWidthAt } from './section.ts';
import { inches } from '../units/imperial.ts';

const GUTTER_MM = 11;
const COLUMN_MM = (LIVE_WIDTH_MM - GUTTER_MM) / 2;
const RIGHT_MM = COLUMN_MM + GUTTER_MM;
const NO_FIRST_DAY = 'no first day set';

/** Cautions fill the left columns, facts the right ones; cautions take both once the facts have ended. */
export function layCover(sheet: SheetContext): void {
  const pages: OpenPage[] = [];
  const page = (index: number): OpenPage => {
    const first = sheet.plan.pours[0];
    pages[index] ??= sheet.book.open({
      kind: 'cover',
      title: index === 0 ? sheet.scene.name || 'Build sheet' : 'Before you start',
      subtitle: index === 0 ? 'build sheet' : undefined,
      head: headOf(sheet, isUndated(sheet.plan) ? NO_FIRST_DAY : first ? `first pour ${dayAndTime(first.starts)}` : 'no pours'),
      halts: sheet.halts,
    });
    return pages[index];
  };
  const column = (index: number, x: number): Column => ({ pen: page(index).pen, x, top: page(index).top, bottom: LIVE_HEIGHT_MM });
  const facts = flow(factBlocks(sheet), (index) => column(index, RIGHT_MM));
  flow(cautionBlocks(sheet), (index) => {
    if (index < facts.columns) return column(index, 0);
    const past = index - facts.columns;
    return column(facts.columns + Math.floor(past / 2), past % 2 === 0 ? 0 : RIGHT_MM);
  });
}

const RANK = { halt: 0, caution: 1, note: 2 };
const LABEL = { halt: 'do not pour', caution: 'caution', note: 'note' };

function cautionBlocks({ plan, scene, lettering }: SheetContext): Block[] {
  const ranked = [...plan.findings].sort((a, b) => RANK[a.severity] - RANK[b.severity]);
  const serious = ranked.filter(({ severity }) => severity !== 'note');
  const notes = ranked.filter(({ severity }) => severity === 'note');
  const strange = [scene.name, ...scene.placements.map(({ name }) => name)].some((name) => lettering.printable(name) !== name);
  return [
    heading('Cautions first', COLUMN_MM, lettering),
    gap(1),
    ...serious.map((finding) => warning(labelOf(finding), [finding.message, ' ', finding.remedy], COLUMN_MM, lettering, finding.severity === 'halt')),
    ...(strange ? [paragraph([{ text: 'note ', face: 'italic' }, ' ', 'Some letters of the names can’t be printed by this sheet’s typefaces; a mark stands in their place. Write the names in by hand.'], COLUMN_MM, lettering, { pt: SMALL_PT })] : []),
    ...plan.cautions.map((text) => paragraph([text], COLUMN_MM, lettering, { pt: SMALL_PT, afterMm: 1.7 })),
    ...notes.map(({ message, remedy }) => paragraph([{ text: 'note ', face: 'italic' }, ' ', message, ' ', remedy], COLUMN_MM, lettering, { pt: SMALL_PT })),
  ];
}

function labelOf({ severity, pours }: Finding): string {
  const where = pours && pours.length > 0 ? `, pour ${pours.slice(0, 6).join(', ')}${pours.length > 6 ? ' …' : ''}` : '';
  return `${LABEL[severity]}${where}`;
}

function factBlocks(sheet: SheetContext): Block[] {
  const { scene, plan, lettering, words } = sheet;
  const line = (label: string, value: string): Block => fact(label, [value], COLUMN_MM, lettering);
  const first = plan.pours[0];
  const used = [...new Set(plan.pours.map(({ formula }) => formula))];
  return [
    heading('The piece', COLUMN_MM, lettering),
    fact('name', [{ text: scene.name, face: 'italic' }], COLUMN_MM, lettering),
    line('cast', scene.cast === 'face-up' ? 'face up: the last pour is the show face. Up is the rim.' : 'face down: the mold floor is the show face. Pictures are painted mirrored, nearest first.'),
    line('finished size', finishedSize(sheet)),
    line('finished mass', plan.mold.finishedG === null ? 'unknown: something in it has no weight yet' : `${plain(plan.mold.finishedG, 0)}\u00a0g`),
    line('mold', moldWords(sheet)),
    line('water', `${words.volume(plan.mold.fillVolumeMl)} to the fill, ${words.volume(plan.mold.capacityMl)} to the rim`),
    line('room', roomWords(sheet)),
    line('heat', first?.heat ? 'worked out from the label; it only asks for less than the label allows' : 'by the label’s greatest depth alone'),
    line('scale and cups', `scale reads ${fixed(scene.bench.scaleG, divisionDigits(scene.bench.scaleG))}\u00a0g; ${words.bothVolumes(scene.bench.holdUpMl)} stays in a cup; ${percent(scene.bench.allowanceFraction)} spare`),
    line('time', first ? `${counted(plan.pours.length, 'pour')}, from ${dayAndTime(first.starts)} to ${dayAndTime(plan.finish)}${plan.ready === undefined ? '' : `, finished ${dayAndTime(plan.ready)}`}${isUndated(plan) ? `; ${NO_FIRST_DAY}` : ''}` : 'no pours'),
    blank('made by', COLUMN_MM, lettering, 8.4),
    gap(2),
    ...used.flatMap((id) => resinBlocks(sheet, formulaOf(sheet, id))),
    paragraph([{ text: 'typical', face: 'italic' }, ' values are a class’s, not your label’s. Read the label: it wins. Check which bottle it calls A; here part A is the resin, part B the hardener.'], COLUMN_MM, lettering, { pt: SMALL_PT }),
  ];
}

function finishedSize({ scene, section, words }: SheetContext): string {
  const { mold, fillMm } = scene;
  const grow = 2 * (halfWidthAt(section, fillMm) - section.halfFloorMm);
  const size = (values: readonly number[]): string => {
    const [inMm, inInches] = [`${values.map((value) => plain(value)).join(' × ')}\u00a0mm`, `${values.map((value) => inches(value).replace('\u00a0in', '')).join(' × ')}\u00a0in`];
    return words.unit === 'in' ? `${inInches} (${inMm})` : `${inMm} (${inInches})`;
  };
  const at = (more: number): string => (mold.shape === 'box' ? size([mold.lengthMm + more, mold.widthMm + more, fillMm]) : `${size([mold.diameterMm + more, fillMm])}, round`);
  return grow > 0.05 ? `${at(grow)} at the top; at the floor ${words.length(grow)} less each way` : at(0);
}

function moldWords({ scene, words }: SheetContext): string {
  const { mold } = scene;
  const inside = mold.shape === 'box' ? `box, ${words.sizes([mold.lengthMm, mold.widthMm, mold.heightMm])} inside` : `round, ${words.bare(mold.diameterMm)} across × ${words.length(mold.heightMm)} inside`;
  const corner = mold.shape === 'box' && mold.cornerRadiusMm > 0 ? `, corners ${words.length(mold.cornerRadiusMm)} round` : '';
  const draft = mold.draftDeg > 0 ? `, walls lean ${plain(mold.draftDeg)}°` : '';
  const material = mold.material === 'hdpe' ? 'polyethylene' : mold.material;
  return `${material} ${inside}${corner}${draft}, walls ${words.length(mold.wallMm)}${mold.keep ? '; the piece stays in it' : ''}`;
}

function roomWords({ scene: { room, bench } }: SheetContext): string {
  const MOST = 6;
  const changes = room.profile.slice(0, MOST).map(({ fromMin, temperatureC }) => `${plain(temperatureC)}\u00a0°C from ${dayAndTime(formatLocalTime(fromMin))}`);
  const more = room.profile.length > MOST ? [`${room.profile.length - MOST} more changes`] : [];
  const air = room.humidity === undefined ? [] : [`air at ${plain(room.humidity, 0)}\u00a0%`];
  const box = room.box ? [`curing box at ${plain(room.box.temperatureC)}\u00a0°C`] : [];
  const bottles = bench.bottlesC === undefined ? [] : [`bottles at ${plain(bench.bottlesC)}\u00a0°C`];
  return [`${plain(room.temperatureC)}\u00a0°C`, ...changes, ...more, ...air, ...box, ...bottles].join('; ');
}

/** A formula's values, the greatest depth and the ratio first. */
const ORDER: readonly ClassField[] = [
  'maxDepthMm', 'minDepthMm', 'maxBatchG', 'potLifeMin', 'potLifeMassG', 'bondOpensH', 'bondClosesH', 'scuffableH', 'paintableH', 'demoldH', 'fullCureH',
  'atC', 'densityAGPerMl', 'densityBGPerMl', 'shrinkageFraction', 'refractiveIndex', 'viscosityMPaS',
];

function resinBlocks({ lettering, words }: SheetContext, formula: Formula): Block[] {
  const family = formula.family === 'uv' ? 'light-cured accents' : formula.family.replace('-', ' ');
  const value = (field: ClassField): string => {
    const { unit } = CLASS_FIELDS[field];
    // The label's own depths as the label has them, with inches beside.
    if (unit === 'mm' && words.unit === 'in') return `${mm(formula[field])} (${field === 'maxDepthMm' ? limitIn(formula[field], 'in') : atLeastIn(formula[field], 'in')})`;
    const number = field === 'shrinkageFraction' ? percent(formula[field]) : plain(formula[field], unit === 'g/mL' || unit === '' ? 3 : 1);
    return field === 'shrinkageFraction' ? number : `${number}${unit ? `\u00a0${unit}` : ''}`;
  };
  const mark = (typical: boolean) => (typical ? [{ text: ' typical', face: 'italic' as const }] : []);
  const ratios = [
    ...(formula.ratioByVolume ? [[`${formula.ratioByVolume.map((part) => plain(part, 2)).join(' : ')} by volume`, ...mark(formula.typical.includes('ratioByVolume'))]] : []),
    ...(formula.ratioByMass ? [[`${formula.ratioByMass.map((part) => plain(part, 2)).join(' : ')} by weight`, ...mark(formula.typical.includes('ratioByMass'))]] : []),
  ];
  return [
    heading(formula.name, COLUMN_MM, lettering),
    fact('class', [`${family} resin`], COLUMN_MM, lettering, 66),
    ...(ratios.length > 0 ? ratios : [['one part']]).map((words) => fact('A (resin) : B (hardener)', words, COLUMN_MM, lettering, 66)),
    ...ORDER.map((field) => fact(CLASS_FIELDS[field].words, [value(field), ...mark(formula.typical.includes(field))], COLUMN_MM, lettering, 66)),
    gap(3),
  ];
}

