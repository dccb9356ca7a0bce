/** Whether something cast in is round about the mold's axis, so that the heat of a round piece is too. */
import type { SolidPlacement } from '../../scene/scene.ts';

/** mm and degrees: what a scene's text can't tell from none. */
const SAME = 1e-6;

/** A ball on the axis; an upright cylinder, cone, cap or round ellipsoid, either way up. Meshes are none: they are not looked into. */
export function roundOnAxis({ shape, xMm, yMm, turnDeg }: Pick<SolidPlacement, 'shape' | 'xMm' | 'yMm' | 'turnDeg'>): boolean {
  if (Math.hypot(xMm, yMm) > SAME) return false;
  if (shape.type === 'sphere') return true;
  const turned = Math.max(fromHalfTurn(turnDeg[0]), fromHalfTurn(turnDeg[1]));
  if (turned > SAME) return false;
  if (shape.type === 'ellipsoid') return Math.abs(shape.lengthMm - shape.widthMm) <= SAME;
  return shape.type === 'cylinder' || shape.type === 'cone' || shape.type === 'cap';
}

/** How far an angle is from the nearest half turn, degrees. */
function fromHalfTurn(deg: number): number {
  return Math.abs(deg - 180 * Math.round(deg / 180));
}
