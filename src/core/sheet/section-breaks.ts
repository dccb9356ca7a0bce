/** Long-break lines: where water is left out of a section, or the section is cut above or below. */
import type { Pen } from './pen.ts';
import { LINE } from './pen.ts';
import type { Point, Ring } from './polygon.ts';
import { boxOf } from './polygon.ts';
import { halfWidthAt } from './section.ts';
import type { SectionLook } from './section-look.ts';
import type { Cut, SectionView } from './section-view.ts';
import { BREAK_GAP_MM } from './section-view.ts';

/** Two wavy lines where water is left out, from rim to floor; one where the section is cut above or below. */
export function drawBreaks(pen: Pen, look: SectionLook): void {
  const { section, view } = look;
  for (const cut of view.cuts) {
    const [left, right] = breakEdges(view, cut);
    pen.shape([[...left, ...[...right].reverse()]], { fill: 'paper' });
    pen.line(left, LINE.rule);
    pen.line(right, LINE.rule);
  }
  for (const [zMm, isCut] of [[view.toMm, view.toMm < section.heightMm - 0.05], [view.fromMm, view.fromMm > 0]] as const) {
    if (!isCut) continue;
    const STEPS = 60;
    const x0 = view.pageX(-halfWidthAt(section, zMm)) - view.wallMm - 2;
    const x1 = view.pageX(halfWidthAt(section, zMm)) + view.wallMm + 2;
    pen.line(Array.from({ length: STEPS + 1 }, (_, i): Point => [x0 + ((x1 - x0) * i) / STEPS, view.pageY(zMm) + 0.6 * Math.sin(i / 1.6)]), LINE.rule);
  }
}

/** What is inside the walls, in the parts between the cuts. */
export function splitAtBreaks({ view }: SectionLook, inner: Ring): Ring[] {
  const box = boxOf([inner]);
  const far = 5;
  const column = (x: number): Point[] => [[x, view.top - 2], [x, view.bottom + 3]];
  const edges = view.cuts.map((cut) => breakEdges(view, cut));
  const lefts = [column(box.x0 - far), ...edges.map(([, right]) => right)];
  const rights = [...edges.map(([left]) => left), column(box.x1 + far)];
  return lefts.map((left, i) => clipRing([...left, ...[...rights[i]].reverse()], inner));
}

function breakEdges(view: SectionView, cut: Cut): [Point[], Point[]] {
  const x = view.pageX(cut.fromMm);
  const edge = (offset: number): Point[] => {
    const points: Point[] = [];
    const STEPS = 40;
    for (let i = 0; i <= STEPS; i++) {
      const y = view.top - 1 + ((view.bottom + 2 - view.top) * i) / STEPS;
      points.push([x + offset + 0.8 * Math.sin((y - view.top) / 4.5), y]);
    }
    return points;
  };
  return [edge(0), edge(BREAK_GAP_MM)];
}

/** Sutherland–Hodgman: what of `ring` lies in a convex ring. */
function clipRing(ring: Ring, convex: Ring): Ring {
  const sign = Math.sign(convex.reduce((sum, [x, y], i) => sum + x * convex[(i + 1) % convex.length][1] - y * convex[(i + 1) % convex.length][0], 0));
  let points: Point[] = [...ring];
  convex.forEach((a, i) => {
    const b = convex[(i + 1) % convex.length];
    const off = ([x, y]: Point): number => sign * ((b[0] - a[0]) * (y - a[1]) - (b[1] - a[1]) * (x - a[0]));
    const kept: Point[] = [];
    points.forEach((p, k) => {
      const q = points[(k + 1) % points.length];
      const [dp, dq] = [off(p), off(q)];
      if (dp >= 0) kept.push(p);
      if ((dp > 0 && dq < 0) || (dp < 0 && dq > 0)) kept.push([p[0] + ((q[0] - p[0]) * dp) / (dp - dq), p[1] + ((q[1] - p[1]) * dp) / (dp - dq)]);
    });
    points = kept;
  });
  return points;
}
