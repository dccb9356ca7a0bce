/**
 * What of a creature shows bare when the piece is looked at from the side: paint that lies nearer slides over what is behind it
 * (spacing.ts), and where it slides off, what was left unpainted comes into sight. A feather reaches under what covers it only
 * beside paint; where a flank stands upright or leans in nothing new is painted, and gap and feather alone can't tell it.
 */
import { mm, plain } from '../units/format.ts';
import type { BarePatch, Hint, PlaneGuide } from './guide.ts';
import { sideWords } from './lamp-words.ts';
import { centerOf, partsOf } from './parts.ts';
import { NOWHERE, regionArea, type Region, type Regions } from './region.ts';
import { insideTan } from './spacing.ts';

export interface BareOptions {
  readonly viewDeg: number;
  /** Of the resin between the planes, the lowest: it bends a look in least. */
  readonly index: number;
  readonly regions: Regions;
}

/** Those a piece is mostly looked at from first: of sides that show alike the first is told. */
const SIDES_DEG = [270, 0, 180, 90] as const;
/** Of the largest area: as good as alike. */
const ALIKE = 0.99;
const MM2_PER_CM2 = 100;
const RADIAN = Math.PI / 180;
/** mm. A strip no wider shows as a line at most (a choice of ours). */
const LINE_MM = 0.5;
/** mm². Less is no patch (a choice of ours). */
const LEAST_MM2 = 4;
/** mm. What a brush can follow. */
const RIM_STEP_MM = 0.1;

/**
 * For each plane of a stack, the one nearest the viewer first; null where nobody sees a patch. Planes nearer the viewer count as
 * painted as far as their own patch asks, so that each patch is what shows between neighbors and is told once.
 */
export function barePatches(stack: readonly PlaneGuide[], { viewDeg, index, regions }: BareOptions): (BarePatch | null)[] {
  const tan = insideTan(viewDeg, index);
  let covers: Region[] = SIDES_DEG.map(() => NOWHERE);
  return stack.map((here, place): BarePatch | null => {
    // How far each plane nearer the viewer slides over this one, the next one first.
    const slidesMm = stack.slice(0, place).map(({ depthMm }) => (here.depthMm - depthMm) * tan).reverse();
    covers = covers.map((cover, side) => slid(cover, slidesMm[0] ?? 0, SIDES_DEG[side]));
    const unpainted = regions.minus(here.hidden, here.feather);
    const bare = covers.map((cover) => patchesOf(regions.minus(unpainted, cover), regions));
    const areas = bare.map(regionArea);
    const side = areas.findIndex((area) => area >= ALIKE * Math.max(...areas));
    const showsBare = areas[side] >= LEAST_MM2;
    const rimMm = showsBare ? narrowestRim(here.hidden, regions.unite(bare), slidesMm, regions) : 0;
    const rim = rimMm === null ? here.hidden : rimWithin(here.hidden, rimMm, regions);
    covers = covers.map((cover) => regions.unite([cover, here.fresh, here.feather, rim]));
    if (!showsBare) return null;
    const { xMm, yMm } = centerOf(partsOf(bare[side])[0]);
    return { viewDeg, towardDeg: SIDES_DEG[side], nearId: stack[place - 1].planeId, areaMm2: areas[side], atXMm: xMm, atYMm: yMm, rimMm };
  });
}

/** For the painter: where, from where, and what to do. */
export function bareHint({ viewDeg, towardDeg, areaMm2, atXMm, atYMm, rimMm }: BarePatch, nearName: string): Hint {
  const how = rimMm === null ? 'all that is covered here too' : `on for ${mm(rimMm)} under what covers it`;
  return { kind: 'bare', atXMm, atYMm, words: `Seen at ${plain(viewDeg, 0)}° from the ${sideWords(towardDeg)}, ${plain(areaMm2 / MM2_PER_CM2, 2)}\u00a0cm² of it here show bare behind ${nearName}. Paint ${how}.` };
}

/** The first of the slides that is wide enough. */
function narrowestRim(hidden: Region, bare: Region, slidesMm: readonly number[], regions: Regions): number | null {
  const widths = slidesMm.map((mm) => Math.ceil(mm / RIM_STEP_MM) * RIM_STEP_MM);
  return widths.find((mm) => regionArea(patchesOf(regions.minus(bare, rimWithin(hidden, mm, regions)), regions)) < LEAST_MM2) ?? null;
}

function rimWithin(region: Region, widthMm: number, regions: Regions): Region {
  return widthMm === 0 ? NOWHERE : regions.minus(region, regions.grow(region, -widthMm));
}

/** Without what shows as a line at most. */
function patchesOf(bare: Region, regions: Regions): Region {
  return regionArea(bare) < LEAST_MM2 ? NOWHERE : partsOf(bare).filter((part) => regions.grow(part, -LINE_MM / 2).length > 0).flat();
}

/** Nearer things move away from the side the eye goes to. */
function slid(region: Region, byMm: number, towardDeg: number): Region {
  const dx = -byMm * Math.cos(towardDeg * RADIAN);
  const dy = -byMm * Math.sin(towardDeg * RADIAN);
  return region.map((loop) => loop.map((at, i) => at + (i % 2 === 0 ? dx : dy)));
}
