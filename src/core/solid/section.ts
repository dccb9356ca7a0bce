/**
 * The horizontal sections of a posed solid, mesh or primitive, as closed loops in mold coordinates. Posed as
 * `poseSolid` does it: turned and indexed once, then cut wherever it is put.
 */
import { heightIndex } from './mesh-index.ts';
import { orientSolid, scaledShape, type OrientOptions } from './pose.ts';
import { primitiveReach, type Direction } from './primitives.ts';
import { isRound, roundSection, type Round } from './section-primitive.ts';
import { meshSections, type SectionLoop } from './section-mesh.ts';
import { turnOf } from './shape-turn.ts';
import type { Bounds } from './solid.ts';

/** Sections of one solid where it stands. */
export interface Sections {
  readonly bounds: Bounds;
  /**
   * The section at a height, mm: outer loops counterclockwise, holes clockwise, looking down. At a flat face that of
   * just above it; nothing at the top and above. Meshes are cut exactly; of round primitives every point is on the true
   * curve and no chord strays by more than `ARC_MM`.
   */
  at(zMm: number): readonly SectionLoop[];
}

/** A solid scaled and turned, its lowest point at height 0. */
export interface Sliceable {
  readonly sizeMm: readonly [number, number, number];
  /** Where the center of its bounds is in plan, and its lowest point. */
  placed(at: { readonly xMm: number; readonly yMm: number; readonly baseMm: number }): Sections;
}

/**
 * Cost: of a mesh one `meshProfile`; of a primitive next to nothing.
 * @throws {SolidError} as `orientSolid`; a section throws where the mesh is open there
 */
export function sliceable(options: OrientOptions): Sliceable {
  const { sizeMm, cut } = ownSections(options);
  const [length, width, height] = sizeMm;
  return {
    sizeMm,
    placed: ({ xMm, yMm, baseMm }) => ({
      bounds: { min: [xMm - length / 2, yMm - width / 2, baseMm], max: [xMm + length / 2, yMm + width / 2, baseMm + height] },
      at: (zMm) => {
        const loops = cut(zMm - baseMm);
        for (const loop of loops) {
          for (let i = 0; i < loop.length; i += 2) {
            loop[i] += xMm;
            loop[i + 1] += yMm;
          }
        }
        return loops;
      },
    }),
  };
}

interface OwnSections {
  readonly sizeMm: readonly [number, number, number];
  readonly cut: (zMm: number) => SectionLoop[];
}

function ownSections(options: OrientOptions): OwnSections {
  const { shape } = options;
  if (shape.type !== 'mesh' && shape.type !== 'library') {
    const scaled = scaledShape(shape, options.scale);
    if (isRound(scaled)) return roundSections(scaled, options.turnDeg);
  }
  const oriented = orientSolid(options);
  return { sizeMm: oriented.sizeMm, cut: meshSections(oriented.index ?? heightIndex(oriented.mesh())) };
}

function roundSections(shape: Round, turnDeg: OrientOptions['turnDeg']): OwnSections {
  const turn = turnOf(turnDeg);
  const rows = [0, 3, 6].map((i): Direction => [turn[i], turn[i + 1], turn[i + 2]]);
  const max = rows.map((d) => primitiveReach(shape, d));
  const min = rows.map(([x, y, z]) => -primitiveReach(shape, [-x, -y, -z]));
  const middleX = (min[0] + max[0]) / 2;
  const middleY = (min[1] + max[1]) / 2;
  const height = max[2] - min[2];
  const toMold = (x: number, y: number, z: number, out: Float64Array): void => {
    out[0] = turn[0] * x + turn[1] * y + turn[2] * z - middleX;
    out[1] = turn[3] * x + turn[4] * y + turn[5] * z - middleY;
  };
  return {
    sizeMm: [max[0] - min[0], max[1] - min[1], height],
    cut: (zMm) => {
      if (!(zMm >= 0 && zMm < height)) return [];
      const loop = roundSection(shape, rows[2], zMm + min[2], toMold);
      return loop ? [loop] : [];
    },
  };
}
