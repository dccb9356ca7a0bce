/** The independent integrator (odex: Hairer & Wanner's extrapolation code), as far as the checks use it. */
import { createRequire } from 'node:module';

interface OdexSolver {
  absoluteTolerance: number;
  relativeTolerance: number;
  maxSteps: number;
  maxStepSize: number;
  initialStepSize: number;
  denseOutput: boolean;
  solve(f: (t: number, y: number[]) => number[], from: number, start: number[], to: number, out?: OdexOutput): { y: number[]; outcome: number; nStep: number; nEval: number };
}

/** `interpolate(i, t)` between the last two accepted points, where dense output is on. */
export type OdexOutput = (n: number, before: number, after: number, y: number[], interpolate: (component: number, t: number) => number) => false | void;

// A CommonJS package without types.
const { Solver } = createRequire(import.meta.url)('odex') as { Solver: new (n: number) => OdexSolver };

export interface OdexOptions {
  readonly tolerance: number;
  /** Longest step; 0 for any. */
  readonly longestS?: number;
  readonly out?: OdexOutput;
}

/** y at `to`. Throws unless it got there. */
export function odex(f: (t: number, y: number[]) => number[], [from, to]: readonly [number, number], { start, tolerance, longestS = 0, out }: OdexOptions & { readonly start: number[] }): number[] {
  const solver = new Solver(start.length);
  solver.absoluteTolerance = tolerance;
  solver.relativeTolerance = tolerance;
  solver.maxSteps = 10_000_000;
  solver.maxStepSize = longestS;
  solver.denseOutput = out !== undefined;
  const { y, outcome } = solver.solve(f, from, start.slice(), to, out);
  if (outcome !== 0 || y.some((value) => !Number.isFinite(value))) throw new Error(`odex did not reach ${to} (outcome ${outcome})`);
  return y;
}
