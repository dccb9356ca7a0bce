/**
 * Smooth curves through given points: outlines as functions of x, and spines in space.
 *
 * Outlines are piecewise cubics with slopes limited so that they never overshoot their points (Fritsch
 * and Carlson's monotone idea with harmonic-mean slopes); spines are uniform
 * Catmull–Rom curves, which is enough for evenly set points.
 */
import type { Bead } from './field.ts';

/**
 * The outline through `knots` ([x, value], x ascending, two or more). Beyond the ends: the end's value.
 */
export function outline(knots: readonly (readonly [number, number])[]): (x: number) => number {
  const n = knots.length;
  const xs = knots.map(([x]) => x);
  const vs = knots.map(([, v]) => v);
  const steps = xs.slice(1).map((x, i) => (vs[i + 1] - vs[i]) / (x - xs[i]));
  const slopes = xs.map((_, i) => {
    if (i === 0) return steps[0];
    if (i === n - 1) return steps[n - 2];
    const a = steps[i - 1];
    const b = steps[i];
    return a * b <= 0 ? 0 : (2 * a * b) / (a + b);
  });
  return (x) => {
    if (x <= xs[0]) return vs[0];
    if (x >= xs[n - 1]) return vs[n - 1];
    let i = 0;
    while (x > xs[i + 1]) i++;
    const h = xs[i + 1] - xs[i];
    const t = (x - xs[i]) / h;
    const t2 = t * t;
    const t3 = t2 * t;
    return (
      vs[i] * (2 * t3 - 3 * t2 + 1) + slopes[i] * h * (t3 - 2 * t2 + t) + vs[i + 1] * (3 * t2 - 2 * t3) + slopes[i + 1] * h * (t3 - t2)
    );
  };
}

/** Beads along a smooth curve through `beads` (two or more), `steps` rods between each two. */
export function spine(beads: readonly Bead[], steps: number): Bead[] {
  const last = beads.length - 1;
  const out: Bead[] = [];
  for (let i = 0; i < last; i++) {
    const p0 = beads[Math.max(0, i - 1)];
    const p1 = beads[i];
    const p2 = beads[i + 1];
    const p3 = beads[Math.min(last, i + 2)];
    for (let s = 0; s < steps; s++) {
      const t = s / steps;
      const at = (k: number): number =>
        0.5 *
        (2 * p1[k] + (p2[k] - p0[k]) * t + (2 * p0[k] - 5 * p1[k] + 4 * p2[k] - p3[k]) * t * t + (3 * p1[k] - p0[k] - 3 * p2[k] + p3[k]) * t ** 3);
      out.push([at(0), at(1), at(2), at(3)]);
    }
  }
  out.push(beads[last]);
  return out;
}
