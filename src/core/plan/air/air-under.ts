/** Air that stays under a figure: a bubble no gadget gets out once the resin has gone over it. */
import { airPockets, type AirPocket } from '../../solid/air-pockets.ts';
import type { TriangleMesh } from '../../solid/solid.ts';
import { counted, mm } from '../../units/format.ts';
import { poursWithin, type Planned } from '../context.ts';
import type { Finding } from '../plan.ts';

/** A dimple this deep holds a bubble that is seen (from memory), mm. */
const LEAST_MM = 1;
/** Finer meshes are not looked at: some 5 ms for each 10,000 triangles. */
const MOST_TRIANGLES = 500_000;

/** By the mesh before it is moved to its place: a figure that is dragged is looked at once. */
const KNOWN = new WeakMap<TriangleMesh, readonly AirPocket[]>();

export function airUnder(planned: Planned): Finding[] {
  return planned.solids.flatMap(({ placement, solid }): Finding[] => {
    const [deepest, ...more] = placement.kind === 'figure' && solid ? pocketsOf(solid.uprightMesh()) : [];
    if (!deepest) return [];
    const topMm = solid!.bounds.min[2] + deepest.topMm;
    const also = more.length === 0 ? '' : `, and in ${counted(more.length, 'more hollow')}`;
    return [{
      code: 'air-trap',
      severity: 'note',
      subject: placement.id,
      message: `Air stays in a hollow under ${placement.name}, ${mm(deepest.deepMm)} deep${also}.`,
      remedy: 'Brush resin into it as you set it in, tilt it so that the hollow opens upward, or fill it before.',
      pours: poursWithin(planned, topMm - deepest.deepMm, topMm),
    }];
  });
}

function pocketsOf(mesh: TriangleMesh): readonly AirPocket[] {
  const known = KNOWN.get(mesh);
  if (known) return known;
  const pockets = mesh.indices.length / 3 > MOST_TRIANGLES ? [] : airPockets(mesh, LEAST_MM);
  KNOWN.set(mesh, pockets);
  return pockets;
}
