/**
 * Strokes painted on a canvas whose units are mm of the mold. A soft edge is a few steps, each a whole mark narrower than the
 * one before: painted over each other they fade evenly, and a line that crosses itself does not darken.
 */
import type { Stroke } from '../../core/scene/scene.ts';
import { halfMm, stretchesOf, type Stretch } from '../../core/sight/sketch/mark.ts';

/** px between steps of a soft edge: narrower is not seen. */
const STEP_PX = 1.5;
const MOST_STEPS = 6;

/** By the points they run through and how the edge is stepped: forms of a kept stroke, from the outermost in. Making them is most of the work of a swelling one. */
const forms = new WeakMap<Stroke['points'], Map<string, readonly Path2D[]>>();
/** The board's as it is looked at, the one before it, and the mold view's. */
const LOOKS_KEPT = 3;

export function paintStrokes(pen: CanvasRenderingContext2D, strokes: readonly Stroke[], pxPerMm: number): void {
  for (const stroke of strokes) paintStroke(pen, stroke, pxPerMm);
}

export function paintStroke(pen: CanvasRenderingContext2D, stroke: Stroke, pxPerMm: number): void {
  const softMm = Math.min(stroke.softMm, stroke.widthMm / 2);
  const steps = Math.max(1, Math.min(MOST_STEPS, Math.ceil((softMm * pxPerMm) / STEP_PX)));
  pen.fillStyle = pen.strokeStyle = stroke.ink;
  pen.lineCap = pen.lineJoin = 'round';
  const [first] = stroke.points;
  const even = stroke.points.every((point) => point[2] === first[2]);
  const inMm = Array.from({ length: steps }, (_, step) => (softMm * step) / steps);
  const swelling = even ? null : swellingForms(stroke, inMm);
  inMm.forEach((byMm, step) => {
    // With the last step it is as dark as the ink; after each it is a step nearer to that.
    pen.globalAlpha = 1 / (steps - step);
    if (swelling) pen.fill(swelling[step]);
    else strokeEven(pen, stroke, halfMm(stroke, first[2]) - byMm);
  });
  pen.globalAlpha = 1;
}

/** One line of one width: what the canvas itself does fastest. */
function strokeEven(pen: CanvasRenderingContext2D, { points }: Stroke, half: number): void {
  if (half <= 0) return;
  pen.beginPath();
  pen.lineWidth = 2 * half;
  pen.moveTo(points[0][0], points[0][1]);
  for (let i = 1; i < points.length; i++) pen.lineTo(points[i][0], points[i][1]);
  // A line to where it is already: a dot.
  if (points.length === 1) pen.lineTo(points[0][0], points[0][1]);
  pen.stroke();
}

function swellingForms(stroke: Stroke, inMm: readonly number[]): readonly Path2D[] {
  const look = `${stroke.widthMm} ${inMm.join(' ')}`;
  const known = forms.get(stroke.points) ?? new Map<string, readonly Path2D[]>();
  const kept = known.get(look);
  if (kept) return kept;
  const stretches = stretchesOf(stroke);
  const steps = inMm.map((byMm) => swellingForm(stretches, byMm));
  for (const old of [...known.keys()].slice(0, Math.max(0, known.size - LOOKS_KEPT + 1))) known.delete(old);
  forms.set(stroke.points, known.set(look, steps));
  return steps;
}

/** The hulls of its round marks, all turned one way, so that they fill as one. */
function swellingForm(stretches: readonly Stretch[], inMm: number): Path2D {
  const form = new Path2D();
  for (const { ax, ay, aHalf, bx, by, bHalf } of stretches) {
    const [a, b] = [Math.max(0, aHalf - inMm), Math.max(0, bHalf - inMm)];
    const length = Math.hypot(bx - ax, by - ay);
    const lean = length === 0 ? 2 : (a - b) / length;
    if (Math.abs(lean) >= 1) {
      const [x, y, half] = a >= b ? [ax, ay, a] : [bx, by, b];
      form.moveTo(x + half, y);
      form.arc(x, y, half, 0, 2 * Math.PI);
      continue;
    }
    const along = Math.atan2(by - ay, bx - ax);
    const off = Math.acos(lean);
    form.moveTo(bx + b * Math.cos(along - off), by + b * Math.sin(along - off));
    form.arc(bx, by, b, along - off, along + off);
    form.arc(ax, ay, a, along + off, along - off + 2 * Math.PI);
    form.closePath();
  }
  return form;
}
