/** Single bodies of one material, to hold the solver of stacks against textbooks. */
import type { Kinetics, ThermalMaterial } from '../../../src/core/cure/kinetics.ts';
import type { RateLaw, RoomSpan, StackOptions, StackShape } from '../../../src/core/cure/stack-types.ts';
import { advance, pourOn, startStack, type StackState } from '../../../src/core/cure/stack.ts';
import { INERT } from './laws.ts';

/** Physics' own example of cast epoxy. */
export const EPOXY: ThermalMaterial = { densityKgPerM3: 1150, heatCapacityJPerKgK: 1900, conductivityWPerMK: 0.2 };

/** Conductivity, density and heat capacity 1: times are Fourier numbers in a body of 1 m. */
export const UNIT: ThermalMaterial = { densityKgPerM3: 1, heatCapacityJPerKgK: 1, conductivityWPerMK: 1 };

export function diffusivity({ densityKgPerM3, heatCapacityJPerKgK, conductivityWPerMK }: ThermalMaterial): number {
  return conductivityWPerMK / (densityKgPerM3 * heatCapacityJPerKgK);
}

/** Steps so short that what is left of an error is the grid's. */
export const EXACT: StackOptions = { temperatureToleranceK: 1e-4, conversionTolerance: 1e-6, firstStepS: 0.01, mergeAfterPours: Infinity };

export interface SingleBody {
  readonly depthMm: number;
  readonly startC: number;
  readonly topH: number;
  readonly bottomH: number;
  readonly shape?: StackShape;
  readonly cells?: number;
  readonly roomC?: number;
  readonly room?: readonly RoomSpan[];
  readonly material?: ThermalMaterial;
  readonly law?: Kinetics | RateLaw;
  readonly sideWPerM3K?: number;
  readonly conversion?: number;
}

/** The body at its start; `advance` runs it. */
export function bodyOf(body: SingleBody, options: StackOptions = EXACT): StackState {
  const stack = startStack(
    { room: body.room ?? [{ fromS: 0, temperatureC: body.roomC ?? 0 }], topHWPerM2K: body.topH, bottomHWPerM2K: body.bottomH },
    { ...options, shape: body.shape ?? 'slab', cellMm: body.depthMm / (body.cells ?? 101) },
  );
  const { depthMm, startC, material = EPOXY, law = INERT, sideWPerM3K = 0, conversion } = body;
  pourOn(stack, { depthMm, mixC: startC, material, kinetics: law, sideWPerM3K, conversion }, 0);
  return stack;
}

export function runTo(body: SingleBody, untilS: number, options: StackOptions = EXACT): StackState {
  const stack = bodyOf(body, options);
  if (advance(stack, untilS) !== 'reached') throw new Error(`stuck at ${stack.timeS} s of ${untilS} s`);
  return stack;
}
