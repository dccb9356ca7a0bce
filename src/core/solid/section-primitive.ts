/**
 * Horizontal sections of the round primitives at any turn, from their equations (analytic geometry of the quadrics and of
 * the conics they are cut in; from memory): no facets. Points lie on the true curve; a chord strays from it by at most
 * `ARC_MM`. Flat-sided shapes are exact as meshes and cut as such.
 *
 * Each works in the shape's own frame, where the plane is up·p = c: first the generators' angles at which the plane runs
 * inside the solid, bounded by its flat ends, then the curve over those angles.
 */
import { capHeight, type Direction, type Primitive } from './primitives.ts';
import { arcLoop, turnedRight, type Curve } from './section-arc.ts';
import type { SectionLoop } from './section-mesh.ts';

export type Round = Extract<Primitive, { type: 'sphere' | 'ellipsoid' | 'cylinder' | 'cone' | 'cap' }>;

/** Own x, y, z to mold x, y, mm, written to `out`. */
export type ToMold = (x: number, y: number, z: number, out: Float64Array) => void;

const TURN = 2 * Math.PI;

export function isRound(shape: Primitive): shape is Round {
  return shape.type !== 'box' && shape.type !== 'wedge' && shape.type !== 'measured';
}

/** The section of a round primitive by the plane up·p = c (own frame, up of length 1); null where there is none. */
export function roundSection(shape: Round, up: Direction, c: number, toMold: ToMold): SectionLoop | null {
  switch (shape.type) {
    case 'sphere': return ballSection([shape.radiusMm, shape.radiusMm, shape.radiusMm], up, c, toMold);
    case 'ellipsoid': return ballSection([shape.lengthMm / 2, shape.widthMm / 2, shape.heightMm / 2], up, c, toMold);
    case 'cap': return capSection(shape, up, c, toMold);
    case 'cylinder': return cylinderSection(shape, up, c, toMold);
    case 'cone': return coneSection(shape, up, c, toMold);
  }
}

/** Ellipsoid: the unit sphere's circle, stretched. */
function ballSection([a, b, h]: readonly [number, number, number], up: Direction, c: number, toMold: ToMold): SectionLoop | null {
  const reach = Math.hypot(a * up[0], b * up[1], h * up[2]);
  const n: Direction = [(a * up[0]) / reach, (b * up[1]) / reach, (h * up[2]) / reach];
  const d = c / reach;
  const radius = Math.sqrt(Math.max(0, (1 - d) * (1 + d)));
  const [u, v] = across(n);
  const curve: Curve = (at, out) => {
    const cos = radius * Math.cos(at);
    const sin = radius * Math.sin(at);
    toMold(a * (d * n[0] + cos * u[0] + sin * v[0]), b * (d * n[1] + cos * u[1] + sin * v[1]), h * (d * n[2] + cos * u[2] + sin * v[2]), out);
  };
  return arcLoop(curve, [[0, TURN]]);
}

/** The sphere's circle where it is over the rim's plane. */
function capSection(shape: Extract<Primitive, { type: 'cap' }>, up: Direction, c: number, toMold: ToMold): SectionLoop | null {
  const r = shape.sphereRadiusMm;
  const center = capHeight(shape) - r;
  const d = c - center * up[2];
  const radius = Math.sqrt(Math.max(0, (r - d) * (r + d)));
  // u points straight to the side of the circle that is highest over the rim, v along the rim's plane.
  const lean = Math.hypot(up[0], up[1]);
  const u: Direction = lean > 0 ? [(-up[0] * up[2]) / lean, (-up[1] * up[2]) / lean, lean] : [1, 0, 0];
  const v: Direction = lean > 0 ? [up[1] / lean, -up[0] / lean, 0] : [0, 1, 0];
  const middle = center + d * up[2];
  const curve: Curve = (at, out) => {
    const cos = radius * Math.cos(at);
    const sin = radius * Math.sin(at);
    toMold(d * up[0] + cos * u[0] + sin * v[0], d * up[1] + cos * u[1] + sin * v[1], center + d * up[2] + cos * u[2] + sin * v[2], out);
  };
  // Over the rim's plane where middle + radius·lean·cos ≥ 0.
  const arc = arcWhere(-middle, radius * (lean > 0 ? u[2] : 0));
  return arc && arcLoop(curve, [arc]);
}

/** The symmetric arc of angles at which amplitude·cos(angle) ≥ least; null for none. */
function arcWhere(least: number, amplitude: number): readonly [number, number] | null {
  if (least <= -amplitude) return [0, TURN];
  if (least >= amplitude) return null;
  const half = Math.acos(least / amplitude);
  return [-half, half];
}

/** Generators run up from the base at each angle from the plane's steepest direction `lean`. */
function cylinderSection({ radiusMm: r, heightMm: h }: Extract<Round, { type: 'cylinder' }>, up: Direction, c: number, toMold: ToMold): SectionLoop | null {
  const [m, e] = leaning(up);
  const place = placing(e, toMold);
  if (up[2] === 0) {
    // Lying: a strip between two generators.
    const half = Math.sqrt(Math.max(0, (r - c) * (r + c)));
    return polygon([[c, -half, 0], [c, half, 0], [c, half, h], [c, -half, h]], place);
  }
  if (m === 0) {
    const t = c / up[2];
    return t >= 0 && t <= h ? arcLoop((at, out) => place(r * Math.cos(at), r * Math.sin(at), t, out), [[0, TURN]]) : null;
  }
  const curve: Curve = (at, out) => place(r * Math.cos(at), r * Math.sin(at), Math.min(h, Math.max(0, (c - r * m * Math.cos(at)) / up[2])), out);
  // It meets the base where cos = c/(r m) and the lid where cos = (c − up_z h)/(r m).
  const base = c / (r * m);
  const lid = (c - up[2] * h) / (r * m);
  return betweenCosines(curve, Math.min(base, lid), Math.max(base, lid));
}

/** The curve over angles whose cosine lies between two values: one closed curve, or two arcs and two chords. */
function betweenCosines(curve: Curve, low: number, high: number): SectionLoop | null {
  if (low >= 1 || high <= -1) return null;
  const near = Math.acos(Math.min(1, high));
  const far = Math.acos(Math.max(-1, low));
  if (near === 0) return arcLoop(curve, far === Math.PI ? [[0, TURN]] : [[-far, far]]);
  return arcLoop(curve, far === Math.PI ? [[near, TURN - near]] : [[near, far], [-far, -near]]);
}

/** Apex up at h. Ellipse, parabola or hyperbola, cut off by the base; through the apex a triangle. */
function coneSection({ radiusMm: r, heightMm: h }: Extract<Round, { type: 'cone' }>, up: Direction, c: number, toMold: ToMold): SectionLoop | null {
  const [m, e] = leaning(up);
  const place = placing(e, toMold);
  const overApex = c - up[2] * h;
  const base = m === 0 ? (c * Math.sign(up[2]) > 0 ? Infinity : -Infinity) : c / (r * m);
  if (overApex === 0) {
    if (Math.abs(base) >= 1) return null;
    const across = Math.sqrt((1 - base) * (1 + base));
    return polygon([[0, 0, h], [r * base, -r * across, 0], [r * base, r * across, 0]], place);
  }
  if (m === 0) {
    const t = c / up[2];
    const at = r * (1 - t / h);
    return t >= 0 && t < h ? arcLoop((angle, out) => place(at * Math.cos(angle), at * Math.sin(angle), t, out), [[0, TURN]]) : null;
  }
  // The share of the way down from the apex at which a generator meets the plane; 1 at the base.
  const curve: Curve = (at, out) => {
    const cos = Math.cos(at);
    const share = Math.min(1, Math.max(0, overApex / (r * m * cos - up[2] * h)));
    place(r * share * cos, r * share * Math.sin(at), h * (1 - share), out);
  };
  // Under the apex it is inside where cos ≤ base, over it where cos ≥ base.
  return overApex < 0 ? betweenCosines(curve, -1, base) : betweenCosines(curve, base, 1);
}

/** How far the plane leans (0 level) and the level direction in which `up` leans, in the shape's frame. */
function leaning(up: Direction): readonly [number, readonly [number, number]] {
  const m = Math.hypot(up[0], up[1]);
  return [m, m > 0 ? [up[0] / m, up[1] / m] : [1, 0]];
}

/** From along and across the lean to the mold. */
function placing(e: readonly [number, number], toMold: ToMold): ToMold {
  return (x, y, z, out) => toMold(e[0] * x - e[1] * y, e[1] * x + e[0] * y, z, out);
}

function polygon(corners: readonly (readonly [number, number, number])[], place: ToMold): SectionLoop | null {
  const out = new Float64Array(2);
  return turnedRight(corners.flatMap(([x, y, z]) => {
    place(x, y, z, out);
    return [out[0], out[1]];
  }));
}

/** Two directions square to n and to each other (Duff et al. 2017, "Building an orthonormal basis, revisited"; from memory). */
function across([x, y, z]: Direction): readonly [Direction, Direction] {
  const sign = z < 0 ? -1 : 1;
  const a = -1 / (sign + z);
  const b = x * y * a;
  return [[1 + sign * x * x * a, sign * b, -sign * x], [b, sign + y * y * a, -y]];
}
