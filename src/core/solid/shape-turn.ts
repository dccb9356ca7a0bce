/**
 * Turning a shape: about the fixed x, then y, then z axis. Quarter turns are exact, so that a cylinder
 * turned by 90° lies on its side and a box turned by 180° stands on its lid, to the last bit.
 */

/** Row-major 3×3 matrix, world = matrix × own. */
export type Turn = readonly [number, number, number, number, number, number, number, number, number];

/** Degrees about x, y and z in, the turning matrix Rz·Ry·Rx out. */
export function turnOf(turnDeg: readonly [number, number, number]): Turn {
  const [cx, sx] = cosSinDeg(turnDeg[0]);
  const [cy, sy] = cosSinDeg(turnDeg[1]);
  const [cz, sz] = cosSinDeg(turnDeg[2]);
  return [
    cz * cy, cz * sy * sx - sz * cx, cz * sy * cx + sz * sx,
    sz * cy, sz * sy * sx + cz * cx, sz * sy * cx - cz * sx,
    -sy, cy * sx, cy * cx,
  ];
}

/** Cosine and sine of an angle in degrees, exact at multiples of 90°. */
function cosSinDeg(angleDeg: number): readonly [number, number] {
  const reduced = angleDeg % 360;
  const quarter = Math.round(reduced / 90);
  const rest = ((reduced - quarter * 90) * Math.PI) / 180;
  const c = Math.cos(rest);
  const s = Math.sin(rest);
  switch (((quarter % 4) + 4) % 4) {
    case 0: return [c, s];
    case 1: return [-s, c];
    case 2: return [-c, -s];
    default: return [s, -c];
  }
}
