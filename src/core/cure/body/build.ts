/**
 * A piece in its mold as a body to follow the heat of: resin, what is cast in, wall and floor, the table below, still air
 * around. Left out, and cautious: the walls above the pour so far, which cool like fins for about a centimeter; figures
 * that stand out of it; the table beyond the mold's foot. Left out, and not: that air stands stiller below a high rim.
 */
import type { Mold } from '../../scene/scene.ts';
import { moldWallOvershoot } from '../../solid/mold.ts';
import type { ThermalMaterial } from '../kinetics.ts';
import { sectionOf } from '../situation.ts';
import type { Body, BodyPour, BodyRoom } from './body.ts';
import { AIR, RESIN, type BodySolid } from './cells.ts';
import type { Squareness } from './faces.ts';
import type { BodyFilms } from './films.ts';
import { boxGrid, linesThrough, ringGrid, type BodyGrid } from './grid.ts';
import type { PlacementAt } from './inside.ts';
import { TABLE_MATERIAL, wallMaterial } from './thermal-materials.ts';

export interface CastIn {
  readonly material: ThermalMaterial;
  /** Share of it that drinks resin, 0 ≤ share < 1. */
  readonly voidFraction?: number;
}

export interface CastingBuild {
  readonly mold: Mold;
  /** From the floor up, in the order they are poured, each on the one before. */
  readonly pours: readonly BodyPour[];
  /** Figures and beds; `placementAt` answers their numbers. */
  readonly castIn: readonly CastIn[];
  readonly placementAt: PlacementAt;
  /** Every one of them stands on the mold's axis and is round about it (`roundOnAxis`). */
  readonly castInRound: boolean;
  readonly room: BodyRoom;
  /** When to stop, s; after the last pour. */
  readonly endS: number;
}

export interface BuildOptions {
  /** Cells of the whole grid at most. */
  readonly mostCells?: number;
  /** Finest cells, mm. */
  readonly cellMm?: number;
  /** Films other than still air. */
  readonly films?: BodyFilms;
  /** The table's thickness, mm; 0: the mold stands on air. */
  readonly tableMm?: number;
}

/** `mostCells`: with ten pours some 12 s on one core. `cellMm`: half of it moves the peak of 48 °C of a 20 mm pour by 0.04 K, twice it by 0.12 K. */
const BUILD_DEFAULTS = { mostCells: 80_000, cellMm: 1.5, tableMm: 20 } as const;

/** Fewest cells of a pour's depth, of the wall and of the table. */
const LEAST_OF_A_POUR = 3;
const CELLS_OF_THE_TABLE = 2;
/** Cells are made this much larger until there are no more than there may be. */
const COARSER = 1.05;
/** mm. Far below a cell, far above the rounding of the mold's own numbers. */
const GRADIENT_MM = 0.01;

/** @throws {Error} where pours, room or end can't be followed. */
export function bodyOf(build: CastingBuild, options: BuildOptions = {}): Body {
  const { mold, pours, castIn, placementAt, castInRound, room, endS } = build;
  const { mostCells = BUILD_DEFAULTS.mostCells, cellMm = BUILD_DEFAULTS.cellMm, tableMm = BUILD_DEFAULTS.tableMm } = options;
  check(build);
  const { wallMm } = mold;
  const rings = mold.shape === 'round' && castInRound;
  let grid = gridOf(mold, pours, { rings, cellMm, tableMm });
  for (let wide = cellMm * COARSER; grid.layer * grid.nz > mostCells && wide < mold.heightMm; wide *= COARSER) {
    grid = gridOf(mold, pours, { rings, cellMm: wide, tableMm });
  }
  const wall = castIn.length;
  const table = wall + 1;
  const solids: BodySolid[] = [
    ...castIn.map(({ material, voidFraction }) => ({ material, resinShare: voidFraction })),
    { material: wallMaterial(mold.material) },
    { material: TABLE_MATERIAL },
  ];
  const sample = (xMm: number, yMm: number, zMm: number): number => {
    const over = moldWallOvershoot(mold, xMm, yMm, zMm);
    if (over > wallMm) return AIR;
    if (zMm < -wallMm) return table;
    if (zMm < 0 || over > 0) return wall;
    const placement = placementAt(xMm, yMm, zMm);
    return placement < 0 ? RESIN : placement;
  };
  const stepped = mold.draftDeg > 0 || (mold.shape === 'round' ? !rings : mold.cornerRadiusMm > 0);
  return {
    grid, pours, solids, sample, room, endS,
    watched: castIn.map((_, i) => i),
    sidesClosed: table,
    squareness: stepped ? squarenessTo(mold) : undefined,
    films: options.films ?? stillAirAbout(mold),
  };
}

function check({ pours, room, endS }: CastingBuild): void {
  if (pours.length === 0) throw new Error('There is no pour to follow the heat of; found none, expected at least one.');
  if (room.length === 0) throw new Error("The room's temperature is missing; give at least one entry.");
  pours.forEach(({ fromMm, toMm, atS }, p) => {
    const below = p === 0 ? { toMm: 0, atS: -Infinity } : pours[p - 1];
    const sound = toMm > fromMm && Math.abs(fromMm - below.toMm) < SAME_HEIGHT_MM && Number.isFinite(atS) && atS > below.atS;
    if (!sound) throw new Error(`Pour ${p + 1} goes from ${fromMm} to ${toMm} mm at ${atS} s; expected it on top of the one before, at ${below.toMm} mm, and after it (${below.atS} s).`);
  });
  if (!(endS > pours[pours.length - 1].atS)) throw new Error(`The end at ${endS} s is not after the last pour at ${pours[pours.length - 1].atS} s; give a later one.`);
}

/** mm. The planner's heights of two pours that touch are the same number, give or take rounding. */
const SAME_HEIGHT_MM = 1e-6;

function gridOf(mold: Mold, pours: readonly BodyPour[], { rings, cellMm, tableMm }: { readonly rings: boolean; readonly cellMm: number; readonly tableMm: number }): BodyGrid {
  const { wallMm } = mold;
  const topMm = pours[pours.length - 1].toMm;
  const zStops = [-wallMm, 0, ...pours.map(({ toMm }) => toMm)];
  for (const { fromMm, toMm } of pours) for (let c = 1; c < LEAST_OF_A_POUR; c++) zStops.push(fromMm + ((toMm - fromMm) * c) / LEAST_OF_A_POUR);
  for (let c = 1; tableMm > 0 && c <= CELLS_OF_THE_TABLE; c++) zStops.push(-wallMm - (tableMm * c) / CELLS_OF_THE_TABLE);
  // The table's cells may be as thick as they are: little of the heat gets there.
  const zMm = Float64Array.from([...zStops.filter((z) => z < -wallMm).sort((a, b) => a - b), ...linesThrough(zStops.filter((z) => z >= -wallMm), cellMm)]);
  const growth = topMm * Math.tan((mold.draftDeg * Math.PI) / 180);
  const stops = (halfMm: number): number[] => {
    const outer = halfMm + growth + wallMm;
    // A leaning wall has no line of its own: its cells share.
    return growth > 0 || (mold.shape === 'round' && !rings) ? [outer] : [halfMm, outer];
  };
  if (mold.shape === 'round') {
    const radius = stops(mold.diameterMm / 2);
    if (rings) return ringGrid(linesThrough([0, ...radius], cellMm), zMm);
    const across = linesThrough(bothWays(radius), cellMm);
    return boxGrid(across, across, zMm);
  }
  return boxGrid(linesThrough(bothWays(stops(mold.lengthMm / 2)), cellMm), linesThrough(bothWays(stops(mold.widthMm / 2)), cellMm), zMm);
}

const bothWays = (stops: readonly number[]): number[] => [...stops, ...stops.map((stop) => -stop)];

/** How squarely a step of cells stands to the wall there, by the gradient of the distance to it. */
function squarenessTo(mold: Mold): Squareness {
  return (axis, xMm, yMm, zMm) => {
    const z = Math.max(zMm, GRADIENT_MM);
    const along = (dx: number, dy: number, dz: number): number =>
      moldWallOvershoot(mold, xMm + dx, yMm + dy, z + dz) - moldWallOvershoot(mold, xMm - dx, yMm - dy, z - dz);
    const gradient = [along(GRADIENT_MM, 0, 0), along(0, GRADIENT_MM, 0), zMm < 0 ? 0 : along(0, 0, GRADIENT_MM)];
    const length = Math.hypot(...gradient);
    return length > 0 ? Math.abs(gradient[axis]) / length : 1;
  };
}

/** Upright faces are as high as the mold outside; level ones are as wide as its section. */
function stillAirAbout(mold: Mold): BodyFilms {
  const { areaMm2, perimeterMm } = sectionOf(mold);
  const wide = { stillAirMm: areaMm2 / perimeterMm };
  return { up: wide, down: wide, aside: { stillAirMm: mold.heightMm + mold.wallMm } };
}
