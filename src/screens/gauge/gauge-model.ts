/**
 * Where everything of the gauge falls, in px, from the section's data. Heights and figures share one true scale.
 * A mold wider than its column is cut at a long-break line: figures keep their order but slide sideways to fit, long ones run
 * out at the break, tail first, and a bed is squeezed sideways so that its whole rise is seen. A figure of which less than a
 * third would be seen tells nothing by its outline: it is a bar of its true height with its name. The whole section tells
 * the true places.
 */
import { spread } from '../../core/sheet/labels.ts';
import type { Polygon } from '../../core/sheet/polygon.ts';
import { boxOf, polygonArea, ringsOf } from '../../core/sheet/polygon.ts';
import type { Section, SectionShape } from '../../core/sheet/section.ts';
import { depthAt } from '../../core/scene/depth.ts';
import { lengthIn, lengthNumber } from '../../core/units/in-units.ts';
import { staffBlock, ticksTo, writtenHeights, type LengthUnit } from './height-scale.ts';

/** Finer than this a millimeter is drawn larger than anyone needs, px. */
const MOST_PX_PER_MM = 14;
/** A tag with its depth under the number, and one with both on a line, px. */
export const TAG_PX = 44;
export const LINE_TAG_PX = 24;
/** px between names set under each other. */
const NAME_GAP_PX = 20;
/** Mean width of a letter of a name, px: measured over our own names. */
const LETTER_PX = 7.6;
/** px either side of the long-break line's middle. */
export const BREAK_HALF_PX = 6;
/** px that the heights written beside the staff take, where the break stands behind them. */
const LABELS_PX = 40;
/** A figure of which a smaller share would be seen is a bar. */
const LEAST_SEEN_SHARE = 1 / 3;
const BAR_PX = 14;
/** A leaning wall takes at most this share of the width; past it the lean is not true. */
const MOST_LEAN_SHARE = 0.25;

export interface GaugeRoom {
  /** Inner faces of the walls at the rim: the left one's place, and how far right the other may stand. */
  readonly leftPx: number;
  readonly rightPx: number;
  /** Height of the rim, and how far down the floor may lie. */
  readonly topPx: number;
  readonly bottomPx: number;
  /** Width of the staff inside the left wall. */
  readonly staffPx: number;
  /** Ids of the figures that look to the left; all others look to the right, as figures are made. */
  readonly leftward: ReadonlySet<string>;
  /** What heights and depths are written in. */
  readonly unit: LengthUnit;
  /** The scale is of a mold at least this high: it stays while the rim is in hand. */
  readonly leastHeightMm?: number;
}

export interface GaugeBand {
  readonly pour: number;
  readonly hatch: number;
  readonly y: number;
  readonly height: number;
  readonly depthMm: number;
  readonly fromMm: number;
  readonly toMm: number;
}

export interface GaugeTag extends GaugeBand {
  /** Middle of the band, and of the tag. */
  readonly bandY: number;
  readonly tagY: number;
}

export interface GaugeShape {
  readonly id: string;
  readonly name: string;
  readonly kind: SectionShape['kind'];
  readonly path: string;
  /** It is a bar of its height, named beside it. */
  readonly bar: boolean;
  readonly topY: number;
  readonly baseY: number;
}

export interface GaugeName {
  readonly id: string;
  readonly name: string;
  /** As much of the name as there is room for. */
  readonly shown: string;
  readonly y: number;
}

export interface GaugeTick {
  readonly y: number;
  readonly rank: 'fine' | 'middle' | 'long';
  /** Written beside it, or null. */
  readonly label: string | null;
}

export interface GaugeModel {
  readonly pxPerMm: number;
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly floor: number;
  /** How far the walls lean in at the floor. */
  readonly lean: number;
  readonly fillY: number;
  readonly faceY: number;
  /** Middle of the long-break line, or null where the mold fits. */
  readonly breakX: number | null;
  readonly bands: readonly GaugeBand[];
  readonly tags: readonly GaugeTag[];
  /** Tags are a number and a depth on one line. */
  readonly lineTags: boolean;
  readonly staff: readonly { readonly y: number; readonly height: number; readonly dark: boolean }[];
  readonly heightLabels: readonly { readonly y: number; readonly label: string }[];
  readonly depthTicks: readonly GaugeTick[];
  readonly planes: readonly { readonly id: string; readonly y: number; readonly path: string }[];
  readonly names: readonly GaugeName[];
  /** Where figures may lie: between the break, where there is one, and a wall. */
  readonly openFrom: number;
  readonly openTo: number;
  readonly shapes: readonly GaugeShape[];
}

export function gaugeModel(section: Section, room: GaugeRoom): GaugeModel {
  const { unit, leftPx: left } = room;
  const scaledMm = Math.max(section.heightMm, room.leastHeightMm ?? 0);
  const pxPerMm = Math.min(MOST_PX_PER_MM, (room.bottomPx - room.topPx) / scaledMm);
  const yOf = (mm: number): number => room.topPx + (scaledMm - mm) * pxPerMm;
  const trueWidth = 2 * section.halfRimMm * pxPerMm;
  const cut = trueWidth > room.rightPx - left;
  const right = cut ? room.rightPx : left + trueWidth;
  const lean = Math.min((section.halfRimMm - section.halfFloorMm) * pxPerMm, (right - left) * MOST_LEAN_SHARE);
  const breakX = !cut ? null : tailsLeft(section, room, pxPerMm) ? left + lean + room.staffPx + LABELS_PX : right - lean - Math.max(20, (right - left) * 0.07);
  const atLeft = breakX !== null && breakX < (left + right) / 2;
  const openFrom = atLeft ? breakX + BREAK_HALF_PX : left;
  const openTo = breakX !== null && !atLeft ? breakX - BREAK_HALF_PX : right;
  const bands = section.bands.map(({ pour, hatch, fromMm, toMm }) => ({ pour, hatch, fromMm, toMm, depthMm: toMm - fromMm, y: yOf(toMm), height: (toMm - fromMm) * pxPerMm }));
  const { tags, lineTags } = tagsOf(bands, yOf(section.fillMm), yOf(0));
  const planes = section.planes.map(({ id, name, atMm }) => ({ id, name, y: yOf(atMm), path: brushLine(left, right, yOf(atMm)) }));
  const frame = { left, right, pxPerMm, yOf, section, slide: cut ? { fromPx: atLeft ? openFrom + 6 : left + room.staffPx + 28, toPx: openTo - 6, tailsLeft: atLeft } : null };
  const shapes = [...section.shapes].sort(backToFront).map((shape) => shapeAt(shape, frame));
  return {
    pxPerMm,
    left,
    right,
    top: yOf(section.heightMm),
    floor: yOf(0),
    lean,
    fillY: yOf(section.fillMm),
    faceY: yOf(section.cast === 'face-down' ? 0 : section.fillMm),
    breakX,
    bands,
    tags,
    lineTags,
    staff: staffOf(section.heightMm, staffBlock(unit, pxPerMm), pxPerMm, yOf),
    // A label at the very rim would hang out of the mold.
    heightLabels: writtenHeights(unit, pxPerMm, section.heightMm - 12 / pxPerMm).map(({ mm, label }) => ({ label, y: yOf(mm) })),
    // The rule between height and depth is the same both ways.
    depthTicks: ticksTo(unit, pxPerMm, section.fillMm).map(({ mm, rank, label }) => ({ y: yOf(depthAt(section, mm)), rank, label })),
    planes,
    names: namesOf(planes, shapes, yOf(0), Math.floor((openTo - openFrom - (atLeft ? 16 : room.staffPx + LABELS_PX)) / LETTER_PX)),
    openFrom,
    openTo,
    shapes,
  };
}

/** Beds behind figures, large figures behind small ones: in a narrow column they lie over each other. */
function backToFront(a: SectionShape, b: SectionShape): number {
  const size = ({ kind, outline }: SectionShape): number => (kind === 'bed' ? Infinity : outline.reduce((sum, polygon) => sum + polygonArea(polygon), 0));
  const [first, second] = [size(a), size(b)];
  return first === second ? 0 : second - first;
}

/** Tags stand at their bands; where those are thin the tags fan out and are led to, and where there are too many some are left out. */
function tagsOf(bands: readonly GaugeBand[], fillY: number, floorY: number): { tags: GaugeTag[]; lineTags: boolean } {
  const room = floorY - fillY;
  const lineTags = bands.length * TAG_PX > room + TAG_PX / 2;
  const gap = lineTags ? LINE_TAG_PX : TAG_PX;
  const every = Math.max(1, Math.ceil((bands.length * gap) / (room + gap)));
  const tagged = bands.filter((_, i) => i % every === 0).reverse();
  const at = spread(tagged.map(({ y, height }) => y + height / 2), gap, fillY, floorY - gap / 2);
  return { lineTags, tags: tagged.map((band, i) => ({ ...band, bandY: band.y + band.height / 2, tagY: at[i] })) };
}

function staffOf(heightMm: number, block: number, pxPerMm: number, yOf: (mm: number) => number) {
  return Array.from({ length: Math.ceil(heightMm / block) }, (_, i) => {
    const topMm = Math.min(heightMm, (i + 1) * block);
    return { y: yOf(topMm), height: (topMm - i * block) * pxPerMm, dark: i % 2 === 0 };
  });
}

interface Frame {
  readonly left: number;
  readonly right: number;
  readonly pxPerMm: number;
  readonly yOf: (mm: number) => number;
  readonly section: Section;
  /** Where figures slide to, and which end of a long one runs out at the break; null where the mold is all there. */
  readonly slide: { readonly fromPx: number; readonly toPx: number; readonly tailsLeft: boolean } | null;
}

/** Whether the break stands at the left: heads say more than tails, and most of the long figures that are drawn have theirs at the right. */
function tailsLeft(section: Section, room: GaugeRoom, pxPerMm: number): boolean {
  const widePx = room.rightPx - room.leftPx - room.staffPx - LABELS_PX;
  const long = section.shapes.filter(({ kind, outline }) => {
    const { x0, x1 } = boxOf(outline.flatMap(ringsOf));
    const px = (x1 - x0) * pxPerMm;
    return kind === 'figure' && px > widePx && px * LEAST_SEEN_SHARE <= widePx;
  });
  const left = long.filter(({ id }) => room.leftward.has(id)).length;
  return long.length > 0 && left * 2 <= long.length;
}

function shapeAt(shape: SectionShape, frame: Frame): GaugeShape {
  const { yOf } = frame;
  const { id, name, kind } = shape;
  const [topY, baseY] = [yOf(shape.topMm), yOf(shape.baseMm)];
  const barX = barMiddle(shape, frame);
  if (barX !== null) return { id, name, kind, path: barPath(barX, topY, baseY), bar: true, topY, baseY };
  const xOf = kind === 'bed' ? squeezed(frame) : slid(shape, frame);
  return { id, name, kind, path: pathOf(shape.outline, xOf, yOf), bar: false, topY, baseY };
}

/** Where the bar of a figure stands that is too long for its outline to be known by; null for all others. */
function barMiddle({ kind, outline }: SectionShape, { left, right, pxPerMm, section, slide }: Frame): number | null {
  if (kind === 'bed' || slide === null) return null;
  const { x0, x1 } = boxOf(outline.flatMap(ringsOf));
  const { fromPx, toPx } = slide;
  if ((x1 - x0) * pxPerMm * LEAST_SEEN_SHARE <= toPx - fromPx) return null;
  const wished = left + (((x0 + x1) / 2 + section.halfRimMm) / (2 * section.halfRimMm)) * (right - left);
  return Math.min(Math.max(wished, fromPx + BAR_PX / 2), toPx - BAR_PX / 2);
}

/** Eight corners: blunt at both ends. */
function barPath(x: number, topY: number, baseY: number): string {
  const half = BAR_PX / 2;
  const blunt = Math.min(half - 2, (baseY - topY) / 2);
  const corners = [[-2, topY], [2, topY], [half, topY + blunt], [half, baseY - blunt], [2, baseY], [-2, baseY], [-half, baseY - blunt], [-half, topY + blunt]];
  return `M${corners.map(([dx, y]) => `${(x + dx).toFixed(1)} ${y.toFixed(1)}`).join('L')}Z`;
}

function squeezed({ left, right, section }: Frame): (mm: number) => number {
  return (mm) => left + ((mm + section.halfRimMm) / (2 * section.halfRimMm)) * (right - left);
}

function slid(shape: SectionShape, { left, right, pxPerMm, section, slide }: Frame): (mm: number) => number {
  const middle = (left + right) / 2;
  if (slide === null) return (mm) => middle + mm * pxPerMm;
  const { fromPx, toPx } = slide;
  const box = boxOf(shape.outline.flatMap(ringsOf));
  const width = (box.x1 - box.x0) * pxPerMm;
  const share = ((box.x0 + box.x1) / 2 + section.halfRimMm) / (2 * section.halfRimMm);
  const wished = left + share * (right - left) - width / 2;
  const long = width > toPx - fromPx;
  const at = long ? (slide.tailsLeft ? toPx - width : fromPx) : Math.min(Math.max(wished, fromPx), toPx - width);
  return (mm) => at + (mm - box.x0) * pxPerMm;
}

/** SVG path, filled by the even-odd rule; tenths of a px. */
export function pathOf(outline: readonly Polygon[], xOf: (mm: number) => number, yOf: (mm: number) => number): string {
  const point = ([x, z]: readonly [number, number]): string => `${xOf(x).toFixed(1)} ${yOf(z).toFixed(1)}`;
  return outline.flatMap(ringsOf).map((ring) => `M${ring.map(point).join('L')}Z`).join('');
}

/** A line as a brush draws it: thick, thin and thick again, 1 to 5 px. */
function brushLine(left: number, right: number, y: number): string {
  const at = (share: number, rise: number): string => `${(left + share * (right - left)).toFixed(1)} ${(y + rise).toFixed(1)}`;
  return `M${at(0, -0.6)}C${at(0.15, -3.1)} ${at(0.36, -2.9)} ${at(0.55, -1.4)}S${at(0.86, -2.4)} ${at(1, -0.5)}L${at(1, 0.6)}C${at(0.8, 2.2)} ${at(0.25, 2.9)} ${at(0, 0.6)}Z`;
}

function namesOf(planes: readonly { id: string; name: string; y: number }[], shapes: readonly GaugeShape[], floorY: number, mostLetters: number): GaugeName[] {
  const beds = shapes.filter(({ kind }) => kind === 'bed').map(({ id, name, baseY }) => ({ id, name, y: Math.min(floorY, baseY) - 9 }));
  const bars = shapes.filter(({ bar }) => bar).map(({ id, name, topY, baseY }) => ({ id, name, y: (topY + baseY) / 2 + 5 }));
  const wished = [...planes.map(({ id, name, y }) => ({ id, name, y: y + 19 })), ...beds, ...bars].sort((a, b) => a.y - b.y);
  if (wished.length === 0) return [];
  // Dozens of planes have no room for all their names here; the list of pours has them.
  const [low, high] = [wished[0].y, floorY - 6];
  const every = Math.max(1, Math.ceil((wished.length * NAME_GAP_PX) / (high - low + NAME_GAP_PX)));
  const named = wished.filter((_, i) => i % every === 0);
  const at = spread(named.map(({ y }) => y), NAME_GAP_PX, Math.min(low, high), high);
  return named.map((one, i) => ({ ...one, y: at[i], shown: shortened(one.name, Math.max(4, mostLetters)) }));
}

function shortened(name: string, mostLetters: number): string {
  const letters = [...name];
  return letters.length <= mostLetters ? name : `${letters.slice(0, mostLetters - 1).join('').trimEnd()}…`;
}

/** How the section reads aloud. */
export function gaugeWords(section: Section, halted: ReadonlySet<number>, unit: LengthUnit): string {
  const round = (mm: number): string => lengthNumber(mm, unit).replaceAll('\u00a0', ' ');
  const withUnit = (mm: number): string => lengthIn(mm, unit).replaceAll('\u00a0', ' ');
  const deep = (mm: number): string => `${round(mm)} up, ${round(depthAt(section, mm))} deep`;
  const parts = [
    `Section through the mold, ${withUnit(section.heightMm)} high, resin to ${round(section.fillMm)}.`,
    `Pours from the floor: ${section.bands.map(({ pour, fromMm, toMm }) => `${pour}, ${round(fromMm)} to ${withUnit(toMm)}${halted.has(pour) ? ', do not pour' : ''}`).join('; ')}.`,
  ];
  if (section.planes.length > 0) parts.push(`Painted planes: ${section.planes.map(({ name, atMm }) => `${name} at ${deep(atMm)}`).join('; ')}.`);
  const [solids, creatures] = [section.shapes.filter(({ kind }) => kind !== 'creature'), section.shapes.filter(({ kind }) => kind === 'creature')];
  const spans = (shapes: readonly SectionShape[]): string => shapes.map(({ name, baseMm, topMm }) => `${name} from ${round(baseMm)} to ${round(topMm)} up`).join('; ');
  if (solids.length > 0) parts.push(`In the mold: ${spans(solids)}.`);
  if (creatures.length > 0) parts.push(`Painted on planes: ${spans(creatures)}.`);
  return parts.join(' ');
}
