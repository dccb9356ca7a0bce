/** What the parts of a section's drawing share: what is drawn, and where its heights and outlines fall on the page. */
import type { Lettering } from './pen.ts';
import type { Point, Polygon, Ring } from './polygon.ts';
import type { Section, SectionShape } from './section.ts';
import { halfWidthAt } from './section.ts';
import type { SheetWords } from './sheet-words.ts';
import type { SectionView } from './section-view.ts';

export interface SectionLook {
  readonly section: Section;
  readonly view: SectionView;
  readonly lettering: Lettering;
  readonly words: SheetWords;
  /** Pours that must not be poured. */
  readonly halted: ReadonlySet<number>;
}

/** Region of a span of heights, inside the walls, in page coordinates: bottom left, bottom right, top right, top left. */
export function bandRing({ section, view }: SectionLook, fromMm: number, toMm: number): Ring {
  const from = Math.max(fromMm, view.fromMm);
  const to = Math.max(from, Math.min(toMm, view.toMm));
  const [low, high] = [halfWidthAt(section, from), halfWidthAt(section, to)];
  return [
    [view.pageX(-low), view.pageY(from)], [view.pageX(low), view.pageY(from)],
    [view.pageX(high), view.pageY(to)], [view.pageX(-high), view.pageY(to)],
  ];
}

/** A shape's outline on the page. What of it lies in a cut is drawn together at the cut's edge, where the clip hides it. */
export function placed({ view }: SectionLook, shape: SectionShape): Polygon[] {
  const onPage = (ring: Ring): Ring => ring.map(([x, z]): Point => [view.pageX(x), view.pageY(z)]);
  return shape.outline.map(({ outer, holes }) => ({ outer: onPage(outer), holes: holes.map(onPage) }));
}
