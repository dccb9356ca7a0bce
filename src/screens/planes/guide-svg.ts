/** A creature's guide on a plane as a picture for the mold view: what newly shows in a soft fill within ink, what fades, what is hidden. Fetched with the first creature. */
import type { PlacedPicture } from '../../core/sight/colors/picture.ts';
import type { PlaneGuide } from '../../core/sight/guide.ts';
import { colorsPlace, colorsUrl } from './guide-colors.ts';
import { regionBounds, type Region, type RegionBounds } from '../../core/sight/region.ts';

export interface GuidePicture {
  readonly svg: string;
  readonly widthMm: number;
  readonly heightMm: number;
  /** Its middle in the mold. */
  readonly xMm: number;
  readonly yMm: number;
}

export interface GuideInks {
  readonly ink: string;
  /** Of a creature without a color of its own. */
  readonly fill: string;
  /** What its paint is to look like. */
  readonly own?: string;
}

/** mm left round the outline for its line. */
const MARGIN_MM = 1;
const LINE_MM = 0.45;
const THIN_MM = 0.2;
/** Px that the picture is drawn with, along its longer side. */
const PX = 1024;

/** Null where nothing is to be seen. As one looks down into the mold: the plane's back is up. */
export function guidePicture({ outline, fresh, feather, hidden, colors }: PlaneGuide, { ink, fill, own }: GuideInks): GuidePicture | null {
  const box = boundsOf([outline], MARGIN_MM);
  if (!box) return null;
  const [widthMm, heightMm] = [box.maxX - box.minX, box.maxY - box.minY];
  const perMm = PX / Math.max(widthMm, heightMm);
  const at = (region: Region): string => pathOf(region, (x) => x - box.minX, (y) => box.maxY - y);
  const tone = own ?? fill;
  const drawn = [
    `<path d="${at(feather)}" fill="${tone}" fill-opacity="0.16"/>`,
    `<path d="${at(hidden)}" fill="none" stroke="${ink}" stroke-opacity="0.3" stroke-width="${THIN_MM}"/>`,
    ...(colors ? [imageOf(colors.picture, box)] : []),
    `<path d="${at(fresh)}" fill="${colors ? 'none' : tone}" fill-opacity="${own ? 0.9 : 0.45}" fill-rule="evenodd" stroke="${ink}" stroke-width="${LINE_MM}" stroke-linejoin="round"/>`,
  ];
  const svg = `<svg xmlns="http://www.w3.org/2000/svg" width="${(widthMm * perMm).toFixed(0)}" height="${(heightMm * perMm).toFixed(0)}" viewBox="0 0 ${widthMm.toFixed(3)} ${heightMm.toFixed(3)}">${drawn.join('')}</svg>`;
  return { svg, widthMm, heightMm, xMm: (box.minX + box.maxX) / 2, yMm: (box.minY + box.maxY) / 2 };
}

function imageOf(picture: PlacedPicture, { minX, maxY }: RegionBounds): string {
  const { x, y, width, height } = colorsPlace(picture, (mm) => mm - minX, (mm) => maxY - mm);
  return `<image href="${colorsUrl(picture)}" x="${x.toFixed(3)}" y="${y.toFixed(3)}" width="${width.toFixed(3)}" height="${height.toFixed(3)}" preserveAspectRatio="none"/>`;
}

/** A box round them all, with a margin; null where they are empty. */
export function boundsOf(regions: readonly Region[], marginMm: number): RegionBounds | null {
  const boxes = regions.flatMap((region) => regionBounds(region) ?? []);
  if (boxes.length === 0) return null;
  return {
    minX: Math.min(...boxes.map(({ minX }) => minX)) - marginMm,
    minY: Math.min(...boxes.map(({ minY }) => minY)) - marginMm,
    maxX: Math.max(...boxes.map(({ maxX }) => maxX)) + marginMm,
    maxY: Math.max(...boxes.map(({ maxY }) => maxY)) + marginMm,
  };
}

/** SVG path of all loops. */
export function pathOf(region: Region, xOf: (mm: number) => number, yOf: (mm: number) => number): string {
  return region.map((loop) => `M${Array.from({ length: loop.length / 2 }, (_, i) => `${xOf(loop[2 * i]).toFixed(2)} ${yOf(loop[2 * i + 1]).toFixed(2)}`).join('L')}Z`).join('');
}
