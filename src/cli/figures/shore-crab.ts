/** A shore crab facing −y, claws raised. It walks toward +x as crabs do, so the side view shows it at its widest. */
import { spine } from './curve.ts';
import { ball, blend, carve, ellipsoid, tube } from './field.ts';
import type { Bead, Field } from './field.ts';

export function shoreCrab(): Field {
  const eyes = blend(0, eye(1), eye(-1));
  const legs: Field[] = [];
  for (const side of [1, -1]) {
    for (let i = 0; i < 4; i++) legs.push(walkingLeg(side, i));
  }
  return blend(0.6, blend(1.1, carapace(), ...legs, claw(1, 1), claw(-1, 0.88)), eyes);
}

function eye(side: number): Field {
  const stalk = tube([
    [side * 3.6, -9, 10.4, 1.0],
    [side * 4.2, -10.4, 14, 0.9],
  ]);
  return blend(0.4, stalk, ball([side * 4.3, -10.6, 14.6], 1.35));
}

/** Fan-shaped, domed, with five teeth on either side of the front edge. */
function carapace(): Field {
  const dome = ellipsoid([0, -1.5, 9.2], [15.4, 11.2, 4.6]);
  const belly = ellipsoid([0, 0.5, 8], [11.5, 9, 4.4]);
  const teeth: Field[] = [];
  for (const side of [1, -1]) {
    for (let i = 0; i < 5; i++) {
      const angle = 0.12 + i * 0.19;
      const x = side * 15.1 * Math.cos(angle);
      const y = -1.5 - 11 * Math.sin(angle);
      teeth.push(tube([[x * 0.93, y * 0.93, 9.2, 1.3], [x * 1.05, y * 1.05 - 0.6, 9.5, 0.45]]));
    }
  }
  for (const x of [-2.2, 0, 2.2]) teeth.push(tube([[x, -11.5, 9.2, 1.2], [x, -13.4, 9.3, 0.7]]));
  const tapered: Field = (x, y, z) => {
    const squeeze = 1 + 0.022 * Math.max(0, y + 2);
    return dome(x * squeeze, y, z) / squeeze;
  };
  const furrow = tube(
    spine([[-7.5, -2.5, 13.7, 0.5], [-3.5, 0.8, 14.2, 0.6], [0, 1.8, 14.3, 0.6], [3.5, 0.8, 14.2, 0.6], [7.5, -2.5, 13.7, 0.5]], 4),
  );
  return carve(blend(0.8, blend(2, tapered, belly), ...teeth), furrow, 0.9);
}

/** Leg `i` from the front: up to a knee, down to a pointed toe. */
function walkingLeg(side: number, i: number): Field {
  const aim = [-0.42, -0.08, 0.3, 0.72][i];
  const reach = [28, 30.5, 29, 24][i] * (side > 0 ? 1 : 0.97);
  const knee = [13.2, 14.4, 13.6, 11.8][i];
  const c = Math.cos(aim) * side;
  const s = Math.sin(aim);
  const rootY = [-3.4, -0.6, 2.2, 4.6][i];
  const at = (share: number, z: number, r: number): Bead => [6 * side + c * (reach - 6) * share, rootY + s * (reach - 6) * share, z, r];
  const thigh = spine([at(0.05, 7.4, 2.0), at(0.28, 10.2, 2.0), at(0.5, knee, 1.7)], 4);
  const shin = spine([at(0.62, knee - 1.8, 1.45), at(0.8, 6.8, 1.25)], 2);
  const toe = spine([at(0.86, 5.2, 1.1), at(0.95, 2.2, 0.8), at(1, 0.5, 0.5)], 3);
  return tube([...thigh, ...shin, ...toe]);
}

/** An arm bent forward to a pair of fingers, the upper one open. */
function claw(side: number, size: number): Field {
  const arm = tube(spine([[side * 9, -6, 8, 2.2], [side * 15.5, -10.5, 9, 2.3], [side * 18, -14.6, 10.4, 2.1]], 4));
  const palm = ellipsoid([side * 15.6, -18.2, 11.6], [4.2 * size, 4.8 * size, 3.7 * size]);
  const fixed = tube(spine([[side * 15, -20, 10.2, 2.1 * size], [side * 12, -23.4, 10, 1.5 * size], [side * 8.6, -24.6, 11.2, 0.65 * size]], 4));
  const thumb = tube(spine([[side * 16, -20.4, 13.6, 1.9 * size], [side * 12.8, -23.2, 15.8, 1.4 * size], [side * 9, -24.6, 14.4, 0.6 * size]], 4));
  return blend(0.8, arm, palm, fixed, thumb);
}
