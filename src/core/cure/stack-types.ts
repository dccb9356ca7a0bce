/**
 * What a stack of pours is made of, and what is told of it. Heights in mm from the stack's floor up; times in seconds
 * since the stack's own zero, those of a pour's record since it was poured.
 */
import type { Kinetics, ThermalMaterial } from './kinetics.ts';

/** Cells of one pour, as a rate law sees them: `from` up to, not including, `to`. */
export interface RateCells {
  from: number;
  to: number;
  readonly conversion: Float64Array;
  readonly temperatureC: Float64Array;
  /** Out: dα/dt, 1/s. */
  readonly ratePerS: Float64Array;
  /** Out of `slopes` only: ∂/∂α of the rate, and ∂/∂T per kelvin. */
  readonly byConversion: Float64Array;
  readonly byKelvin: Float64Array;
}

/** Any law of cure. `slopes` fills the rate too. `tabulated` in kinetics.ts makes one of a Kinetics. */
export interface RateLaw {
  readonly heatJPerKg: number;
  readonly gelAlpha: number;
  rate(cells: RateCells): void;
  slopes(cells: RateCells): void;
}

export interface StackPour {
  readonly depthMm: number;
  /** Temperature of the mix as it is poured. */
  readonly mixC: number;
  readonly material: ThermalMaterial;
  /** A law made once by `tabulated` saves making it with every pour. */
  readonly kinetics: Kinetics | RateLaw;
  /** Loss to the room through the sides, per volume of the pour. */
  readonly sideWPerM3K: number;
  /** Conversion it is poured with; 0 where none is given. */
  readonly conversion?: number;
}

/** From a moment on, until the next entry. */
export interface RoomSpan {
  readonly fromS: number;
  readonly temperatureC: number;
  /** Steady rise from there on; none where none is given. */
  readonly risePerS?: number;
}

export interface StackSurroundings {
  /** Ascending; the first entry holds before its moment too. */
  readonly room: readonly RoomSpan[];
  /** Film on the open face, W/m²K; 0 is insulated, Infinity holds the face at the room's temperature. */
  readonly topHWPerM2K: number;
  readonly bottomHWPerM2K: number;
}

export type StackShape = 'slab' | 'cylinder' | 'sphere';

export interface StackOptions {
  /** Thickness of a cell; a pour has an odd number of them, so that one lies in its middle. */
  readonly cellMm?: number;
  /** Fewest cells of a pour. */
  readonly leastCells?: number;
  /** Largest error of a step that is accepted, anywhere. */
  readonly temperatureToleranceK?: number;
  readonly conversionTolerance?: number;
  /** Length of the first step after a pour or a change of the room. */
  readonly firstStepS?: number;
  readonly longestStepS?: number;
  /** Pours with at least this many above them have their cells joined four to one; Infinity joins none. */
  readonly mergeAfterPours?: number;
  /** `cylinder` and `sphere`: height is the radius, the floor the axis or center. For checks. */
  readonly shape?: StackShape;
}

/** Of one pour, from when it was poured until the next was. */
export interface PourRecord {
  readonly pouredAtS: number;
  /** At the middle of its depth. */
  midPeakC: number;
  midPeakAtS: number;
  /** Null: not reached. */
  midGelS: number | null;
  /** At its hottest point. */
  peakC: number;
  hottestAtS: number;
  hottestHeightMm: number;
}

/** The newest pour (unless said otherwise) at one moment. One object for all moments: copy what you keep. */
export interface Sighting {
  timeS: number;
  /** Since the newest pour. */
  sinceS: number;
  roomC: number;
  /** The open face. */
  surfaceC: number;
  surfaceConversion: number;
  midC: number;
  midConversion: number;
  /** Hottest and least cured cell, and the whole. */
  hottestC: number;
  minConversion: number;
  meanConversion: number;
  /** Anywhere in the stack. */
  stackHottestC: number;
  /** The newest pour's record so far: its hottest point, between steps too. */
  peakC: number;
}

export interface AdvanceOptions {
  /** Called after every accepted step. */
  readonly watch?: (sighting: Readonly<Sighting>) => void;
  /** Ends the run early when it says so, after an accepted step. */
  readonly until?: (sighting: Readonly<Sighting>) => boolean;
}

/** `stuck`: the heat outruns every step, as only a law without exhaustion can make it. */
export type Stop = 'reached' | 'stopped' | 'stuck';

/** Along the height, from the floor up. */
export interface StackProfile {
  readonly heightMm: Float64Array;
  readonly temperatureC: Float64Array;
  readonly conversion: Float64Array;
  /** Which pour each height lies in. */
  readonly pour: Uint16Array;
}
