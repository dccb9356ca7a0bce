/** What a casting is made of to the one who follows its heat, and what is told of it. Lengths mm in the mold's frame, seconds. */
import type { Kinetics, ThermalMaterial } from '../kinetics.ts';
import type { RateLaw } from '../stack-types.ts';
import type { BodySampler, BodySolid } from './cells.ts';
import type { Squareness } from './faces.ts';
import type { BodyFilms } from './films.ts';
import type { BodyGrid } from './grid.ts';
import type { BodySlice, Hottest } from './record.ts';

export interface BodyPour {
  /** The grid has a line at either height. */
  readonly fromMm: number;
  readonly toMm: number;
  /** Seconds since the run's own zero. */
  readonly atS: number;
  /** Of the mix as it is poured; the room's at that moment where none is given. */
  readonly mixC?: number;
  /** A law made once by `tabulated` saves making it again. */
  readonly kinetics: Kinetics | RateLaw;
  readonly material: ThermalMaterial;
}

/** Ascending; the first entry holds before its moment too. */
export type BodyRoom = readonly { readonly fromS: number; readonly temperatureC: number }[];

export interface Body {
  readonly grid: BodyGrid;
  /** In the order they are poured; the first stands on what is below it from the start. */
  readonly pours: readonly BodyPour[];
  readonly solids: readonly BodySolid[];
  /** Numbers among `solids` that a record is kept of. */
  readonly watched: readonly number[];
  readonly sample: BodySampler;
  readonly squareness?: Squareness;
  /** The solid whose upright faces lose nothing: a table, which goes on beyond the grid. */
  readonly sidesClosed?: number;
  readonly films: BodyFilms;
  readonly room: BodyRoom;
  readonly endS: number;
}

export interface BodyOptions {
  /** Largest error of a step that is accepted, anywhere. */
  readonly temperatureToleranceK?: number;
  readonly conversionTolerance?: number;
  /** Of a slice through the body at each pour's hottest moment, and at each of these. */
  readonly sliceAtS?: readonly number[];
  /** The plane the slices lie in; the middle where none is given. */
  readonly sliceYMm?: number;
  /** Points whose temperature is followed: that of the cell they lie in. Rings: radius, 0, height. */
  readonly probesMm?: readonly (readonly [number, number, number])[];
}

/** From here to a hundredth of it, peaks up to 72 °C moved by at most 0.02 K, those of runaways to 138 and 158 °C by 0.5 K. */
export const BODY_DEFAULTS = { temperatureToleranceK: 0.05, conversionTolerance: 0.002 } as const;

export interface BodyProgress {
  /** Seconds of the casting's time, of all there are. */
  readonly atS: number;
  readonly endS: number;
  readonly steps: number;
}

export interface PourHeat {
  /** In the pour, from when it is poured until the next is. */
  readonly hottest: Hottest;
  /** In it at any time: a later pour may warm it again. */
  readonly hottestEver: Hottest;
  /** At the hottest moment until the next pour; null where that comes at once. */
  readonly slice: BodySlice | null;
}

export interface SolidHeat {
  /** Number among the body's solids. */
  readonly solid: number;
  /** Of the cells it has a share in; −Infinity of one that no cell has. */
  readonly hottest: Hottest;
  /** Of its faces, at the ends of steps. */
  readonly surfaceC: number;
}

export interface BodyHeat {
  readonly pours: readonly PourHeat[];
  readonly solids: readonly SolidHeat[];
  readonly slices: readonly BodySlice[];
  /** At the end of every step: the hottest point of the newest pour, and each probe (NaN before anything is there). */
  readonly course: { readonly atS: Float64Array; readonly hottestC: Float64Array; readonly probesC: readonly Float64Array[] };
  readonly probes: readonly Hottest[];
  /** Unaccounted share of the heat that was released and brought. It proves that the sums close, not that they are right. */
  readonly energyBalance: number;
  readonly cells: number;
  readonly steps: number;
  readonly rejected: number;
  readonly rounds: number;
  /** The heat outran every step: what is told ends at this moment. Null: all went through. */
  readonly stuckAtS: number | null;
}
