/**
 * Where a creature's section changes its parts from one plane to the next one painted, which lies above it: places for
 * eyes, fins and tails. Parts are the same part where their sections overlap.
 */
import { NUMBER_WORDS } from '../plan/number-words.ts';
import { capital, mm, percent, plain } from '../units/format.ts';
import type { Hint } from './guide.ts';
import { acrossMm, centerOf, lengthMm, overlap, partsOf, roundness } from './parts.ts';
import { loopArea, regionArea, type Region, type Regions } from './region.ts';

/** mm. Thinner than this a part is painted as a fin: see-through strokes (common practice, no source). */
const FIN_MM = 2;
/** mm². Smaller than a brush's dot. */
const DOT_MM2 = 1;
/** A part less than half or more than twice as large as on the plane before has changed (a choice of ours). */
const CHANGED = 2;
/** So many times as large or more is told in whole times. */
const WHOLE_FROM = 10;
/** Of the whole section: a part smaller than this may be an eye. */
const EYE_SHARE = 0.1;
const ROUND = 0.75;
const LONG = 0.4;
/** Sections looked at between two planes. */
const BETWEEN = 5;
/** More marks on one plane say nothing. */
const MOST = 12;

export interface HintsOptions {
  readonly regions: Regions;
  /** The plane painted before, below this one; null for the first. */
  readonly before: { readonly atMm: number; readonly outline: Region } | null;
  readonly atMm: number;
  readonly outline: Region;
  /** The creature's section at any height, as it is cut. */
  readonly sectionAt: (zMm: number) => Region;
  /** Where it begins and where it ends. */
  readonly bottomMm: number;
  readonly topMm: number;
  /** No plane of it lies higher. */
  readonly last: boolean;
}

/** The most telling first. */
export function hintsOf(options: HintsOptions): Hint[] {
  const { regions, before, outline, atMm, bottomMm, topMm, last } = options;
  const hints = [
    ...(before ? changes(partsOf(before.outline).filter(visible), partsOf(outline).filter(visible), regions) : []),
    ...missed(options, { fromMm: before?.atMm ?? bottomMm, toMm: atMm, under: before?.outline ?? [], words: before ? 'Between this plane and the one below' : 'Under this plane' }),
    ...(last ? missed(options, { fromMm: atMm, toMm: topMm, under: [], words: 'Over this plane' }) : []),
    ...fins(outline, regions),
  ];
  return hints.slice(0, MOST);
}

const visible = (part: Region): boolean => regionArea(part) > DOT_MM2;

function changes(below: readonly Region[], here: readonly Region[], regions: Regions): Hint[] {
  const meets = below.map((a) => here.map((b) => overlap(a, b, regions)));
  const wholeMm2 = here.reduce((sum, part) => sum + regionArea(part), 0);
  const hints: Hint[] = [];
  here.forEach((part, h) => {
    const from = below.filter((_, b) => meets[b][h]);
    if (from.length === 0) hints.push(hint('appears', part, `New here: ${looksLike(part, wholeMm2)}.`));
    if (from.length > 1) hints.push(hint('joins', part, `${capital(numberWord(from.length))} parts of the plane below are one here.`));
    if (from.length === 1 && meets[below.indexOf(from[0])].filter(Boolean).length === 1) hints.push(...samePart(from[0], part));
  });
  below.forEach((part, b) => {
    const to = meets[b].filter(Boolean).length;
    if (to === 0) hints.push(hint('ends', part, `What was painted here on the plane below has ended: ${looksLike(part, wholeMm2)}. Leave it clear.`));
    if (to > 1) hints.push(hint('splits', part, `One part of the plane below is ${numberWord(to)} here.`));
  });
  return hints;
}

/** One part that went on as one: gaps in it, and its size. */
function samePart(below: Region, here: Region): Hint[] {
  const gaps = here.length - below.length;
  const many = Math.abs(gaps) > 1 ? `${capital(numberWord(Math.abs(gaps)))} gaps` : null;
  const hints: Hint[] = [];
  if (gaps > 0) hints.push(hint('opens', smallestGap(here), many ? `${many} open in this part.` : 'A gap opens in this part.'));
  if (gaps < 0) hints.push(hint('closes', smallestGap(below), many ? `${many} of the plane below are closed here.` : 'A gap of the plane below is closed here.'));
  const ratio = regionArea(here) / regionArea(below);
  if (ratio > CHANGED) hints.push(hint('widens', here, `Much larger here: ${plain(ratio, ratio < WHOLE_FROM ? 1 : 0)} times the plane below.`));
  if (ratio < 1 / CHANGED) hints.push(hint('narrows', here, `Much smaller here: ${percent(ratio, 0)} of the plane below.`));
  return hints;
}

function smallestGap(part: Region): Region {
  return [part.slice(1).reduce((a, b) => (loopArea(b) > loopArea(a) ? b : a))];
}

/** Parts that lie wholly between two planes, or beyond the outer ones, and so are on none. */
function missed({ regions, outline, sectionAt }: HintsOptions, { fromMm, toMm, under, words }: { fromMm: number; toMm: number; under: Region; words: string }): Hint[] {
  const heights = Array.from({ length: BETWEEN }, (_, n) => fromMm + ((n + 1) / (BETWEEN + 1)) * (toMm - fromMm));
  const apart = heights.flatMap((z) =>
    partsOf(sectionAt(z)).filter((part) => visible(part) && !overlap(part, outline, regions) && !overlap(part, under, regions)).map((part) => ({ z, part, area: regionArea(part) })),
  );
  if (apart.length === 0) return [];
  return partsOf(regions.unite(apart.map(({ part }) => part))).map((part) => {
    const fullest = apart.filter((each) => overlap(each.part, part, regions)).reduce((x, y) => (y.area > x.area ? y : x));
    return hint('between', part, `${words}, fullest ${mm(fullest.z)} up, and on no plane: ${looksLike(part, regionArea(outline))}. Paint it here, or set a plane there.`);
  });
}

/** What a brush FIN_MM wide can't get into: parts and edges thinner than that. */
function fins(outline: Region, regions: Regions): Hint[] {
  // Grown back a little farther than shrunk, so that rounded corners are not taken for fins.
  const broad = regions.grow(regions.grow(outline, -FIN_MM / 2), 0.65 * FIN_MM);
  return partsOf(regions.minus(outline, broad))
    .filter((part) => regionArea(part) > FIN_MM * DOT_MM2 && lengthMm(part) > 2 * FIN_MM)
    .map((part) => hint('thin', part, `Thin here, perhaps a fin: ${mm(lengthMm(part), 0)} long. Paint it see-through.`));
}

function hint(kind: Hint['kind'], part: Region, words: string): Hint {
  const { xMm, yMm } = centerOf(part);
  return { kind, atXMm: xMm, atYMm: yMm, words };
}

/** What a part may be, by its shape and size. */
function looksLike(part: Region, wholeMm2: number): string {
  if (roundness(part) < LONG) return `a long, thin part of ${mm(lengthMm(part), 0)}, perhaps a fin, a leg or a feeler`;
  if (roundness(part) > ROUND && regionArea(part) < EYE_SHARE * wholeMm2) return `a small round part ${mm(acrossMm(part))} across, perhaps an eye`;
  return `a part some ${mm(acrossMm(part), 0)} across`;
}

const numberWord = (n: number): string => NUMBER_WORDS[n] ?? String(n);
