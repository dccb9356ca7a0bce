/** The still and slow ones of a rock pool: sea star, limpet, anemone, rock and pebble. */
import { spine } from './curve.ts';
import { above, ball, blend, carve, ellipsoid, smoothMax, tube } from './field.ts';
import type { Bead, Field } from './field.ts';
import { noise } from './noise.ts';

/** A five-armed sea star, two arm tips curled up, studded along its arms. */
export function seaStar(): Field {
  const parts: Field[] = [ellipsoid([0, 0, 2.4], [7.6, 7.6, 3.7])];
  const studs: Field[] = [];
  const bends = [0.25, -0.18, 0.3, -0.28, 0.12];
  const lifts = [6.4, 0.4, 4.2, 0.2, 1.2];
  for (let arm = 0; arm < 5; arm++) {
    const base = (2 * Math.PI * arm) / 5;
    const line: Bead[] = [0, 0.25, 0.5, 0.75, 1].map((t) => {
      const angle = base + bends[arm] * t * t;
      const r = 27 * t * (1 - 0.08 * t * (lifts[arm] / 6));
      return [r * Math.cos(angle), r * Math.sin(angle), 2.3 - 0.8 * t + lifts[arm] * t ** 4, 5.4 - 4.0 * t ** 0.9];
    });
    const beads = spine(line, 5);
    parts.push(tube(beads));
    for (let i = 3; i < beads.length - 1; i += 2) {
      const [x, y, z, r] = beads[i];
      studs.push(ball([x, y, z + r * 0.92], 0.28 + 0.1 * r));
      const across = base + Math.PI / 2;
      for (const side of [1, -1]) {
        const o = side * r * 0.62;
        studs.push(ball([x + o * Math.cos(across), y + o * Math.sin(across), z + r * 0.66], 0.25 + 0.08 * r));
      }
    }
  }
  const body = blend(3, ...parts);
  for (let i = 0; i < 12; i++) {
    // A sunflower's spacing: no two studs of the disc line up.
    const r = 1.9 * Math.sqrt(i);
    const x = r * Math.cos(2.4 * i);
    const y = r * Math.sin(2.4 * i);
    let z = 9;
    while (body(x, y, z) > 0) z -= 0.05;
    studs.push(ball([x, y, z], 0.7));
  }
  return above(blend(0.5, body, ...studs), 0, 0.6);
}

/** A limpet: a leaning cone with ribs from the apex to a scalloped rim. */
export function limpet(): Field {
  const ribs = 17;
  return (x, y, z) => {
    // The sections slide toward the apex, which stands off the middle.
    const up = Math.min(1, Math.max(0, z / 11.6));
    const cx = 3.2 * up;
    const px = (x - cx) / 13;
    const py = y / 10.6;
    const angle = Math.atan2(py, px);
    const rib = 1 + 0.03 * Math.cos(ribs * angle) + 0.012 * Math.cos(5 * angle + 1);
    const ring = 0.008 * Math.sin(z * 3.6);
    const outline = Math.max(0.02, (1 - up) ** 0.72) * (rib + ring);
    const cone = (Math.hypot(px, py) - outline) * 8.2;
    return smoothMax(smoothMax(cone, z - 11.2, 1.6), -z, 0.5);
  };
}

/** A beadlet anemone, open: a stout column and three rings of tapering tentacles. */
export function anemone(): Field {
  const stem = tube(spine([[0, 0, 1, 9], [0, 0, 5, 7.9], [0, 0, 9, 7.9], [0, 0, 13, 8.6]], 8));
  const column = above(blend(2.4, ellipsoid([0, 0, 0.4], [12.2, 12.2, 3.4]), stem), 0, 0.6);
  const rings = [
    { count: 12, outMm: 7.6, reachMm: 9.8, riseMm: 3.6, droopMm: 3.4, radiusMm: 1.45 },
    { count: 10, outMm: 5.6, reachMm: 6.8, riseMm: 8.0, droopMm: 1.0, radiusMm: 1.35 },
    { count: 6, outMm: 3.2, reachMm: 2.8, riseMm: 9.4, droopMm: 0, radiusMm: 1.25 },
  ];
  const tentacles = rings.flatMap(({ count, outMm, reachMm, riseMm, droopMm, radiusMm }, k) =>
    Array.from({ length: count }, (_, i) => {
      const angle = (2 * Math.PI * (i + 0.37 * k)) / count;
      // Uneven on purpose, by numbers that repeat nowhere near a ring's count.
      const uneven = Math.sin(12.9 * (i + 1) + 4.1 * k);
      const line: Bead[] = [0, 0.35, 0.7, 1].map((t) => {
        const turn = angle + 0.28 * uneven * t * t;
        const r = outMm + reachMm * t * (1 + 0.12 * uneven);
        const z = 15.5 + riseMm * (1 + 0.12 * uneven) * t - droopMm * 1.6 * t * t;
        return [r * Math.cos(turn), r * Math.sin(turn), z, radiusMm * (1 - 0.5 * t)];
      });
      return tube(spine(line, 4));
    }),
  );
  const disc = ellipsoid([0, 0, 15.2], [9.2, 9.2, 2.6]);
  return blend(0.9, blend(2, column, disc), ...tentacles);
}

/** A weathered rock with a broad, nearly level top. */
export function rock(): Field {
  return (x, y, z) => {
    const d = ellipsoid([0, 0, 7], [31, 23, 15])(x, y, z);
    let cut = d;
    for (const [nx, ny, nz, at] of FACETS) cut = smoothMax(cut, nx * x + ny * y + nz * (z - 7) - at, 2.2);
    const rough = 1.5 * noise(x, y, z, 13) + 0.7 * noise(x, y, z + 40, 5.5) + 0.3 * noise(x, y, z + 90, 2.4);
    return smoothMax((cut + rough) * 0.8, -z, 0.8);
  };
}

/** Planes that break the rock's roundness: normal and distance from its middle. */
const FACETS: readonly (readonly [number, number, number, number])[] = [
  [0.06, -0.04, 0.997, 10.6],
  [0.78, 0.36, 0.51, 20.5],
  [-0.84, 0.22, 0.49, 21.5],
  [-0.3, -0.82, 0.48, 16],
  [0.42, -0.8, 0.43, 18],
  [0.1, 0.86, 0.5, 16.5],
  [0.95, -0.3, 0.05, 26],
];

/** A water-worn pebble with a shallow dent. */
export function pebble(): Field {
  const body = ellipsoid([0, 0, 4.4], [10.5, 7.6, 4.6]);
  const bump = ellipsoid([-2.8, 1.2, 4.6], [6.6, 5.8, 4.7]);
  return carve(blend(3, body, bump), ball([6, -6, 13.2], 6.6), 2.5);
}
