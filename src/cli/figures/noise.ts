/** Value noise: the same unevenness for the same place, every run. */

/** Between −1 and 1, smooth, with bumps about `size` mm apart. */
export function noise(x: number, y: number, z: number, size: number): number {
  const u = x / size;
  const v = y / size;
  const w = z / size;
  const i = Math.floor(u);
  const j = Math.floor(v);
  const k = Math.floor(w);
  const fu = ease(u - i);
  const fv = ease(v - j);
  const fw = ease(w - k);
  const row = (dj: number, dk: number): number => mix(corner(i, j + dj, k + dk), corner(i + 1, j + dj, k + dk), fu);
  return mix(mix(row(0, 0), row(1, 0), fv), mix(row(0, 1), row(1, 1), fv), fw);
}

function mix(a: number, b: number, t: number): number {
  return a + (b - a) * t;
}

/** Level at both ends to the second order, so that no grid shows. */
function ease(t: number): number {
  return t * t * t * (t * (6 * t - 15) + 10);
}

/** A lattice corner's value, −1 to 1: integer multiplies and shifts that scatter neighbors widely. */
function corner(i: number, j: number, k: number): number {
  let h = Math.imul(i, 0x27d4eb2d) ^ Math.imul(j, 0x165667b1) ^ Math.imul(k, 0x1b873593);
  h = Math.imul(h ^ (h >>> 15), 0x2c1b3c6d);
  h = Math.imul(h ^ (h >>> 12), 0x297a2d39);
  h ^= h >>> 15;
  return (h >>> 0) / 2147483648 - 1;
}
